from itertools import pairwise
from math import hypot, nan

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from app.physics.angles import cos_deg, difference
from app.physics.card import (
    critical_bank_deg,
    in_plane_field,
    lag_deg,
    reading_deg,
    speed_change_reading_deg,
    speed_swing,
    turn_reading_deg,
    turn_sense,
    usable,
)
from app.physics.errors import OutOfRange, Undefined
from tests.physics.card_vectors import vector_reading_deg
from tests.tolerances import EXACT, PRINTED_TENTH

EIGHT_POINTS = range(0, 360, 45)
HEADING = st.floats(0.0, 360.0, exclude_max=True)
DIP = st.floats(-85.0, 85.0)
BANK = st.floats(-60.0, 60.0)
ACCELERATION = st.floats(-0.5, 0.5)


def is_read(heading: float, dip: float, bank: float, forward: float = 0.0) -> bool:
    """Whether field enough is left in the card's plane to tell a reading from noise."""
    return hypot(*in_plane_field(heading, dip, bank, forward)) > 1e-3


LAG_ON_NORTH = {  # dip: lag at bank 10, 15.4, 20, 30; worked out apart from this project, printed to 0.1
    20: (3.6, 5.5, 7.1, 10.3),
    40: (8.3, 12.6, 16.0, 22.8),
    60: (16.7, 24.7, 30.6, 40.9),
    68: (23.3, 33.3, 40.2, 51.1),
    72: (28.1, 39.3, 46.5, 57.0),
}


@given(HEADING, DIP, BANK, ACCELERATION, st.floats(-0.5, 1.0))
def test_closed_form_is_the_vector_form(heading: float, dip: float, bank: float, forward: float, up: float) -> None:
    assume(is_read(heading, dip, bank, forward))
    apart = difference(
        reading_deg(heading, dip, bank, forward, up), vector_reading_deg(heading, dip, bank, forward, up)
    )
    assert abs(apart) < 1e-6


@pytest.mark.parametrize("dip", LAG_ON_NORTH)
def test_lag_on_north_matches_the_table(dip: int) -> None:
    lags = [lag_deg(0.0, dip, bank) for bank in (10.0, 15.4, 20.0, 30.0)]
    assert lags == pytest.approx(LAG_ON_NORTH[dip], abs=PRINTED_TENTH)


@given(HEADING, DIP, BANK)
def test_left_and_right_mirror(heading: float, dip: float, bank: float) -> None:
    assume(is_read(heading, dip, bank))
    mirrored = turn_reading_deg(-heading, dip, -bank)
    assert abs(difference(mirrored, -turn_reading_deg(heading, dip, bank))) < 1e-6


@given(HEADING, DIP, BANK)
def test_hemispheres_mirror(heading: float, dip: float, bank: float) -> None:
    """With the dip turned over, the northern half behaves as the southern half did."""
    assume(is_read(heading, dip, bank))
    other_half = turn_reading_deg(heading + 180.0, -dip, bank)
    assert abs(difference(other_half, turn_reading_deg(heading, dip, bank) + 180.0)) < 1e-6


@given(DIP, st.floats(1.0, 60.0))
def test_south_leads_by_what_north_lags(dip: float, bank: float) -> None:
    assert lag_deg(180.0, dip, bank) == pytest.approx(-lag_deg(0.0, dip, bank), abs=EXACT)
    assert lag_deg(0.0, dip, -bank) == pytest.approx(lag_deg(0.0, dip, bank), abs=EXACT)
    assert lag_deg(0.0, -dip, bank) == pytest.approx(-lag_deg(0.0, dip, bank), abs=EXACT)


@given(DIP, st.floats(-85.0, 85.0))
def test_east_and_west_read_right_below_the_critical_bank(dip: float, bank: float) -> None:
    if abs(abs(bank) - critical_bank_deg(dip)) > 1e-3:
        right = abs(bank) < critical_bank_deg(dip) or bank * dip < 0.0
        assert turn_reading_deg(90.0, dip, bank) == (90.0 if right else 270.0)
        right = abs(bank) < critical_bank_deg(dip) or bank * dip > 0.0
        assert turn_reading_deg(270.0, dip, bank) == (270.0 if right else 90.0)


@pytest.mark.parametrize("heading", [0.0, 90.0, 180.0, 270.0])
@pytest.mark.parametrize("bank", [-45.0, -15.0, 15.0, 45.0])
def test_no_dip_no_error_on_the_cardinals(heading: float, bank: float) -> None:
    assert lag_deg(heading, 0.0, bank) == 0.0
    assert turn_sense(heading, 0.0, bank) == "agrees"


def test_no_dip_leaves_only_geometry_between() -> None:
    """Asin((1 - cos p) / (1 + cos p)): 1 degree at 15 of bank, 9.9 at 45. It is the tilt, not an error of the field."""
    assert max(abs(lag_deg(h, 0.0, 15.0)) for h in range(360)) == pytest.approx(1.0, abs=PRINTED_TENTH)
    assert max(abs(lag_deg(h, 0.0, 45.0)) for h in range(360)) == pytest.approx(9.9, abs=PRINTED_TENTH)
    assert {turn_sense(h, 0.0, 15.0) for h in EIGHT_POINTS} == {"agrees"}


