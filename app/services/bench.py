"""The bench: the card model flown through a manoeuvre at a place, as the numbers that a page draws.

The track is the model's own (`physics.card_motion`); pages only draw it. Where a picture would be nonsense there is no
track, and an edge says why. Angles in degrees, right and east positive; seconds; knots; nanotesla.
"""

from collections.abc import Sequence
from functools import lru_cache
from math import degrees
from typing import Literal, NamedTuple

from app.packs.spec import Language
from app.physics.angles import difference, shown, wrap360
from app.physics.card import critical_bank_deg, usable
from app.physics.card_motion import Motion, fly, hold_turn, model_rollout_reading_deg
from app.physics.field import zone
from app.physics.manoeuvres import InclinedPath, Manoeuvre, RoughAir, SpeedChange, Straight, Turn, turn_legs
from app.physics.turning import (
    HALF_RATE_DEG_S,
    RATE_ONE_DEG_S,
    TurnSide,
    arc_deg,
    hemisphere_of_dip,
    normal_lead_deg,
    roll_out_lead_deg,
    rollout_by_allowance_deg,
    rollout_by_latitude_deg,
    turn_sign,
)
from app.services.bench_field import BenchField
from app.services.errors import Invalid
from app.services.messages import say, say_number

Doing = Literal["turn", "speed", "path", "rough", "free-fall"]
Path = Literal["climb", "dive"]
Rate = Literal["one", "half", "bank"]
Edge = Literal["free-fall", "pole", "blackout", "caution", "critical", "near-critical", "beyond-rules", "level"]
Rule = Literal["latitude", "allowance", "model"]

NOT_DRAWN: frozenset[Edge] = frozenset({"free-fall", "pole", "blackout"})
STEEPEST_DIP_DEG = 89.0
BEFORE_S, AFTER_S = 3.0, 30.0
ROUGH_SEED = 7  # the same air for everybody: a link shows what was seen
ROUGH_BANK_DEG = 6.0
PATH_DEG = 8.0  # of a climb or dive; chosen
OVERSHOOT_DEG = 150.0  # how far past its target a turn is held to see when a cue comes
LIMITS: dict[str, tuple[str, float, float]] = {
    "bank_deg": ("bench-bank", 5, 45),
    "tas_kt": ("bench-speed", 50, 250),
    "change_kt_s": ("bench-change", -5, 5),
    "seconds": ("bench-seconds", 2, 60),
}


class BenchWish(NamedTuple):
    """What is flown. Each manoeuvre takes what it needs: a turn its headings and bank, a change of speed its size."""

    doing: Doing = "turn"
    start_deg: int = 270
    target_deg: int = 90
    turn: TurnSide = "right"
    rate: Rate = "one"
    bank_deg: float = 15.0
    tas_kt: float = 100.0
    change_kt_s: float = 2.0
    seconds: float = 10.0
    path: Path = "dive"

    @property
    def tilts_fore_and_aft(self) -> bool:
        """Whether the card tilts along the heading, the wings staying level."""
        return self.doing in {"speed", "path"}

    def last_tas_kt(self) -> float:
        """Return the airspeed at the end of a change of speed."""
        return self.tas_kt + self.change_kt_s * self.seconds


class Moment(NamedTuple):
    """One sample: headings unwrapped, bank right positive, the card's forward edge sunk by `sunk_deg`."""

    time_s: float
    real_deg: float
    reading_deg: float
    settled_deg: float
    bank_deg: float
    sunk_deg: float


class Cue(NamedTuple):
    """Where a rule or the model starts the roll-out: the reading, when it comes, and the heading one ends on.

    `at_s` and `ends_deg` are None where the card never shows that reading in this turn.
    """

    rule: Rule
    reading_deg: int
    at_s: float | None
    ends_deg: int | None


