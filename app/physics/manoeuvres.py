"""What the aircraft does while the card is watched: turns, changes of speed, climbs and dives, rough air.

A manoeuvre is cut into legs within which bank, heading and acceleration are smooth and known in closed form, so that
the integration can start a fresh step where a turn or an acceleration begins or ends. Degrees, seconds, knots; right
and faster positive. Level co-ordinated flight: turn rate = g tan(bank) / V, and a steady roll p from bank b0 to b1
turns the aircraft by g / (V p) ln(cos b0 / cos b1). On a path inclined by c, pitched at the rate w, the acceleration
is dV/dt along it and V w square to it; the card feels its level part over gravity and its upward part together.
"""

from dataclasses import dataclass
from math import acos, cos, degrees, exp, log, pi, radians, sin, tan
from random import Random

from app.physics.errors import require
from app.physics.turning import (
    RATE_ONE_DEG_S,
    TurnSide,
    arc_deg,
    bank_for_rate_deg,
    rate_for_bank_deg_s,
    roll_out_lead_deg,
    turn_sign,
)
from app.physics.units import KNOT_MS, STANDARD_GRAVITY_MS2

USUAL_TAS_KT = 100.0
USUAL_ROLL_DEG_S = 3.0
PITCH_DEG_S = 2.0  # chosen
SHORTEST_LEG_S = 0.01
WAVE_SHARES = (0.5, 0.3, 0.2)
SHORTEST_WAVE_S = 3.0
LONGEST_WAVE_S = 9.0

Pose = tuple[float, float, float, float]
"""Heading turned since the leg began, bank, turn rate (radians, radians a second), forward acceleration (in parts of
gravity and vertical acceleration together: the tangent of the card's tilt fore and aft, wings level)."""


@dataclass(frozen=True)
class Straight:
    """Straight and level at a steady speed for `seconds`."""

    seconds: float


@dataclass(frozen=True)
class Turn:
    """A level co-ordinated turn by the given side onto `target_deg`; a target of the start heading is a full circle.

    `bank_deg` 1..60 fixes the bank; without it the bank is that of `rate_deg_s`. Rolled in and out at
    `roll_rate_deg_s`; a turn too short for the full bank is flown with less.
    """

    target_deg: float
    turn: TurnSide
    bank_deg: float | None = None
    rate_deg_s: float = RATE_ONE_DEG_S
    tas_kt: float = USUAL_TAS_KT
    roll_rate_deg_s: float = USUAL_ROLL_DEG_S

    @property
    def full_bank_deg(self) -> float:
        """Bank aimed for, without its side."""
        return bank_for_rate_deg(self.tas_kt, self.rate_deg_s) if self.bank_deg is None else self.bank_deg


@dataclass(frozen=True)
class SpeedChange:
    """Wings level, the speed changing by `rate_kt_s` (slower negative) for `seconds`."""

    seconds: float
    rate_kt_s: float


@dataclass(frozen=True)
class RoughAir:
    """Rough air for `seconds`: the wings rock by at most `bank_deg` (0..10) in waves drawn from `seed`.

    The same seed rocks the same way for ever. Each wave fits whole cycles, so bank and heading end as they began.
    """

    seconds: float
    bank_deg: float
    seed: int
    tas_kt: float = USUAL_TAS_KT


@dataclass(frozen=True)
class InclinedPath:
    """A climb (`path_deg` positive, -20..20) or a dive on one heading, entered from level flight and left into it.

    The nose is pitched at `PITCH_DEG_S` at a steady speed; on the path the speed changes by `rate_kt_s` for `seconds`.
    """

    seconds: float
    path_deg: float
    rate_kt_s: float
    tas_kt: float = USUAL_TAS_KT

    @property
    def last_tas_kt(self) -> float:
        """True airspeed at the end."""
        return self.tas_kt + self.rate_kt_s * self.seconds


Manoeuvre = Straight | Turn | SpeedChange | InclinedPath | RoughAir


@dataclass(frozen=True)
class SteadyLeg:
    """Constant bank, turn rate and acceleration."""

    seconds: float
    bank_rad: float = 0.0
    rate_rad_s: float = 0.0
    forward_g: float = 0.0

    def pose(self, second: float) -> Pose:
        """Return the pose `second` after the leg began."""
        return self.rate_rad_s * second, self.bank_rad, self.rate_rad_s, self.forward_g


@dataclass(frozen=True)
class RollLeg:
    """A steady roll; `pull` is g / V in radians a second."""

    seconds: float
    bank_rad: float
    roll_rad_s: float
    pull: float

    def pose(self, second: float) -> Pose:
        """Return the pose `second` after the leg began."""
        bank = self.bank_rad + self.roll_rad_s * second
        turned = self.pull / self.roll_rad_s * log(cos(self.bank_rad) / cos(bank))
        return turned, bank, self.pull * tan(bank), 0.0


@dataclass(frozen=True)
class PitchLeg:
    """A steady pitching of the path; `push` is speed times pitch rate over gravity, positive nose up."""

    seconds: float
    path_rad: float
    pitch_rad_s: float
    push: float

    def pose(self, second: float) -> Pose:
        """Return the pose `second` after the leg began."""
        path = self.path_rad + self.pitch_rad_s * second
        return 0.0, 0.0, 0.0, -self.push * sin(path) / (1.0 + self.push * cos(path))


