"""The deviation workshop: from coefficients, eight deviations or a swing sheet to compensation, residuals and cards.

Knowledge only: real swings are done by qualified people under the aircraft's approved documents. The curve is entered
with the magnetic heading, as the correction card is; deviation is magnetic less compass, east positive.
"""

from collections.abc import Sequence
from dataclasses import astuple, fields
from functools import lru_cache
from typing import Literal, NamedTuple

from app.packs.spec import Language
from app.physics.angles import round_half_up
from app.physics.deviation import (
    ALL_TERMS,
    SWING_HEADINGS_DEG,
    BadCard,
    Coefficients,
    Screw,
    card_from_deviations,
    coefficients_from_swing,
    compensate,
    deviation_deg,
    turn_instrument,
)
from app.services.errors import Invalid
from app.services.messages import say, say_number
from app.services.swing_sheet import LARGEST_DEG, Fit, Reading, fit_sheet, read_sheet, reading_at

Enter = Literal["coefficients", "deviations", "readings"]
Note = Literal["three-terms", "no-freedom", "wide-gap", "poor-fit", "no-card-found", "no-card-left", "beyond-limit"]

LARGEST_COEFFICIENT_DEG = 20
CARD_STEP_DEG = 30
CARD_HEADINGS_DEG = tuple(range(CARD_STEP_DEG, 361, CARD_STEP_DEG))
LIMIT_DEG = 10  # 14 CFR 23.1327 up to amdt 23-63: on no heading more, once compensated
POOR_FIT_DEG = 2  # chosen: a reading so far off the curve is read again
USUAL_GAP_DEG = 90
STAGES = 5
SAMPLE = Coefficients(1.0, -6.0, 4.5, 1.5, -0.5)


class WorkshopWish(NamedTuple):
    """What the workshop starts from, and after how many steps of the compensation one looks."""

    enter: Enter = "coefficients"
    coefficients: Coefficients = SAMPLE
    deviations_deg: tuple[float, ...] = ()
    sheet: str = ""
    step: int = STAGES


class Stage(NamedTuple):
    """One step of the compensation. `heading_deg` is None where the whole instrument is turned."""

    heading_deg: int | None
    turned: Screw | Literal["instrument"]
    found_deg: float
    left_deg: float
    remaining: Coefficients

    @property
    def taken_deg(self) -> float:
        """What the step takes away, east positive."""
        return self.found_deg - self.left_deg


class Extreme(NamedTuple):
    """The largest deviation of a curve, whatever its side, and the first heading it stands on."""

    heading_deg: int
    deviation_deg: float


class Workshop(NamedTuple):
    """What became of a wish. `readings`, `fit` and `classic` are there where readings were given."""

    found: Coefficients
    stages: tuple[Stage, ...]
    step: int
    readings: tuple[Reading, ...] = ()
    fit: Fit | None = None
    classic: Coefficients | None = None

    @property
    def left(self) -> Coefficients:
        """What is left after the step looked at."""
        return self.stages[self.step - 1].remaining if self.step else self.found

    @property
    def notes(self) -> tuple[Note, ...]:
        """What has to be said about it, in the order of the page."""
        fit, notes = self.fit, list[Note]()
        if fit:
            if fit.terms < ALL_TERMS:
                notes.append("three-terms")
            if len(self.readings) == fit.terms:
                notes.append("no-freedom")
            if fit.widest_gap_deg > USUAL_GAP_DEG:
                notes.append("wide-gap")
            if abs(fit.residuals_deg[fit.largest]) > POOR_FIT_DEG:
                notes.append("poor-fit")
        if card_of(self.found) is None:
            notes.append("no-card-found")
        if self.step and card_of(self.left) is None:
            notes.append("no-card-left")
        if round_half_up(abs(extreme_of(self.left).deviation_deg), 1) > LIMIT_DEG:
            notes.append("beyond-limit")
        return tuple(notes)


