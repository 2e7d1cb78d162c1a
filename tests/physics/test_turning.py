from math import cos, pi, radians

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.physics.angles import difference, wrap360
from app.physics.errors import OutOfRange
from app.physics.turning import (
    HALF_RATE_DEG_S,
    Hemisphere,
    TurnSide,
    angle_from_north_or_south_deg,
    arc_deg,
    bank_fifteen_percent_deg,
    bank_for_rate_deg,
    bank_tenth_plus_seven_deg,
    calibrated_rate_deg_s,
    heading_after,
    hemisphere_of_dip,
    rate_for_bank_deg_s,
    reading_by_taper_deg,
    roll_out_lead_deg,
    rollout_by_allowance_deg,
    rollout_by_latitude_deg,
    rollout_tapered_deg,
    shortest_turn_deg,
    taper,
    turn_radius_nm,
    turn_seconds,
    turn_side,
    turn_sign,
)
from tests.tolerances import EXACT, PRINTED_TENTH

HEADING = st.floats(0.0, 360.0, exclude_max=True)
SIDE = st.sampled_from(["left", "right"])
HEMISPHERE = st.sampled_from(["north", "south", "none"])


def test_sides_and_hemispheres() -> None:
    assert (turn_sign("right"), turn_sign("left")) == (1, -1)
    assert (turn_side(10.0), turn_side(-10.0), turn_side(0.0)) == ("right", "left", "right")
    assert [hemisphere_of_dip(dip) for dip in (70.0, -70.0, 0.0, -0.0)] == ["north", "south", "none", "none"]


@pytest.mark.parametrize(
    ("start", "end", "turn"), [(350.0, 10.0, 20.0), (10.0, 350.0, -20.0), (90.0, 270.0, 180.0), (270.0, 90.0, 180.0)]
)
def test_shortest_turn_crosses_north(start: float, end: float, turn: float) -> None:
    assert shortest_turn_deg(start, end) == turn


@given(HEADING, HEADING, SIDE)
def test_turning_through_the_arc_reaches_the_heading(start: float, end: float, turn: TurnSide) -> None:
    seconds = turn_seconds(arc_deg(start, end, turn), 3.0)
    assert abs(difference(heading_after(start, turn, 3.0, seconds), end)) < EXACT


def test_left_turns_take_the_number_down() -> None:
    assert heading_after(20.0, "left", 3.0, 20.0) == 320.0
    assert heading_after(20.0, "right", HALF_RATE_DEG_S, 20.0) == 50.0


@given(st.floats(40.0, 300.0), st.floats(0.5, 6.0))
def test_rate_and_bank_are_inverse(tas: float, rate: float) -> None:
    assert rate_for_bank_deg_s(tas, bank_for_rate_deg(tas, rate)) == pytest.approx(rate, abs=EXACT)


def test_rules_of_thumb_lie_near_the_mechanics() -> None:
    """15 % of TAS within 0.4 degrees to 160 kt; a tenth plus 7 within 0.8 from 120 to 160."""
    assert max(abs(bank_fifteen_percent_deg(v) - bank_for_rate_deg(v)) for v in range(60, 161)) <= 0.4
    assert max(abs(bank_tenth_plus_seven_deg(v) - bank_for_rate_deg(v)) for v in range(120, 161)) <= 0.8
    assert (bank_tenth_plus_seven_deg(80.0), bank_fifteen_percent_deg(80.0)) == (15.0, 12.0)


def test_radius() -> None:
    """A rate-one circle takes two minutes: at 120 kt it is 4 NM round."""
    assert turn_radius_nm(120.0) == pytest.approx(4.0 / (2.0 * pi), abs=EXACT)
    assert turn_radius_nm(120.0, HALF_RATE_DEG_S) == pytest.approx(8.0 / (2.0 * pi), abs=EXACT)


def test_measured_rate() -> None:
    assert calibrated_rate_deg_s(27.0) == 2.7
    assert calibrated_rate_deg_s(90.0, 30.0) == 3.0


def test_half_the_bank_is_a_roll_out_at_three_degrees_a_second() -> None:
    for tas in (90.0, 100.0, 120.0, 150.0):
        bank = bank_for_rate_deg(tas)
        assert roll_out_lead_deg(tas, bank, 3.0) == pytest.approx(bank / 2.0, abs=0.3)
        assert roll_out_lead_deg(tas, -bank, 3.0) == roll_out_lead_deg(tas, bank, 3.0)


