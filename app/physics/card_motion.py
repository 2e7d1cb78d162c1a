"""How the compass card moves: the settled reading pulls it, the liquid drags it, the case turns round it.

State: reading R, card rate wc and liquid rate wl about the apparent vertical; wb the case's rate about it.

    dR/dt  = wb - wc
    dwc/dt = w0^2 (Bp / Bref) sin(R - Rs) - 2 zeta w0 (wc - wl)
    dwl/dt = (k wb - wl) / tau

Bp is the field in the card's plane, Rs the settled reading there (module `card`), w0 = 2 pi / period at Bref, and
wb = turn rate x cos(bank). A damped card in a swirling liquid; the constants are chosen, not measured. Integrated by
the classic Runge-Kutta method of fourth order, a fresh step wherever a leg of the manoeuvre begins.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import atan, atan2, ceil, cos, degrees, hypot, pi, radians, remainder, sin, tan

from app.physics.angles import wrap360
from app.physics.card import VANISHED, Pair, tilted_field
from app.physics.errors import require
from app.physics.manoeuvres import Leg, Manoeuvre, Turn, legs, turn_legs

REFERENCE_NT = 20_000.0
USUAL_STEP_S = 0.25  # within 0.01 degree of a step of 0.01 s, the steps being split at the legs


@dataclass(frozen=True)
class CardConstants:
    """A card and its liquid. The defaults are chosen to look like a light aircraft's compass, not measured.

    `period_s` undamped period at a level field of 20 000 nT; `damping` share of the critical damping; `swirl` share
    of the case's rate that the liquid takes up in the end, `swirl_s` the time it takes.
    """

    period_s: float = 20.0
    damping: float = 0.7
    swirl: float = 0.3
    swirl_s: float = 10.0


@dataclass(frozen=True)
class Motion:
    """A flight in samples: real heading, reading and settled reading unwrapped, bank; degrees, seconds.

    `sunk_deg` is the card's tilt fore and aft with the wings level, forward edge down positive.
    """

    time_s: tuple[float, ...]
    real_deg: tuple[float, ...]
    reading_deg: tuple[float, ...]
    settled_deg: tuple[float, ...]
    bank_deg: tuple[float, ...]
    sunk_deg: tuple[float, ...]


@dataclass(frozen=True)
class _Card:
    """Constants as the equations want them, with the field (north, down) in nT."""

    field: Pair
    stiffness: float  # w0^2 / Bref
    drag: float  # 2 zeta w0
    swirl: float
    swirl_s: float


_State = tuple[float, float, float]
_Drive = tuple[float, float, float]  # settled reading, stiffness x field in the plane, case rate
_Sample = tuple[float, float, float, float, float, float]


def fly(
    start_deg: float,
    manoeuvres: Sequence[Manoeuvre],
    dip_deg: float,
    horizontal_nt: float,
    constants: CardConstants | None = None,
    step_s: float = USUAL_STEP_S,
) -> Motion:
    """Fly manoeuvres one after another from a settled card on `start_deg` and watch it.

    |dip| <= 89, `horizontal_nt` 1..70 000, `step_s` 0.001..1. Raises OutOfRange otherwise. Where no field is left in
    the card's plane the settled reading keeps its last value and nothing pulls.
    """
    flown: list[Leg] = []
    heading_deg = start_deg
    for manoeuvre in manoeuvres:
        flown += legs(manoeuvre, heading_deg)
        heading_deg = manoeuvre.target_deg if isinstance(manoeuvre, Turn) else heading_deg
    return _watched(start_deg, flown, _card(dip_deg, horizontal_nt, constants), step_s)


def model_rollout_reading_deg(
    start_deg: float, turn: Turn, dip_deg: float, horizontal_nt: float, constants: CardConstants | None = None
) -> float:
    """Return what the moving card shows, 0 <= r < 360, when the roll-out onto the turn's target must begin."""
    before_rollout = turn_legs(turn, start_deg)[:2]
    motion = _watched(start_deg, before_rollout, _card(dip_deg, horizontal_nt, constants), USUAL_STEP_S)
    return wrap360(motion.reading_deg[-1])


def hold_turn(
    start_deg: float, turn: Turn, seconds: float, field: Pair, constants: CardConstants | None = None
) -> Motion:
    """Roll into a turn and hold its bank for `seconds` whatever its target; `field` is (dip in degrees, level nT)."""
    rolling, steady, _ = turn_legs(turn, start_deg)
    flown = (rolling, replace(steady, seconds=require("seconds", seconds, 0.01, 3600.0)))
    return _watched(start_deg, flown, _card(*field, constants), USUAL_STEP_S)