@pytest.mark.parametrize(("dip", "critical"), [(69.4, 20.6), (-74.1, 15.9), (80.2, 9.8), (0.0, 90.0), (90.0, 0.0)])
def test_critical_bank(dip: float, critical: float) -> None:
    assert critical_bank_deg(dip) == pytest.approx(critical, abs=EXACT)


@pytest.mark.parametrize("dip", [70.0, -70.0])
def test_flag_goes_up_five_degrees_below_the_critical_bank(dip: float) -> None:
    assert [usable(bank, dip) for bank in (0.0, 15.0, -15.0, 15.1, -15.1)] == [True, True, True, False, False]


@given(st.floats(20.0, 80.0), st.floats(1.0, 9.0))
def test_above_the_critical_bank_the_card_stops_following(dip: float, above: float) -> None:
    """Round a full circle the reading makes a whole turn below the critical bank and none above it."""
    turned = {}
    for bank in (critical_bank_deg(dip) - above, critical_bank_deg(dip) + above):
        readings = [turn_reading_deg(h, dip, bank) for h in range(361)]
        turned[bank] = sum(difference(b, a) for a, b in pairwise(readings))
    assert list(turned.values()) == pytest.approx([360.0, 0.0], abs=1e-6)


@pytest.mark.parametrize(("heading", "dip", "bank"), [(90.0, 70.0, 20.0), (270.0, 60.0, -30.0), (90.0, -75.0, -15.0)])
def test_no_reading_on_east_and_west_at_the_critical_bank(heading: float, dip: float, bank: float) -> None:
    with pytest.raises(Undefined, match="no field"):
        turn_reading_deg(heading, dip, bank)


def test_no_reading_at_a_magnetic_pole() -> None:
    with pytest.raises(Undefined, match="no field"):
        reading_deg(10.0, 90.0)


@pytest.mark.parametrize("up_g", [-1.0, -1.5, nan])
def test_no_reading_in_free_fall(up_g: float) -> None:
    with pytest.raises(Undefined, match="free fall"):
        reading_deg(10.0, 60.0, up_g=up_g)


@given(HEADING, DIP, BANK, st.floats(-0.9, 3.0))
def test_vertical_acceleration_alone_changes_nothing(heading: float, dip: float, bank: float, up_g: float) -> None:
    assert in_plane_field(heading, dip, bank, 0.0, up_g) == in_plane_field(heading, dip, bank)


def test_speed_change_at_dip_seventy() -> None:
    """At 0.1 g: about 15 degrees on east and west, 9 to 14 between, nothing on north and south."""
    off = {h: abs(difference(speed_change_reading_deg(h, 70.0, 0.1), h)) for h in EIGHT_POINTS}
    assert off[90] == off[270] == pytest.approx(15.3, abs=PRINTED_TENTH)
    assert all(9.0 <= off[h] <= 14.0 for h in (45, 135, 225, 315))
    assert off[0] == off[180] == 0.0


@pytest.mark.parametrize("heading", EIGHT_POINTS)
@pytest.mark.parametrize("dip", [-70.0, -45.0, 0.0, 45.0, 70.0])
@pytest.mark.parametrize("acceleration", [-0.1, 0.1])
def test_swing_follows_the_rule_of_the_trade(heading: int, dip: float, acceleration: float) -> None:
    """Faster shows north where the dip is down; slower, or dip up, turns it round; north and south stay right."""
    sense = acceleration * dip * abs(cos_deg(heading + 90.0))
    expected = "none" if sense == 0.0 else "north" if sense > 0.0 else "south"
    assert speed_swing(heading, dip, acceleration) == expected


@pytest.mark.parametrize("heading", EIGHT_POINTS)
@pytest.mark.parametrize("dip", [-68.0, -45.0, 45.0, 68.0])
@pytest.mark.parametrize("bank", [-15.0, -12.0, 12.0, 15.0])
def test_turn_sense_follows_the_rule_of_the_trade(heading: int, dip: float, bank: float) -> None:
    """Behind in the half of the near pole, ahead in the other, right on east and west, whichever way the turn goes."""
    sense = cos_deg(heading) * dip
    expected = "agrees" if sense == 0.0 else "behind" if sense > 0.0 else "ahead"
    assert turn_sense(heading, dip, bank) == expected


@pytest.mark.parametrize("bank", [90.0, -90.0, 120.0, nan])
def test_edge_on_bank_is_refused(bank: float) -> None:
    with pytest.raises(OutOfRange, match="bank_deg"):
        turn_reading_deg(10.0, 60.0, bank)


@pytest.mark.parametrize("dip", [90.1, -91.0, nan])
def test_dip_beyond_the_vertical_is_refused(dip: float) -> None:
    with pytest.raises(OutOfRange, match="dip_deg"):
        turn_reading_deg(10.0, dip, 10.0)
