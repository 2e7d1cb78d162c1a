"""The moving card. The sizes below were worked out apart from this project with the same equations and constants."""

from itertools import pairwise
from math import cos, isfinite, log, nan, pi, radians

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.physics import card_motion
from app.physics.angles import difference
from app.physics.card import speed_change_reading_deg, turn_reading_deg
from app.physics.card_motion import CardConstants, Motion, fly, model_rollout_reading_deg
from app.physics.errors import OutOfRange
from app.physics.manoeuvres import Manoeuvre, RoughAir, SpeedChange, SteadyLeg, Straight, Turn
from app.physics.units import KNOT_MS, STANDARD_GRAVITY_MS2
from tests.tolerances import EXACT

TOTAL_NT = 50_000.0
MODEL_DEG = 0.3  # what two integrations of the same equations may differ by
STEP_DEG = 0.02  # what the step may change
WRONG_WAY_LEAVING_NORTH = {45: 0.0, 60: 3.9, 65: 6.8, 68: 9.1, 72: 13.0}
LEAD_LEAVING_SOUTH = {40: 11.6, 50: 15.8, 60: 21.1, 68: 26.5, 72: 29.8}


def half_circle(start_deg: float, dip_deg: float, step_s: float = 0.05) -> Motion:
    turn = Turn(start_deg + 180.0, "right")
    return fly(start_deg, [turn], dip_deg, TOTAL_NT * cos(radians(dip_deg)), step_s=step_s)


def errors(motion: Motion) -> list[float]:
    return [reading - real for reading, real in zip(motion.reading_deg, motion.real_deg, strict=True)]


@pytest.mark.parametrize("dip", WRONG_WAY_LEAVING_NORTH)
def test_swing_the_wrong_way_leaving_north(dip: int) -> None:
    assert -min(half_circle(0.0, dip).reading_deg) == pytest.approx(WRONG_WAY_LEAVING_NORTH[dip], abs=MODEL_DEG)


@pytest.mark.parametrize("dip", LEAD_LEAVING_SOUTH)
def test_lead_leaving_south(dip: int) -> None:
    assert max(errors(half_circle(180.0, dip))) == pytest.approx(LEAD_LEAVING_SOUTH[dip], abs=MODEL_DEG)


def test_speeding_up_on_east() -> None:
    """Ten seconds of 2 kt a second at dip 68: 14.5 degrees toward north, back within 2 degrees about 8 s after."""
    motion = fly(90.0, [SpeedChange(10.0, 2.0), Straight(20.0)], 68.0, 20_000.0, step_s=0.05)
    off = {round(time, 2): 90.0 - reading for time, reading in zip(motion.time_s, motion.reading_deg, strict=True)}
    assert max(off.values()) == pytest.approx(14.5, abs=MODEL_DEG)
    assert off[18.0] == pytest.approx(2.0, abs=MODEL_DEG)


def test_wrong_way_swing_grows_with_the_field() -> None:
    turn = Turn(180.0, "right")
    swings = [-min(fly(0.0, [turn], 68.0, horizontal).reading_deg) for horizontal in (10_000.0, 15_000.0, 20_000.0)]
    assert swings == sorted(swings)


@pytest.mark.parametrize("dip", [-68.0, 45.0, 72.0])
def test_step_hardly_matters(dip: float) -> None:
    """Compared at the legs' ends, which every step meets."""
    coarse, fine = half_circle(0.0, dip, 0.25), half_circle(0.0, dip, 0.01)
    at = dict(zip((round(time, 6) for time in fine.time_s), fine.reading_deg, strict=True))
    shared = [(r, at[round(t, 6)]) for t, r in zip(coarse.time_s, coarse.reading_deg, strict=True) if round(t, 6) in at]
    assert len(shared) >= 4
    assert max(abs(ours - theirs) for ours, theirs in shared) < STEP_DEG


@pytest.mark.parametrize("bank", [5.0, 12.0, -12.0])
def test_long_turn_with_a_stiff_dead_beat_card_reads_as_settled(bank: float) -> None:
    """A card with next to no inertia and no swirl follows the settled reading: the two modules agree."""
    stiff = CardConstants(period_s=1.0, damping=1.0, swirl=0.0)
    turn = Turn(180.0, "right" if bank > 0 else "left", bank_deg=abs(bank))
    motion = fly(0.0, [turn], 60.0, 20_000.0, stiff, step_s=0.05)
    last = len(motion.time_s) // 2
    settled = turn_reading_deg(motion.real_deg[last], 60.0, motion.bank_deg[last])
    assert difference(motion.settled_deg[last], settled) == pytest.approx(0.0, abs=EXACT)
    assert motion.reading_deg[last] == pytest.approx(motion.settled_deg[last], abs=5.0)


def test_steady_acceleration_ends_at_the_settled_reading() -> None:
    motion = fly(90.0, [SpeedChange(300.0, 1.0)], 68.0, 20_000.0)
    settled = speed_change_reading_deg(90.0, 68.0, KNOT_MS / STANDARD_GRAVITY_MS2)
    assert motion.reading_deg[-1] == pytest.approx(settled, abs=EXACT)
    assert motion.settled_deg[-1] == pytest.approx(settled, abs=EXACT)


