"""A swing sheet of one's own: lines of magnetic heading and compass reading, and the coefficients that fit them.

Deviation is magnetic less compass, east positive. Nothing of a sheet is kept: it stands in the address of the page.
"""

import re
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from app.packs.spec import Language
from app.physics.angles import difference, round_half_up, wrap360
from app.physics.deviation import ALL_TERMS, Coefficients, deviation_deg, least_squares_coefficients
from app.physics.errors import Undefined
from app.services.errors import Invalid
from app.services.messages import say, say_number

FIELD = "readings"
FEWEST, MOST = 4, 36
LARGEST_DEG = 30  # a compass further off is repaired, not corrected
WIDEST_GAP_DEG = 120
FEW_TERMS = 3  # A, B and C: what four headings fix
DECIMALS = 1
NUMBER = re.compile(r"\d{1,3}(?:[.,]\d{1,2})?", re.ASCII)
BETWEEN = re.compile(r"[\s;:/|]+")


class Reading(NamedTuple):
    """One line of a sheet: the magnetic heading stood on, 1 to 360, and what the compass showed there."""

    magnetic_deg: float
    compass_deg: float

    @property
    def deviation_deg(self) -> float:
        """Magnetic less compass, east positive."""
        return round_half_up(difference(self.magnetic_deg, self.compass_deg), 2)


class Fit(NamedTuple):
    """The coefficients that fit a sheet best, how many of them it fixes, and what they leave of each reading."""

    coefficients: Coefficients
    terms: int
    residuals_deg: tuple[float, ...]
    widest_gap_deg: float

    @property
    def largest(self) -> int:
        """The place of the reading that lies farthest from the curve."""
        sizes = [abs(each) for each in self.residuals_deg]
        return sizes.index(max(sizes))


def read_sheet(text: str, language: Language) -> tuple[Reading, ...]:
    """Read a sheet: a line for each heading, magnetic first; lines without a digit are titles.

    Invalid, with the line and what is accepted, for anything else.
    """
    lines = [line.strip() for line in text.splitlines()]
    readings = [_read_line(at, line, language) for at, line in enumerate(lines, start=1) if re.search(r"\d", line)]
    if not FEWEST <= len(readings) <= MOST:
        code = "sheet-few" if len(readings) < FEWEST else "sheet-many"
        raise Invalid(say(code, language, value=len(readings), low=FEWEST, high=MOST), FIELD)
    headings = [each.magnetic_deg for each in readings]
    twice = next((each for each in headings if headings.count(each) > 1), None)
    if twice is not None:
        raise Invalid(say("sheet-twice", language, value=_write(twice)), FIELD)
    return tuple(sorted(readings, key=lambda each: each.magnetic_deg % 360))


def write_sheet(readings: Sequence[Reading]) -> str:
    """Write readings as a sheet that `read_sheet` reads."""
    return "\n".join(f"{_write(each.magnetic_deg)} {_write(each.compass_deg)}" for each in readings)


def fit_sheet(readings: Sequence[Reading], language: Language) -> Fit:
    """Fit five coefficients by least squares, three where the headings fix no more.

    Invalid where too wide a part of the circle was left out.
    """
    headings, found = [each.magnetic_deg for each in readings], [each.deviation_deg for each in readings]
    gap, before, after = _widest_gap(headings)
    if gap > WIDEST_GAP_DEG:
        between = {"before": _write(before), "after": _write(after), "most": WIDEST_GAP_DEG}
        raise Invalid(say("sheet-gap", language, value=say_number(gap, language), **between), FIELD)
    terms = ALL_TERMS
    try:
        coefficients = least_squares_coefficients(headings, found)
    except Undefined:
        terms = FEW_TERMS
        coefficients = least_squares_coefficients(headings, found, terms)
    curve = [deviation_deg(coefficients, heading) for heading in headings]
    left = tuple(round_half_up(seen - by_curve, 6) for seen, by_curve in zip(found, curve, strict=True))
    return Fit(coefficients, terms, left, gap)


def reading_at(magnetic_deg: float, deviation: float) -> Reading:
    """Return what the compass shows on a heading with a deviation, to a tenth of a degree."""
    return Reading(magnetic_deg, _round_heading(wrap360(magnetic_deg - deviation)))


def _read_line(at: int, line: str, language: Language) -> Reading:
    parts = [part for part in BETWEEN.split(line.replace("°", " ")) if part]
    if len(parts) == 1:
        parts = parts[0].split(",")
    parts = [part.strip(",") for part in parts]
    if len(parts) != 2 or not all(NUMBER.fullmatch(part) for part in parts):
        raise Invalid(say("sheet-line", language, value=line, line=at), FIELD)
    magnetic, compass = (float(part.replace(",", ".")) for part in parts)
    for heading in (magnetic, compass):
        if not 0 <= heading <= 360:
            raise Invalid(say("sheet-heading", language, value=say_number(heading, language), line=at), FIELD)
    off = difference(magnetic, compass)
    if abs(off) > LARGEST_DEG:
        read = {"magnetic": _write(magnetic), "compass": _write(compass), "most": LARGEST_DEG}
        raise Invalid(say("sheet-far", language, value=say_number(abs(off), language), line=at, **read), FIELD)
    return Reading(magnetic or 360.0, compass or 360.0)


def _widest_gap(headings: Sequence[float]) -> tuple[float, float, float]:
    """Return the widest part of the circle without a heading, and the headings at its ends."""
    around = sorted(wrap360(each) for each in headings)
    return max((after - before, before, after) for before, after in pairwise([*around, around[0] + 360.0]))


def _round_heading(heading_deg: float) -> float:
    return round_half_up(heading_deg, DECIMALS) or 360.0


def _write(heading_deg: float) -> str:
    rounded = _round_heading(wrap360(heading_deg))
    return f"{rounded:05.1f}".removesuffix(".0")