@dataclass(frozen=True)
class RockingLeg:
    """Bank as a sum of sines (size in radians, radians a second); tan(bank) is taken as the bank: 1 % at 10 degrees."""

    seconds: float
    waves: tuple[tuple[float, float], ...]
    pull: float

    def pose(self, second: float) -> Pose:
        """Return the pose `second` after the leg began."""
        bank = sum(size * sin(pace * second) for size, pace in self.waves)
        turned = self.pull * sum(size / pace * (1.0 - cos(pace * second)) for size, pace in self.waves)
        return turned, bank, self.pull * bank, 0.0


Leg = SteadyLeg | RollLeg | PitchLeg | RockingLeg


def legs(manoeuvre: Manoeuvre, start_deg: float) -> tuple[Leg, ...]:
    """Cut a manoeuvre begun on `start_deg` into legs. Raises OutOfRange for a quantity no aircraft flies."""
    if isinstance(manoeuvre, Turn):
        return turn_legs(manoeuvre, start_deg)
    require("seconds", manoeuvre.seconds, 0.01, 3600.0)
    if isinstance(manoeuvre, RoughAir):
        return (_rocking_leg(manoeuvre),)
    if isinstance(manoeuvre, InclinedPath):
        return _path_legs(manoeuvre)
    if isinstance(manoeuvre, SpeedChange):
        return (SteadyLeg(manoeuvre.seconds, forward_g=_change_g(manoeuvre.rate_kt_s)),)
    return (SteadyLeg(manoeuvre.seconds),)


def turn_legs(turn: Turn, start_deg: float) -> tuple[RollLeg, SteadyLeg, RollLeg]:
    """Cut a turn into rolling in, holding the bank, and rolling out."""
    require("tas_kt", turn.tas_kt, 20.0, 600.0)
    require("roll_rate_deg_s", turn.roll_rate_deg_s, 0.5, 90.0)
    angle_deg = arc_deg(start_deg, turn.target_deg, turn.turn) or 360.0
    bank_deg = _bank_reached_deg(turn, angle_deg)
    side = turn_sign(turn.turn)
    bank, roll = side * radians(bank_deg), side * radians(turn.roll_rate_deg_s)
    pull = STANDARD_GRAVITY_MS2 / (turn.tas_kt * KNOT_MS)
    rolling_s = bank_deg / turn.roll_rate_deg_s
    held_deg = angle_deg - 2.0 * roll_out_lead_deg(turn.tas_kt, bank_deg, turn.roll_rate_deg_s)
    rate_deg_s = rate_for_bank_deg_s(turn.tas_kt, bank_deg)
    held_s = max(0.0, held_deg / rate_deg_s)
    return (
        RollLeg(rolling_s, 0.0, roll, pull),
        SteadyLeg(held_s, bank, side * radians(rate_deg_s)),
        RollLeg(rolling_s, bank, -roll, pull),
    )


def _bank_reached_deg(turn: Turn, angle_deg: float) -> float:
    """Full bank, or the bank at which rolling in and straight out again makes the whole turn, if that is less."""
    full_deg = require("bank_deg", turn.full_bank_deg, 1.0, 60.0)
    half_turn = radians(angle_deg) / 2.0 * turn.tas_kt * KNOT_MS / STANDARD_GRAVITY_MS2
    return min(full_deg, degrees(acos(exp(-half_turn * radians(turn.roll_rate_deg_s)))))


def _change_g(rate_kt_s: float) -> float:
    return require("rate_kt_s", rate_kt_s, -20.0, 20.0) * KNOT_MS / STANDARD_GRAVITY_MS2


def _path_legs(flown: InclinedPath) -> tuple[PitchLeg, SteadyLeg, PitchLeg]:
    """Cut a climb or dive into pitching, holding the path, and levelling off."""
    path = radians(require("path_deg", flown.path_deg, -20.0, 20.0))
    side = -1.0 if path < 0.0 else 1.0
    pitching_s = max(abs(flown.path_deg) / PITCH_DEG_S, SHORTEST_LEG_S)
    pitch = radians(PITCH_DEG_S)
    first, last = (
        pitch * require(name, speed_kt, 20.0, 300.0) * KNOT_MS / STANDARD_GRAVITY_MS2
        for name, speed_kt in (("tas_kt", flown.tas_kt), ("last_tas_kt", flown.last_tas_kt))
    )
    along_g = _change_g(flown.rate_kt_s)
    return (
        PitchLeg(pitching_s, 0.0, side * pitch, side * first),
        SteadyLeg(flown.seconds, forward_g=along_g * cos(path) / (1.0 + along_g * sin(path))),
        PitchLeg(pitching_s, path, -side * pitch, -side * last),
    )


def _rocking_leg(air: RoughAir) -> RockingLeg:
    require("bank_deg", air.bank_deg, 0.0, 10.0)
    require("tas_kt", air.tas_kt, 20.0, 600.0)
    drawn = Random(air.seed)
    waves = []
    for share in WAVE_SHARES:
        about_s = SHORTEST_WAVE_S + (LONGEST_WAVE_S - SHORTEST_WAVE_S) * drawn.random()
        cycles = max(1, round(air.seconds / about_s))
        waves.append((share * radians(air.bank_deg), 2.0 * pi * cycles / air.seconds))
    return RockingLeg(air.seconds, tuple(waves), STANDARD_GRAVITY_MS2 / (air.tas_kt * KNOT_MS))
