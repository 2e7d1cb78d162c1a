"""Published facts of deviation, the swing and the correction card, row by row."""

from collections.abc import Callable
from dataclasses import astuple

import pytest

from app.physics.angles import difference
from app.physics.deviation import (
    Coefficients,
    card_from_deviations,
    coefficients_from_swing,
    compensate,
    deviation_deg,
    deviation_for_magnetic,
    least_squares_coefficients,
)
from app.physics.headings import deviation_between, magnetic_from_compass_heading
from tests.authorities.published import Row, row_id, rows
from tests.tolerances import EXACT, PRINTED_HUNDREDTH

NGA_SWING = Coefficients(1.0, 12.0, 8.0, 5.0, 1.5)
ALL_ROUND = range(360)
INTERPOLATION_AND_ROUNDING_DEG = 1.2  # whole degrees on the card, and a curve between entries taken as straight


def added_to_the_compass(_row: Row) -> None:
    for compass, deviation in ((350.0, 15.0), (10.0, -15.0), (90.0, -3.0)):
        magnetic = magnetic_from_compass_heading(compass, deviation)
        assert difference(magnetic, compass) == deviation == deviation_between(magnetic, compass)


def swing(row: Row) -> None:
    headings, found = row["inputs"]["heading"], row["inputs"]["deviation"]
    classic = coefficients_from_swing(found)
    assert astuple(classic) == pytest.approx(tuple(row["expected"].values()), abs=EXACT)
    fitted = least_squares_coefficients(headings, found)
    assert astuple(fitted) == pytest.approx((1.00, 11.94, 7.96, 5.00, 1.50), abs=PRINTED_HUNDREDTH)
    residuals = [abs(deviation_deg(fitted, heading) - seen) for heading, seen in zip(headings, found, strict=True)]
    assert max(residuals) == pytest.approx(0.07, abs=PRINTED_HUNDREDTH)


def peaks(_row: Row) -> None:
    where = {"b": {90, 270}, "c": {0, 180}, "d": {45, 135, 225, 315}, "e": {0, 90, 180, 270}, "a": set(ALL_ROUND)}
    nothing = dict.fromkeys("abcde", 0.0)
    for name, headings in where.items():
        alone = Coefficients(**{**nothing, name: 3.0})
        assert {h for h in ALL_ROUND if abs(deviation_deg(alone, h)) == 3.0} == headings


def greatest(coefficients: Coefficients) -> float:
    return max(abs(deviation_deg(coefficients, heading)) for heading in ALL_ROUND)


def within_ten_after_compensation(_row: Row) -> None:
    assert greatest(NGA_SWING) > 10.0
    assert greatest(compensate(NGA_SWING)[-1].remaining) <= 10.0


def thirty_degrees_apart_will_do(_row: Row) -> None:
    """Entries 30 degrees apart give a compensated installation's deviation between them."""
    left = compensate(NGA_SWING)[-1].remaining
    entries = range(30, 361, 30)
    card = card_from_deviations(entries, [deviation_deg(left, heading) for heading in entries])
    errors = [abs(deviation_for_magnetic(card, heading) - deviation_deg(left, heading)) for heading in ALL_ROUND]
    assert max(errors) <= INTERPOLATION_AND_ROUNDING_DEG


CHECKS: dict[str, Callable[[Row], None]] = {
    "definition": added_to_the_compass,
    "nga-swing": swing,
    "where-coefficients-peak": peaks,
    "ten-degree-limit": within_ten_after_compensation,
    "placard-step": thirty_degrees_apart_will_do,
}


@pytest.mark.parametrize("row", rows("deviation"), ids=row_id)
def test_row(row: Row) -> None:
    CHECKS[row["id"]](row)