def open_workshop(wish: WorkshopWish, language: Language) -> Workshop:
    """Work a wish out; Invalid, naming field and value, for what cannot be accepted."""
    if wish.enter == "coefficients":
        _check_sizes(wish.coefficients, language)
        return Workshop(wish.coefficients, stages_of(wish.coefficients), wish.step)
    if wish.enter == "deviations":
        return _from_readings(_eight(wish.deviations_deg, language), wish, language)
    return _from_readings(read_sheet(wish.sheet, language), wish, language)


def stages_of(coefficients: Coefficients) -> tuple[Stage, ...]:
    """Return the two-screw compensation step by step; last the instrument is turned by what is left of A."""
    steps = [Stage(s.heading_deg, s.screw, s.found_deg, s.left_deg, s.remaining) for s in compensate(coefficients)]
    last = steps[-1].remaining
    return (*steps, Stage(None, "instrument", last.a, 0.0, turn_instrument(last)))


def card_of(coefficients: Coefficients) -> list[dict[str, int]] | None:
    """Return the correction card every 30 degrees, None where a compass so far off has none."""
    if abs(extreme_of(coefficients).deviation_deg) > LARGEST_DEG:
        return None
    deviations = [round_half_up(deviation_deg(coefficients, heading), 6) for heading in CARD_HEADINGS_DEG]
    try:
        card = card_from_deviations(CARD_HEADINGS_DEG, deviations)
    except BadCard:
        return None
    return [{"for_deg": f, "steer_deg": s} for f, s in zip(card.for_deg, card.steer_deg, strict=True)]


@lru_cache(maxsize=64)  # a page asks for each of its curves several times
def extreme_of(coefficients: Coefficients) -> Extreme:
    """Return the largest deviation on a whole heading."""
    sized = [(round_half_up(abs(deviation_deg(coefficients, h)), 6), -h) for h in range(1, 361)]
    heading = -max(sized)[1]
    return Extreme(heading, deviation_deg(coefficients, heading))


def at_swing_headings(coefficients: Coefficients) -> tuple[float, ...]:
    """Return the deviations on N, NE, E ... NW, to a tenth of a degree."""
    return tuple(round_half_up(deviation_deg(coefficients, heading), 1) for heading in SWING_HEADINGS_DEG)


def sheet_of(coefficients: Coefficients) -> tuple[Reading, ...]:
    """Return the readings of a swing on eight headings that such a compass gives."""
    pairs = zip(SWING_HEADINGS_DEG, at_swing_headings(coefficients), strict=True)
    return tuple(reading_at(heading or 360, deviation) for heading, deviation in pairs)


def _from_readings(readings: Sequence[Reading], wish: WorkshopWish, language: Language) -> Workshop:
    fit = fit_sheet(readings, language)
    eight = tuple(each.magnetic_deg % 360 for each in readings) == SWING_HEADINGS_DEG
    classic = coefficients_from_swing([each.deviation_deg for each in readings]) if eight else None
    return Workshop(fit.coefficients, stages_of(fit.coefficients), wish.step, tuple(readings), fit, classic)


def _eight(deviations_deg: Sequence[float], language: Language) -> tuple[Reading, ...]:
    for heading, deviation in zip(SWING_HEADINGS_DEG, deviations_deg, strict=True):
        if abs(deviation) > LARGEST_DEG:
            raise Invalid(_size("deviation-size", deviation, LARGEST_DEG, language), f"on_{heading or 360:03d}")
    pairs = zip(SWING_HEADINGS_DEG, deviations_deg, strict=True)
    return tuple(Reading(heading or 360.0, (heading - deviation) % 360 or 360.0) for heading, deviation in pairs)


def _check_sizes(coefficients: Coefficients, language: Language) -> None:
    for field, size in zip(fields(coefficients), astuple(coefficients), strict=True):
        if abs(size) > LARGEST_COEFFICIENT_DEG:
            message = _size("coefficient-size", size, LARGEST_COEFFICIENT_DEG, language)
            raise Invalid(message, f"coefficient_{field.name}_deg")


def _size(code: str, value: float, most: int, language: Language) -> str:
    return say(code, language, value=say_number(value, language), low=-most, high=most)