class Flight(NamedTuple):
    """What became of a wish. `motion` is None where an edge of NOT_DRAWN holds."""

    wish: BenchWish
    field: BenchField
    edges: tuple[Edge, ...]
    motion: Motion | None
    bank_deg: float = 0.0
    full_bank_s: float | None = None
    rollout_s: float | None = None
    cues: tuple[Cue, ...] = ()

    @property
    def last_s(self) -> float:
        """When the flight ends."""
        return self.motion.time_s[-1] if self.motion else 0.0

    @property
    def usual_moment_s(self) -> float:
        """Return the moment at which real heading and reading lie farthest apart."""
        if self.motion is None:
            return 0.0
        apart = [abs(a - b) for a, b in zip(self.motion.real_deg, self.motion.reading_deg, strict=True)]
        return float(round(self.motion.time_s[apart.index(max(apart))]))

    def when_passing(self, heading_deg: float) -> float:
        """Return the moment at which the real heading is nearest to one."""
        if self.motion is None:
            return 0.0
        off = [abs(difference(real, heading_deg)) for real in self.motion.real_deg]
        return round(self.motion.time_s[off.index(min(off))], 1)

    def moment(self, second: float) -> Moment:
        """Return the sample nearest to a second; there must be a motion."""
        motion = self.motion
        if motion is None:
            raise ValueError("nothing was flown")
        at = min(range(len(motion.time_s)), key=lambda i: abs(motion.time_s[i] - second))
        angles = (motion.real_deg, motion.reading_deg, motion.settled_deg, motion.bank_deg, motion.sunk_deg)
        return Moment(motion.time_s[at], *(each[at] for each in angles))

    @property
    def critical_bank_deg(self) -> float:
        """Bank above which no card hangs steady here: tan(dip) tan(bank) is more than 1."""
        return critical_bank_deg(self.field.dip_deg)

    @property
    def steady(self) -> bool:
        """Whether the bank stays at or below the critical one all the time."""
        return "critical" not in self.edges

    def steady_at(self, moment: Moment) -> bool:
        """Whether a card would hang steady at that moment's bank."""
        return abs(moment.bank_deg) <= self.critical_bank_deg

    def as_json(self) -> dict[str, object]:
        """Return the track as small numbers: hundredths of a second and of a degree."""
        if self.motion is None:
            return {"edges": list(self.edges)}
        names = {"time": "time_s", "real": "real_deg", "reading": "reading_deg", "settled": "settled_deg"}
        lines = {short: _rounded(getattr(self.motion, name)) for short, name in names.items()}
        bank = [round(each, 1) for each in self.motion.bank_deg]
        sunk = [round(each, 1) for each in self.motion.sunk_deg]
        fore = {"sunk": sunk} if self.wish.tilts_fore_and_aft else {}
        return {
            **lines,
            "bank": bank,
            **fore,
            "dip": self.field.dip_deg,
            "critical": self.critical_bank_deg,
            "edges": list(self.edges),
        }


def fly_bench(wish: BenchWish, field: BenchField, language: Language) -> Flight:
    """Fly a wish in a field; Invalid names the value that cannot be accepted and what is."""
    _check(wish, language)
    return _flown(wish, field)


def moment_within(flight: Flight, second: float | None, language: Language) -> float:
    """Return the moment looked at, by default where the compass is farthest off; Invalid for one off the track."""
    if second is None:
        return flight.usual_moment_s
    if not 0 <= second <= flight.last_s and flight.motion is not None:
        bounds = {"low": 0, "high": int(flight.last_s)}
        raise Invalid(say("bench-moment", language, value=say_number(second, language), **bounds), "at")
    return second


def _check(wish: BenchWish, language: Language) -> None:
    for name in ("start_deg", "target_deg"):
        if not 1 <= getattr(wish, name) <= 360:
            raise Invalid(say("bench-heading", language, value=getattr(wish, name)), name)
    for name, (code, low, high) in LIMITS.items():
        value = getattr(wish, name)
        if not low <= value <= high:
            raise Invalid(
                say(code, language, value=say_number(value, language), low=f"{low:g}", high=f"{high:g}"), name
            )
    _, low, high = LIMITS["tas_kt"]
    if wish.doing == "path" and not low <= wish.last_tas_kt() <= high:
        last = say_number(wish.last_tas_kt(), language)
        raise Invalid(say("bench-last-speed", language, value=last, low=f"{low:g}", high=f"{high:g}"), "change_kt_s")


# A page, its track and its comparison ask for the same flight one after another; a worker keeps the latest.
@lru_cache(maxsize=256)
def _flown(wish: BenchWish, field: BenchField) -> Flight:
    turn = _turn_of(wish)
    bank_deg = _bank_of(wish, turn)
    edges = _edges(wish, field, bank_deg)
    if NOT_DRAWN & set(edges):
        return Flight(wish, field, edges, None, bank_deg)
    motion = fly(wish.start_deg, _manoeuvres(wish, turn), field.dip_deg, field.horizontal_nt)
    if wish.doing != "turn":
        return Flight(wish, field, edges, motion, bank_deg)
    rolling, held, _ = turn_legs(turn, wish.start_deg)
    full_s = BEFORE_S + rolling.seconds
    cues = tuple(_cues(wish, field, turn, bank_deg))
    return Flight(wish, field, edges, motion, bank_deg, full_s, full_s + held.seconds, cues)