@given(st.floats(0.0, 360.0), st.floats(-80.0, 80.0))
def test_straight_flight_moves_nothing(start: float, dip: float) -> None:
    motion = fly(start, [Straight(5.0)], dip, 18_000.0)
    assert motion.reading_deg == pytest.approx((start,) * len(motion.time_s), abs=EXACT)


@given(st.floats(0.0, 360.0), st.sampled_from([45.0, 60.0, 68.0]))
def test_left_mirrors_right(start: float, dip: float) -> None:
    right = fly(start, [Turn(start + 120.0, "right")], dip, 18_000.0)
    left = fly(-start, [Turn(-start - 120.0, "left")], dip, 18_000.0)
    assert left.reading_deg == pytest.approx([-reading for reading in right.reading_deg], abs=1e-6)


def test_no_dip_leaves_inertia_and_tilt_only() -> None:
    assert max(map(abs, errors(half_circle(0.0, 0.0)))) < 4.0


def test_free_card_swings_with_its_period() -> None:
    """Undamped and without swirl, after a short push: the time between crossings is half of the period."""
    free = CardConstants(period_s=16.0, damping=0.0, swirl=0.0)
    motion = fly(90.0, [SpeedChange(1.0, 0.5), Straight(60.0)], 60.0, 20_000.0, free, step_s=0.05)
    off = [reading - 90.0 for reading in motion.reading_deg]
    crossings = [motion.time_s[i] for i in range(1, len(off)) if off[i - 1] * off[i] < 0.0]
    halves = [later - earlier for earlier, later in pairwise(crossings)]
    assert halves == pytest.approx([8.0] * len(halves), abs=0.1)
    assert len(halves) >= 4


def test_turn_through_the_critical_bank_stays_finite() -> None:
    motion = fly(0.0, [Turn(180.0, "right", bank_deg=20.0)], 70.0, 17_000.0)
    assert all(isfinite(reading) for reading in (*motion.reading_deg, *motion.settled_deg))


def test_settled_reading_keeps_its_last_value_in_no_field() -> None:
    """On east at the critical bank: dip 70, bank 20."""
    leg = SteadyLeg(1.0, bank_rad=radians(20.0), rate_rad_s=0.01)
    card = card_motion._card(70.0, 17_000.0, None)
    settled, pull, case_rate = card_motion._drive(leg, 0.0, pi / 2.0, card, settled=1.25)
    assert settled == 1.25
    assert pull == pytest.approx(0.0, abs=EXACT)
    assert case_rate == pytest.approx(0.01 * cos(radians(20.0)), abs=EXACT)


def test_manoeuvres_follow_each_other() -> None:
    plan: list[Manoeuvre] = [
        Straight(2.0),
        Turn(90.0, "right"),
        SpeedChange(5.0, -1.0),
        Turn(0.0, "left"),
        RoughAir(10.0, 5.0, seed=3),
    ]
    motion = fly(0.0, plan, 60.0, 18_000.0)
    assert motion.real_deg[-1] == pytest.approx(0.0, abs=1e-6)
    assert max(motion.real_deg) == pytest.approx(90.0, abs=1e-6)
    assert list(motion.time_s) == sorted(set(motion.time_s))
    assert len({len(column) for column in (motion.time_s, motion.real_deg, motion.settled_deg, motion.bank_deg)}) == 1


def test_nothing_flown_is_one_sample() -> None:
    assert fly(123.0, [], 60.0, 18_000.0).reading_deg == pytest.approx((123.0,))


def test_model_rollout_reading_is_the_reading_one_lead_before_the_target() -> None:
    turn = Turn(360.0, "right")
    shown = model_rollout_reading_deg(270.0, turn, 68.0, 18_000.0)
    motion = fly(270.0, [turn], 68.0, 18_000.0, step_s=0.01)
    bank = radians(turn.full_bank_deg)
    lead = STANDARD_GRAVITY_MS2 / (100.0 * KNOT_MS * radians(3.0)) * -log(cos(bank)) * 180.0 / pi
    begun = min(range(len(motion.time_s)), key=lambda i: abs(motion.real_deg[i] - (360.0 - lead)))
    assert shown == pytest.approx(motion.reading_deg[begun], abs=0.1)
    assert shown < 360.0 - lead


@pytest.mark.parametrize(
    ("dip", "horizontal", "step"),
    [(89.5, 20_000.0, 0.25), (60.0, 0.0, 0.25), (60.0, nan, 0.25), (60.0, 20_000.0, 0.0), (60.0, 20_000.0, 2.0)],
)
def test_impossible_fields_and_steps_are_refused(dip: float, horizontal: float, step: float) -> None:
    with pytest.raises(OutOfRange):
        fly(0.0, [Straight(1.0)], dip, horizontal, step_s=step)


@pytest.mark.parametrize(
    "constants",
    [
        CardConstants(period_s=0.1),
        CardConstants(damping=-0.1),
        CardConstants(swirl=1.5),
        CardConstants(swirl_s=0.0),
    ],
)
def test_impossible_cards_are_refused(constants: CardConstants) -> None:
    with pytest.raises(OutOfRange):
        fly(0.0, [Straight(1.0)], 60.0, 20_000.0, constants)
