"""Published facts of the turning error and of rolling out by the compass, row by row."""

from collections.abc import Callable

import pytest

from app.physics.card import critical_bank_deg, lag_deg, turn_reading_deg, turn_sense, usable
from app.physics.dipole import dip_from_magnetic_latitude_deg
from app.physics.turning import (
    angle_from_north_or_south_deg,
    bank_fifteen_percent_deg,
    normal_lead_deg,
    reading_by_taper_deg,
    rollout_by_allowance_deg,
    rollout_by_latitude_deg,
    rollout_tapered_deg,
    taper,
)
from tests.authorities.published import Row, row_id, rows
from tests.tolerances import EXACT, HALF_DEGREE

DIP_DEG = 68.0
RATE_ONE_BANK_DEG = 15.4
BOTH_SIDES_DEG = (-RATE_ONE_BANK_DEG, RATE_ONE_BANK_DEG)


def behind_from_north(_row: Row) -> None:
    assert {turn_sense(0.0, DIP_DEG, bank) for bank in BOTH_SIDES_DEG} == {"behind"}


def ahead_from_south(_row: Row) -> None:
    assert {turn_sense(180.0, DIP_DEG, bank) for bank in BOTH_SIDES_DEG} == {"ahead"}


def right_from_east_and_west(_row: Row) -> None:
    errors = [lag_deg(heading, DIP_DEG, bank) for heading in (90.0, 270.0) for bank in BOTH_SIDES_DEG]
    assert errors == [0.0] * 4


def lead_is_about_the_latitude(_row: Row) -> None:
    """In a dipole field the model gives 0.5 to 1.0 of the latitude: "about" is the handbook's word, not ours."""
    for latitude in range(20, 51, 5):
        for bank in (15.0, 18.0):
            share = lag_deg(0.0, dip_from_magnetic_latitude_deg(latitude), bank) / latitude
            assert 0.5 <= share <= 1.0
            assert lag_deg(180.0, dip_from_magnetic_latitude_deg(latitude), bank) / latitude == pytest.approx(-share)


def rule_leads_and_overshoots(_row: Row) -> None:
    assert normal_lead_deg(18.0) == 9.0
    assert rollout_by_latitude_deg(360.0, "right", "north", 40.0, 9.0) == pytest.approx(360.0 - (40.0 + 9.0))
    assert rollout_by_latitude_deg(180.0, "right", "north", 40.0, 9.0) == pytest.approx(180.0 + (40.0 - 9.0))


def worked_rollout(row: Row) -> None:
    inputs = row["inputs"]
    lead = inputs.get("normal_lead", normal_lead_deg(inputs.get("bank", 0)))
    start = rollout_by_latitude_deg(inputs["target"], inputs["turn"], "north", inputs["latitude"], lead)
    assert start == pytest.approx(row["expected"], abs=HALF_DEGREE)


def even_taper(row: Row) -> None:
    latitude = row["inputs"]["latitude"]
    for past_south, excess in zip(row["inputs"]["at_degrees_from_south"], row["expected"], strict=True):
        shown = reading_by_taper_deg(180.0 + past_south, "right", "north", latitude)
        assert shown - (180.0 + past_south) == pytest.approx(excess, abs=EXACT)


def fixed_allowance_at_nodes(_row: Row) -> None:
    for target, allowance in ((360.0, 30.0), (330.0, 20.0), (300.0, 10.0), (270.0, 0.0)):
        start = rollout_by_allowance_deg(target, "right", "north", 30.0)
        assert start == pytest.approx(target - allowance, abs=EXACT)
        assert allowance == pytest.approx(30.0 * (1.0 - angle_from_north_or_south_deg(target) / 90.0))


def nothing_without_dip(_row: Row) -> None:
    assert lag_deg(0.0, 0.0, RATE_ONE_BANK_DEG) == 0.0
    assert taper(0.0, "none") == 0.0
    lags = [lag_deg(0.0, dip, RATE_ONE_BANK_DEG) for dip in range(0, 75, 5)]
    assert lags == sorted(lags)


def south_mirrors_north(_row: Row) -> None:
    """Overshoot north, undershoot south where the dip is up."""
    assert rollout_tapered_deg(360.0, "right", "south", 30.0) == 30.0
    assert rollout_tapered_deg(180.0, "right", "south", 30.0) == 150.0
    assert turn_sense(0.0, -DIP_DEG, RATE_ONE_BANK_DEG) == "ahead"
    assert turn_sense(180.0, -DIP_DEG, RATE_ONE_BANK_DEG) == "behind"


def useless_at_twenty_degrees(_row: Row) -> None:
    """At dip 70, as in the northern United States, the critical bank is 20 degrees: beyond it east reads west."""
    assert critical_bank_deg(70.0) == 20.0
    assert not usable(20.0, 70.0)
    assert turn_reading_deg(90.0, 70.0, 21.0) == 270.0


def card_is_free_up_to_rate_one(_row: Row) -> None:
    """The freedom of 18 degrees holds every bank of the 15 % rule to 120 kt."""
    assert max(bank_fifteen_percent_deg(tas) for tas in range(60, 121)) <= 18.0


CHECKS: dict[str, Callable[[Row], None]] = {
    "start-from-north": behind_from_north,
    "start-from-south": ahead_from_south,
    "start-from-east-west": right_from_east_and_west,
    "lead-about-latitude": lead_is_about_the_latitude,
    "rollout-rule": rule_leads_and_overshoots,
    "rollout-30N-east-to-north": worked_rollout,
    "rollout-30N-west-to-north": worked_rollout,
    "rollout-30N-east-to-south": worked_rollout,
    "rollout-30N-west-to-south": worked_rollout,
    "rollout-30N-lead5-east-to-north": worked_rollout,
    "rollout-30N-lead5-east-to-south": worked_rollout,
    "linear-taper": even_taper,
    "node-taper-30": fixed_allowance_at_nodes,
    "zero-at-magnetic-equator": nothing_without_dip,
    "southern-reversed": south_mirrors_north,
    "twenty-degrees-of-bank": useless_at_twenty_degrees,
    "tilt-freedom": card_is_free_up_to_rate_one,
}


@pytest.mark.parametrize("row", rows("turning"), ids=row_id)
def test_row(row: Row) -> None:
    CHECKS[row["id"]](row)