def _turn_of(wish: BenchWish) -> Turn:
    rates = {"one": RATE_ONE_DEG_S, "half": HALF_RATE_DEG_S}
    if wish.rate == "bank":
        return Turn(wish.target_deg, wish.turn, wish.bank_deg, tas_kt=wish.tas_kt)
    return Turn(wish.target_deg, wish.turn, rate_deg_s=rates[wish.rate], tas_kt=wish.tas_kt)


def _bank_of(wish: BenchWish, turn: Turn) -> float:
    """Return the largest bank of the manoeuvre, without its side."""
    if wish.doing == "turn":
        rolling, _, _ = turn_legs(turn, wish.start_deg)
        return rolling.seconds * turn.roll_rate_deg_s
    return ROUGH_BANK_DEG if wish.doing == "rough" else 0.0


def _manoeuvres(wish: BenchWish, turn: Turn) -> Sequence[Manoeuvre]:
    change: dict[str, Manoeuvre] = {
        "turn": turn,
        "speed": SpeedChange(wish.seconds, wish.change_kt_s),
        "path": InclinedPath(wish.seconds, _path_deg(wish), wish.change_kt_s, wish.tas_kt),
        "rough": RoughAir(wish.seconds, ROUGH_BANK_DEG, ROUGH_SEED, wish.tas_kt),
    }
    return Straight(BEFORE_S), change[wish.doing], Straight(AFTER_S)


def _path_deg(wish: BenchWish) -> float:
    return PATH_DEG if wish.path == "climb" else -PATH_DEG


def _edges(wish: BenchWish, field: BenchField, bank_deg: float) -> tuple[Edge, ...]:
    critical = critical_bank_deg(field.dip_deg)
    found: dict[Edge, bool] = {
        "free-fall": wish.doing == "free-fall",
        "pole": abs(field.dip_deg) > STEEPEST_DIP_DEG,
        "blackout": zone(field.horizontal_nt) == "blackout",
        "caution": zone(field.horizontal_nt) == "caution",
        "critical": bank_deg > critical,
        "near-critical": bank_deg <= critical and not usable(bank_deg, field.dip_deg),
        "beyond-rules": wish.doing == "turn" and field.beyond_rules,
        "level": wish.doing != "free-fall" and field.level,
    }
    return tuple(edge for edge, holds in found.items() if holds)


def _cues(wish: BenchWish, field: BenchField, turn: Turn, bank_deg: float) -> Sequence[Cue]:
    """Each rule's cue and the model's, with what following it would come to in the model."""
    hemisphere = "none" if field.level else hemisphere_of_dip(field.dip_deg)
    by: dict[Rule, float] = {}
    if field.latitude_deg is not None:
        lead_deg = normal_lead_deg(bank_deg)
        by["latitude"] = rollout_by_latitude_deg(wish.target_deg, wish.turn, hemisphere, field.latitude_deg, lead_deg)
    by["allowance"] = rollout_by_allowance_deg(wish.target_deg, wish.turn, hemisphere, field.allowance_deg)
    by["model"] = model_rollout_reading_deg(wish.start_deg, turn, field.dip_deg, field.horizontal_nt)
    arc = arc_deg(wish.start_deg, wish.target_deg, wish.turn) or 360.0
    rate_deg_s = degrees(abs(turn_legs(turn, wish.start_deg)[1].rate_rad_s))
    held = hold_turn(wish.start_deg, turn, (arc + OVERSHOOT_DEG) / rate_deg_s, (field.dip_deg, field.horizontal_nt))
    lead_deg = roll_out_lead_deg(wish.tas_kt, bank_deg, turn.roll_rate_deg_s)
    return [_cue(rule, reading, (wish, arc, lead_deg), held) for rule, reading in by.items()]


def _cue(rule: Rule, reading_deg: float, flown: tuple[BenchWish, float, float], held: Motion) -> Cue:
    """Find when the card first comes to a reading as the turn goes on; the bank is full by then or nearly."""
    wish, arc, lead_deg = flown
    side = turn_sign(wish.turn)
    wanted = arc + side * difference(reading_deg, wish.target_deg)
    progress = [side * (each - wish.start_deg) for each in held.reading_deg]
    at = next((i for i, each in enumerate(progress) if i and each >= wanted - 1e-6), None)
    if at is None:
        return Cue(rule, shown(reading_deg), None, None)
    share = (wanted - progress[at - 1]) / ((progress[at] - progress[at - 1]) or 1.0)
    share = min(1.0, max(0.0, share))
    time_s, real_deg = (line[at - 1] + share * (line[at] - line[at - 1]) for line in (held.time_s, held.real_deg))
    return Cue(rule, shown(reading_deg), BEFORE_S + time_s, shown(wrap360(real_deg + side * lead_deg)))


def _rounded(line: Sequence[float]) -> list[float]:
    return [round(each, 2) for each in line]
