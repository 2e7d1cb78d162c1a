from itertools import pairwise
from math import cos, degrees, pi, radians, sin, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.physics.angles import difference
from app.physics.errors import OutOfRange
from app.physics.manoeuvres import (
    PITCH_DEG_S,
    InclinedPath,
    Leg,
    Manoeuvre,
    RockingLeg,
    RoughAir,
    SpeedChange,
    Straight,
    Turn,
    legs,
)
from app.physics.turning import TurnSide, bank_for_rate_deg, rate_for_bank_deg_s
from app.physics.units import KNOT_MS, STANDARD_GRAVITY_MS2
from tests.tolerances import EXACT


def turned_deg(flown: tuple[Leg, ...]) -> float:
    return degrees(sum(leg.pose(leg.seconds)[0] for leg in flown))


@given(st.floats(0.0, 360.0), st.floats(1.0, 359.0), st.sampled_from(["left", "right"]), st.floats(5.0, 45.0))
def test_a_turn_ends_on_its_target(start: float, angle: float, side: TurnSide, bank: float) -> None:
    target = start + angle if side == "right" else start - angle
    flown = legs(Turn(target, side, bank_deg=bank), start)
    assert difference(start + turned_deg(flown), target) == pytest.approx(0.0, abs=1e-6)


@given(st.floats(1.0, 359.0), st.floats(5.0, 45.0))
def test_legs_of_a_turn_join_and_turn_at_the_rate_of_their_bank(angle: float, bank: float) -> None:
    flown = legs(Turn(angle, "right", bank_deg=bank), 0.0)
    pull = STANDARD_GRAVITY_MS2 / (100.0 * KNOT_MS)
    for before, after in pairwise(flown):
        assert before.pose(before.seconds)[1:] == pytest.approx(after.pose(0.0)[1:], abs=1e-9)
    for leg in flown:
        _, banked, rate, forward_g = leg.pose(leg.seconds / 2.0)
        assert rate == pytest.approx(pull * tan(banked), abs=1e-9)
        assert forward_g == 0.0
    level = (flown[0].pose(0.0)[1], flown[-1].pose(flown[-1].seconds)[1])
    assert level == pytest.approx((0.0, 0.0), abs=EXACT)


@pytest.mark.parametrize(
    "manoeuvre", [Turn(120.0, "right", bank_deg=30.0), Turn(240.0, "left"), RoughAir(20.0, 10.0, seed=7)]
)
def test_turn_rate_is_the_slope_of_the_heading(manoeuvre: Manoeuvre) -> None:
    tiny = 1e-4
    for leg in legs(manoeuvre, 0.0):
        for share in (0.2, 0.5, 0.8):
            second = share * leg.seconds
            slope = (leg.pose(second + tiny)[0] - leg.pose(second - tiny)[0]) / (2.0 * tiny)
            assert slope == pytest.approx(leg.pose(second)[2], abs=1e-6)


def test_bank_is_that_of_the_rate_unless_it_is_given() -> None:
    assert Turn(90.0, "right").full_bank_deg == bank_for_rate_deg(100.0, 3.0)
    assert Turn(90.0, "right", bank_deg=20.0, rate_deg_s=1.5).full_bank_deg == 20.0


def test_a_short_turn_is_flown_with_less_bank() -> None:
    roll_in, held, _ = legs(Turn(355.0, "left", bank_deg=30.0), 0.0)
    assert held.seconds == pytest.approx(0.0, abs=EXACT)
    assert -15.0 < degrees(roll_in.pose(roll_in.seconds)[1]) < 0.0


@pytest.mark.parametrize("start", [0.0, 360.0])
def test_a_turn_onto_its_own_heading_is_a_full_circle(start: float) -> None:
    assert turned_deg(legs(Turn(360.0, "right"), start)) == pytest.approx(360.0, abs=1e-6)


def test_two_minutes_for_a_rate_one_circle() -> None:
    """Rolling in and out at 3 degrees a second adds a little to the 120 s of the held turn."""
    seconds = sum(leg.seconds for leg in legs(Turn(0.0, "right"), 0.0))
    assert 120.0 < seconds < 126.0


def test_speed_change_is_felt_in_g() -> None:
    (leg,) = legs(SpeedChange(10.0, 2.0), 90.0)
    assert leg.pose(5.0) == pytest.approx((0.0, 0.0, 0.0, 2.0 * KNOT_MS / STANDARD_GRAVITY_MS2))