def test_roll_out_lead_by_quadrature() -> None:
    """The turn made while the bank falls evenly to nothing, summed in small steps."""
    bank, roll, steps = 25.0, 5.0, 10_000
    step_s = bank / roll / steps
    turned = sum(rate_for_bank_deg_s(110.0, bank * (i + 0.5) / steps) * step_s for i in range(steps))
    assert roll_out_lead_deg(110.0, bank, roll) == pytest.approx(turned, abs=1e-6)


@given(HEADING, HEMISPHERE)
def test_taper_is_even(heading: float, hemisphere: Hemisphere) -> None:
    share = taper(heading, hemisphere)
    size = 0.0 if hemisphere == "none" else 1.0 - angle_from_north_or_south_deg(heading) / 90.0
    assert abs(share) == pytest.approx(size, abs=EXACT)
    near = {"north": 1.0, "south": -1.0, "none": 0.0}[hemisphere] * cos(radians(heading))
    assert share * near >= -EXACT


@given(HEADING, SIDE, st.floats(0.0, 45.0), st.floats(0.0, 15.0))
def test_hemispheres_mirror_the_allowance(heading: float, turn: TurnSide, allowance: float, lead: float) -> None:
    north = difference(rollout_tapered_deg(heading, turn, "north", allowance, lead), heading)
    south = difference(rollout_tapered_deg(heading, turn, "south", allowance, lead), heading)
    none = difference(rollout_tapered_deg(heading, turn, "none", allowance, lead), heading)
    assert none == pytest.approx(-turn_sign(turn) * lead, abs=EXACT)
    assert north - none == pytest.approx(none - south, abs=EXACT)


@given(HEADING, HEMISPHERE, st.floats(0.0, 45.0), st.floats(0.0, 15.0))
def test_left_mirrors_right(heading: float, hemisphere: Hemisphere, allowance: float, lead: float) -> None:
    right = rollout_tapered_deg(heading, "right", hemisphere, allowance, lead)
    left = rollout_tapered_deg(-heading, "left", hemisphere, allowance, lead)
    assert abs(difference(left, -right)) < EXACT


@pytest.mark.parametrize(
    ("target", "turn", "start"),
    [(360.0, "right", 307.0), (180.0, "right", 217.0), (360.0, "left", 53.0), (180, "left", 143)],
)
def test_latitude_rule_at_45_north_with_16_of_bank(target: float, turn: TurnSide, start: float) -> None:
    """Lead half of 16: 45 + 8 short of north, 45 - 8 past south, mirrored in a left turn."""
    assert rollout_by_latitude_deg(target, turn, "north", 45.0, 8.0) == start
    assert rollout_by_latitude_deg(target, turn, "north", -45.0, 8.0) == start


def test_latitude_rule_on_east_is_the_normal_lead() -> None:
    assert rollout_by_latitude_deg(90.0, "right", "north", 45.0, 8.0) == 82.0
    assert rollout_by_latitude_deg(90.0, "left", "south", 45.0, 8.0) == 98.0


@given(HEADING, SIDE, HEMISPHERE, st.floats(0.0, 45.0))
def test_allowance_holds_the_lead(heading: float, turn: TurnSide, hemisphere: Hemisphere, allowance: float) -> None:
    found = rollout_by_allowance_deg(heading, turn, hemisphere, allowance)
    assert found == reading_by_taper_deg(heading, turn, hemisphere, allowance) == wrap360(found)


@pytest.mark.parametrize(
    ("call", "name"),
    [
        (lambda: turn_seconds(90.0, 0.0), "rate_deg_s"),
        (lambda: turn_radius_nm(100.0, -3.0), "rate_deg_s"),
        (lambda: turn_radius_nm(0.0), "tas_kt"),
        (lambda: bank_for_rate_deg(-100.0), "tas_kt"),
        (lambda: rate_for_bank_deg_s(0.0, 20.0), "tas_kt"),
        (lambda: rate_for_bank_deg_s(100.0, 90.0), "bank_deg"),
        (lambda: roll_out_lead_deg(100.0, 20.0, 0.0), "roll_rate_deg_s"),
        (lambda: roll_out_lead_deg(100.0, 89.5, 3.0), "bank_deg"),
        (lambda: rollout_tapered_deg(0.0, "right", "north", -1.0), "allowance_deg"),
        (lambda: rollout_tapered_deg(0.0, "right", "north", 30.0, 91.0), "normal_lead_deg"),
        (lambda: calibrated_rate_deg_s(30.0, 0.0), "seconds"),
    ],
)
def test_out_of_range(call: object, name: str) -> None:
    assert callable(call)
    with pytest.raises(OutOfRange, match=name):
        call()


def test_bank_of_the_table() -> None:
    assert bank_for_rate_deg(100.0) == pytest.approx(15.4, abs=PRINTED_TENTH)
