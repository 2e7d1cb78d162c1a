"""Variation at a place over the years: what the past's model gives thin, what the present model gives heavy.

Two widths, as the plot of headings: a wide one and one for a phone.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, floor

from app.figures.figure import Figure, Values
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import Parameter, is_number, need, one_of
from app.figures.strokes import GRATICULE, Lettering, Pen, Point, polyline, segment, sheet, stroke, words
from app.figures.words import pick
from app.physics.angles import unwrap

SIZES = {"wide": (720.0, 300.0), "narrow": (320.0, 300.0)}
LEFT, RIGHT, TOP, BOTTOM = 62.0, 14.0, 14.0, 34.0
STEPS_DEG = (1, 2, 5, 10, 20, 30, 60, 90, 180)
MOST_LINES = 7
PAST, PRESENT = Pen("magnetic", 2), Pen("magnetic", 4)
ZERO = Pen("line", 2)


def _fits(value: object) -> bool:
    return (
        isinstance(value, Sequence)
        and 2 <= len(value) <= 200
        and all(set(each) == {"year", "variation_deg"} and all(map(is_number, each.values())) for each in value)
        and all(a["year"] < b["year"] for a, b in pairwise(value))
    )


YEARS = Parameter("2 to 200 rows {year, variation_deg}, years growing", _fits)


@dataclass(frozen=True, slots=True)
class Frame:
    """The plot's years and variations, and where they stand."""

    size: Point
    first: float
    last: float
    low: float
    high: float

    def at(self, year: float, variation: float) -> Point:
        """Return the point of a year and a variation; east is up."""
        width, height = self.size
        x = LEFT + (year - self.first) * (width - LEFT - RIGHT) / (self.last - self.first)
        return x, height - BOTTOM - (variation - self.low) * (height - TOP - BOTTOM) / (self.high - self.low)


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw both models' variation over the years."""
    past, present = _unwrapped(values["past"], None), _unwrapped(values["present"], values["past"][-1])
    held = [variation for _, variation in (*past, *present)]
    step = next((s for s in STEPS_DEG if (max(held) - min(held)) / s <= MOST_LINES - 2), STEPS_DEG[-1])
    low, high = step * floor(min(held) / step), step * ceil((max(held) + 1e-9) / step)
    frame = Frame(SIZES[values["width"]], past[0][0], present[-1][0], low, high)
    parts = [*_graticule(frame, step, language)]
    parts += [
        stroke(polyline(frame.at(*each) for each in line), pen) for line, pen in ((past, PAST), (present, PRESENT))
    ]
    title = pick(language, "Variation over the years", "Déclinaison au fil des ans")
    said = pick(
        language,
        "Thin: IGRF-14. Heavy: World Magnetic Model 2025.",
        "Trait fin\u00a0: IGRF-14. Trait épais\u00a0: modèle magnétique mondial 2025.",
    )
    return Drawing("year-plot", sheet("year-plot", frame.size, parts, title, _describe(values, language)), title,
                   _describe(values, language), said)  # fmt: skip


def _unwrapped(rows: Sequence[Values], after: Values | None) -> list[Point]:
    near = float((after or rows[0])["variation_deg"])
    line = []
    for row in rows:
        near = unwrap(row["variation_deg"], near)
        line.append((float(row["year"]), near))
    return line


def _graticule(frame: Frame, step: int, language: Language) -> Iterator[str]:
    width, height = frame.size
    for variation in range(int(frame.low), int(frame.high) + 1, step):
        _, y = frame.at(frame.first, variation)
        yield stroke(segment((LEFT, y), (width - RIGHT, y)), GRATICULE if variation else ZERO)
        yield words((LEFT - 6, y + 5), named(variation, language), Lettering(ink="soft", anchor="end"))
    foot, every = height - BOTTOM, 20 if width > 400 else 40
    yield stroke(segment((LEFT, foot), (width - RIGHT, foot)), Pen("line", 1.25))
    for year in range(int(frame.first), int(frame.last) + 1, every):
        x, _ = frame.at(year, frame.low)
        yield stroke(segment((x, foot), (x, foot + 5)), Pen("line", 1.25))
        yield words((x, foot + 20), str(year), Lettering(ink="soft"))


def named(variation: float, language: Language) -> str:
    """Write a variation in whole degrees, with its side."""
    turned = unwrap(variation, 0.0)
    side = "" if turned % 180 == 0 else pick(language, "E", "E") if turned > 0 else pick(language, "W", "O")
    return f"{abs(turned):g}°\u00a0{side}".rstrip("\u00a0")


def _describe(values: Values, language: Language) -> str:
    rows = (values["past"][0], values["present"][0], values["present"][-1])
    said = "; ".join(f"{row['year']:g} {named(round(row['variation_deg'], 1), language)}" for row in rows)
    start = pick(language, "Variation: ", "Déclinaison\u00a0: ")
    return f"{start}{said if language == 'en' else said.replace('.', ',')}."


YEAR_PLOT = Figure(
    "year-plot", {"past": need(YEARS), "present": need(YEARS), "width": need(one_of("wide", "narrow"))}, draw
)