def velocity_ms(path: InclinedPath, second: float) -> tuple[float, float]:
    """Level and upward speed of a climb or dive, from its own words: pitch, then change speed, then level off."""
    pitching = abs(path.path_deg) / PITCH_DEG_S
    side = 1.0 if path.path_deg > 0.0 else -1.0
    held = min(max(second - pitching, 0.0), path.seconds)
    off = max(second - pitching - path.seconds, 0.0)
    inclined = radians(side * PITCH_DEG_S * (min(second, pitching) - off))
    speed = (path.tas_kt + path.rate_kt_s * held) * KNOT_MS
    return speed * cos(inclined), speed * sin(inclined)


@pytest.mark.parametrize("path", [InclinedPath(10.0, -8.0, 2.0), InclinedPath(6.0, 12.0, -3.0, 140.0)])
def test_climb_and_dive_tilt_the_card_by_their_acceleration(path: InclinedPath) -> None:
    """Worked again by differences of the velocity: level acceleration over gravity and upward acceleration."""
    tiny, began = 1e-4, 0.0
    for leg in legs(path, 90.0):
        for share in (0.2, 0.5, 0.8):
            at = began + share * leg.seconds
            (ahead, up), (ahead_before, up_before) = velocity_ms(path, at + tiny), velocity_ms(path, at - tiny)
            forward, upward = (ahead - ahead_before) / (2 * tiny), (up - up_before) / (2 * tiny)
            wanted = forward / (STANDARD_GRAVITY_MS2 + upward)
            assert leg.pose(share * leg.seconds) == pytest.approx((0.0, 0.0, 0.0, wanted), abs=1e-6)
        began += leg.seconds


def test_climb_at_a_steady_speed_tilts_nothing_on_the_path() -> None:
    _, held, _ = legs(InclinedPath(10.0, 8.0, 0.0), 90.0)
    assert held.pose(5.0) == (0.0, 0.0, 0.0, 0.0)


def test_straight_flight_does_nothing() -> None:
    (leg,) = legs(Straight(30.0), 90.0)
    assert (leg.seconds, leg.pose(30.0)) == (30.0, (0.0, 0.0, 0.0, 0.0))


@given(st.integers(0, 10_000), st.floats(0.5, 60.0), st.floats(0.0, 10.0))
def test_rough_air_stays_within_its_bank_and_ends_as_it_began(seed: int, seconds: float, bank: float) -> None:
    (leg,) = legs(RoughAir(seconds, bank, seed), 0.0)
    poses = [leg.pose(seconds * i / 50.0) for i in range(51)]
    assert max(abs(pose[1]) for pose in poses) <= radians(bank) + EXACT
    assert poses[-1] == pytest.approx((0.0, 0.0, 0.0, 0.0), abs=1e-6)


def test_rough_air_turns_the_aircraft_as_its_bank_does() -> None:
    """The bank stands for its tangent: within 1 % up to 10 degrees."""
    (leg,) = legs(RoughAir(20.0, 10.0, seed=7, tas_kt=120.0), 0.0)
    for second in range(1, 20):
        _, bank, rate, _ = leg.pose(second)
        assert degrees(rate) == pytest.approx(rate_for_bank_deg_s(120.0, degrees(bank)), rel=0.011)


def test_rough_air_is_the_same_for_ever() -> None:
    """Cycles drawn from one seed, frozen: another machine must rock the same way."""
    (leg,) = legs(RoughAir(30.0, 8.0, seed=2026), 0.0)
    assert isinstance(leg, RockingLeg)
    cycles = [round(pace * 30.0 / (2.0 * pi)) for _, pace in leg.waves]
    assert cycles == [8, 5, 5]
    assert legs(RoughAir(30.0, 8.0, seed=2026), 0.0) == (leg,)


@pytest.mark.parametrize(
    "manoeuvre",
    [
        Straight(0.0),
        SpeedChange(10.0, 40.0),
        SpeedChange(-1.0, 1.0),
        InclinedPath(10.0, 30.0, 1.0),
        InclinedPath(10.0, 8.0, 40.0),
        InclinedPath(10.0, 8.0, -9.0),
        Turn(90.0, "right", bank_deg=75.0),
        Turn(90.0, "right", bank_deg=0.0),
        Turn(90.0, "right", tas_kt=0.0),
        Turn(90.0, "right", rate_deg_s=0.0),
        Turn(90.0, "right", roll_rate_deg_s=0.0),
        RoughAir(10.0, 20.0, seed=1),
        RoughAir(0.0, 5.0, seed=1),
        RoughAir(10.0, 5.0, seed=1, tas_kt=5.0),
    ],
)
def test_what_no_aircraft_flies_is_refused(manoeuvre: Manoeuvre) -> None:
    with pytest.raises(OutOfRange):
        legs(manoeuvre, 0.0)