def _card(dip_deg: float, horizontal_nt: float, constants: CardConstants | None) -> _Card:
    require("dip_deg", dip_deg, -89.0, 89.0)
    require("horizontal_nt", horizontal_nt, 1.0, 70_000.0)
    chosen = constants or CardConstants()
    require("period_s", chosen.period_s, 1.0, 120.0)
    require("damping", chosen.damping, 0.0, 5.0)
    require("swirl", chosen.swirl, 0.0, 1.0)
    require("swirl_s", chosen.swirl_s, 0.5, 600.0)
    pace = 2.0 * pi / chosen.period_s
    field = (horizontal_nt, horizontal_nt * tan(radians(dip_deg)))
    return _Card(field, pace * pace / REFERENCE_NT, 2.0 * chosen.damping * pace, chosen.swirl, chosen.swirl_s)


def _watched(start_deg: float, flown: Sequence[Leg], card: _Card, step_s: float) -> Motion:
    require("step_s", step_s, 0.001, 1.0)
    samples = zip(*_samples(radians(start_deg), flown, card, step_s), strict=True)
    time_s, *angles = (tuple(column) for column in samples)
    real, reading, settled, bank, sunk = (tuple(degrees(angle) for angle in column) for column in angles)
    return Motion(time_s, real, reading, settled, bank, sunk)


def _samples(heading: float, flown: Sequence[Leg], card: _Card, step_s: float) -> Iterator[_Sample]:
    state: _State = (heading, 0.0, 0.0)
    settled, began_s = heading, 0.0
    yield 0.0, heading, heading, heading, 0.0, 0.0
    for leg in flown:
        count = ceil(leg.seconds / step_s)
        for i in range(count):
            step = leg.seconds / count
            now, half, then = (_drive(leg, (i + part) * step, heading, card, settled) for part in (0.0, 0.5, 1.0))
            state = _advanced(state, step, (now, half, then), card)
            settled = then[0]
            turned, bank, _, forward_g = leg.pose((i + 1) * step)
            yield began_s + (i + 1) * step, heading + turned, state[0], settled, bank, atan(forward_g)
        heading += leg.pose(leg.seconds)[0]
        began_s += leg.seconds


def _drive(leg: Leg, second: float, heading: float, card: _Card, settled: float) -> _Drive:
    """Return what drives the card at one moment; the settled reading is unwrapped next to its last value."""
    turned, bank, rate, forward_g = leg.pose(second)
    sin_bank, cos_bank = sin(bank), cos(bank)
    facing = heading + turned
    ahead, right = tilted_field((sin(facing), cos(facing)), (sin_bank, cos_bank), card.field, forward_g)
    strength = hypot(ahead, right)
    if strength > VANISHED * card.field[0]:
        settled += remainder(atan2(-right, ahead) - settled, 2.0 * pi)
    return settled, card.stiffness * strength, rate * cos_bank


def _advanced(state: _State, step: float, drives: tuple[_Drive, _Drive, _Drive], card: _Card) -> _State:
    """One step of the classic fourth-order Runge-Kutta method."""
    now, half, then = drives
    first = _slope(state, now, card)
    second = _slope(_moved(state, first, step / 2.0), half, card)
    third = _slope(_moved(state, second, step / 2.0), half, card)
    fourth = _slope(_moved(state, third, step), then, card)
    r, c, w = state
    sixth = step / 6.0
    return (
        r + sixth * (first[0] + 2.0 * (second[0] + third[0]) + fourth[0]),
        c + sixth * (first[1] + 2.0 * (second[1] + third[1]) + fourth[1]),
        w + sixth * (first[2] + 2.0 * (second[2] + third[2]) + fourth[2]),
    )


def _moved(state: _State, slope: _State, step: float) -> _State:
    return state[0] + step * slope[0], state[1] + step * slope[1], state[2] + step * slope[2]


def _slope(state: _State, drive: _Drive, card: _Card) -> _State:
    reading, card_rate, liquid_rate = state
    settled, pull, case_rate = drive
    return (
        case_rate - card_rate,
        pull * sin(reading - settled) - card.drag * (card_rate - liquid_rate),
        (card.swirl * case_rate - liquid_rate) / card.swirl_s,
    )
