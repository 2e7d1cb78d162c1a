"""Published facts of rate, bank and timed turns, row by row."""

from collections.abc import Callable

import pytest

from app.physics.turning import (
    RATE_ONE_DEG_S,
    bank_fifteen_percent_deg,
    bank_for_rate_deg,
    bank_tenth_plus_seven_deg,
    normal_lead_deg,
    rate_for_bank_deg_s,
    turn_seconds,
)
from tests.authorities.published import Row, row_id, rows
from tests.tolerances import EXACT, PRINTED_TENTH


def full_circle_in_two_minutes(_row: Row) -> None:
    assert RATE_ONE_DEG_S == 3.0
    assert turn_seconds(360.0, RATE_ONE_DEG_S) == 120.0


def fifteen_percent(row: Row) -> None:
    banks = [bank_fifteen_percent_deg(tas) for tas in row["inputs"]["tas_kt"]]
    assert banks == pytest.approx(row["expected"], abs=EXACT)


def tenth_plus_seven(row: Row) -> None:
    assert bank_tenth_plus_seven_deg(row["inputs"]["tas_kt"]) == pytest.approx(row["expected"], abs=EXACT)


def exact_bank(row: Row) -> None:
    banks = [bank_for_rate_deg(tas, RATE_ONE_DEG_S) for tas in row["inputs"]["tas_kt"]]
    assert banks == pytest.approx(row["expected"], abs=PRINTED_TENTH)


def half_the_bank(row: Row) -> None:
    assert normal_lead_deg(row["inputs"]["bank"]) == row["expected"]


def timed(row: Row) -> None:
    rate = row["inputs"].get("rate", RATE_ONE_DEG_S)
    seconds = [turn_seconds(angle, rate) for angle in row["inputs"]["degrees"]]
    assert seconds == pytest.approx(row["expected_seconds"], abs=EXACT)


def rate_of_a_bank(row: Row) -> None:
    rates = [rate_for_bank_deg_s(tas, row["inputs"]["bank"]) for tas in row["inputs"]["tas_kt"]]
    assert rates == pytest.approx(row["expected"], abs=PRINTED_HUNDREDTH)
    assert [turn_seconds(360.0, rate) for rate in rates] == pytest.approx(
        row["expected_seconds"], rel=PRINTED_HUNDREDTH
    )


PRINTED_HUNDREDTH = 0.01
CHECKS: dict[str, Callable[[Row], None]] = {
    "standard-rate": full_circle_in_two_minutes,
    "bank-rule-15-percent": fifteen_percent,
    "bank-rule-plus-7": tenth_plus_seven,
    "exact-bank": exact_bank,
    "half-bank-lead": half_the_bank,
    "timed-standard": timed,
    "timed-half": timed,
    "rate-of-a-bank": rate_of_a_bank,
}


@pytest.mark.parametrize("row", rows("turn_rate"), ids=row_id)
def test_row(row: Row) -> None:
    CHECKS[row["id"]](row)
