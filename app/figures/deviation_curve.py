"""Deviation against heading, east upward: the curve of the five coefficients, the readings, what is left.

Two widths, a wide one with the lines named beside them and a narrow one for a phone; the caption names them in both.
The curve is entered with the magnetic heading, as a correction card is.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import ceil
from typing import Any

from app.figures.faces import card_label, size_and_letter
from app.figures.figure import Figure, Values
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import Parameter, between, is_number, need, one_of
from app.figures.strokes import (
    GRATICULE,
    HEAVY,
    YOURS,
    Lettering,
    Pen,
    Point,
    disc,
    polyline,
    ring,
    segment,
    sheet,
    stroke,
    words,
)
from app.figures.words import NBSP, in_a_row, pick
from app.physics.deviation import SWING_HEADINGS_DEG, Coefficients, deviation_deg

SIZES = {"wide": (720.0, 330.0), "narrow": (320.0, 320.0)}
LEFT, RIGHT, TOP, BOTTOM = 52.0, 20.0, 26.0, 48.0
LARGEST_DEG = 120  # five coefficients of 20 come to less
LEAST_SPAN_DEG, SPAN_STEP_DEG = 5, 5
CURVE_STEP_DEG = 5
MOST_POINTS = 36
NAMED_AT_DEG = range(30, 331, 30)

Named = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Frame:
    """Where a heading and a deviation stand: 0 to 360 from left to right, `span_deg` east above and west below."""

    width: str
    span_deg: float

    @property
    def size(self) -> Point:
        """Width and height of the drawing."""
        return SIZES[self.width]

    @property
    def per_degree(self) -> float:
        """Height of one degree of deviation."""
        return (self.size[1] - TOP - BOTTOM) / (2 * self.span_deg)

    def at(self, heading_deg: float, deviation: float) -> Point:
        """Return the point of a heading and a deviation, east positive."""
        width, height = self.size
        middle = TOP + (height - TOP - BOTTOM) / 2
        return LEFT + heading_deg * (width - LEFT - RIGHT) / 360.0, middle - deviation * self.per_degree


def frame_of(values: Values) -> Frame:
    """Return the frame a call is drawn in: wide enough for its lines and points, and for `span_deg` at least."""
    held = [abs(point["deviation_deg"]) for point in values.get("points", ())]
    for name in ("coefficients", "after"):
        if name in values:
            held += [abs(deviation) for _, deviation in _curve(values[name])]
    largest = max([*held, float(values.get("span_deg", LEAST_SPAN_DEG)), float(LEAST_SPAN_DEG)])
    return Frame(values["width"], SPAN_STEP_DEG * ceil((largest - 1e-9) / SPAN_STEP_DEG))


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw the curves over the graticule, the points over the curves."""
    frame = frame_of(values)
    parts = [*_graticule(frame, language)]
    lines = {name: values[name] for name in ("coefficients", "after") if name in values}
    for name, coefficients in lines.items():
        pen = YOURS if name == "coefficients" and "after" in values else HEAVY
        parts.append(stroke(polyline(frame.at(*point) for point in _curve(coefficients)), pen))
    if frame.width == "wide" and "after" in values:
        parts += _names(frame, values, language)
    for point in values.get("points", ()):
        spot = frame.at(point["magnetic_deg"] % 360, point["deviation_deg"])
        parts += [disc(spot, 7, "paper"), ring(spot, 5, Pen("ink", 2), "paper")]
    title = pick(language, "Deviation against heading", "Déviation en fonction du cap")
    description = _describe(values, language)
    markup = sheet("deviation-curve", frame.size, parts, title, description)
    return Drawing("deviation-curve", markup, title, description, _caption(values, language))


def _curve(coefficients: Named) -> list[Point]:
    sized = Coefficients(**coefficients)
    return [(float(heading), deviation_deg(sized, heading)) for heading in range(0, 361, CURVE_STEP_DEG)]


def _graticule(frame: Frame, language: Language) -> Iterator[str]:
    width, height = frame.size
    step = next(step for step in (1, 2, 5, 10, 20, 30, 60) if frame.span_deg / step <= 5)
    most = int(frame.span_deg // step)
    for line in range(-most, most + 1):
        _, y = frame.at(0, line * step)
        yield stroke(segment((LEFT, y), (width - RIGHT, y)), Pen("line", 1.25) if line == 0 else GRATICULE)
        yield words((LEFT - 8, y + 5), size_and_letter(line * step, language), Lettering(ink="soft", anchor="end"))
    every = 30 if frame.width == "wide" else 90
    for heading in range(0, 361, 45 if every == 90 else every):
        x, _ = frame.at(heading, 0)
        yield stroke(segment((x, TOP), (x, height - BOTTOM)), GRATICULE)
        if heading % every == 0:
            yield words((x, height - BOTTOM + 20), card_label(heading or 360, language), Lettering(ink="soft"))
    said = pick(language, "magnetic heading", "cap magnétique")
    yield words((width - RIGHT, height - 6), said, Lettering(ink="magnetic", anchor="end"))
    yield words((4, 16), pick(language, "deviation, °", "déviation, °"), Lettering(ink="soft", anchor="start"))


def _names(frame: Frame, values: Values, language: Language) -> Iterator[str]:
    """Name both curves where they lie farthest apart, each on the side away from the other."""
    found, left = (Coefficients(**values[name]) for name in ("coefficients", "after"))
    at = max(NAMED_AT_DEG, key=lambda heading: abs(deviation_deg(found, heading) - deviation_deg(left, heading)))
    above = deviation_deg(found, at) >= deviation_deg(left, at)
    for curve, up, said, bold in (
        (found, above, pick(language, "found", "trouvée"), False),
        (left, not above, pick(language, "left", "restante"), True),
    ):
        x, y = frame.at(at, deviation_deg(curve, at))
        y = min(max(y + (-14 if up else 24), TOP + 14), frame.size[1] - BOTTOM - 6)
        yield words((x, y), said, Lettering(15, bold=bold, halo="paper"))


def _caption(values: Values, language: Language) -> str:
    if "after" in values:
        said = pick(language, "Thin: what was found. Heavy: what is left.", "Fin : trouvée. Épais : restante.")
    else:
        said = pick(language, "The curve of the coefficients.", "La courbe des coefficients.")
    if "points" in values:
        said += pick(language, " Rings: the readings.", " Anneaux : les lectures.")
    return said.replace(" :", f"{NBSP}:")


def _describe(values: Values, language: Language) -> str:
    said = [_read_out(values["coefficients"], language)]
    if "after" in values:
        said = [
            pick(language, f"Found: {said[0]}.", f"Trouvée{NBSP}: {said[0]}."),
            pick(language, f"Left: {_read_out(values['after'], language)}.",
                 f"Restante{NBSP}: {_read_out(values['after'], language)}."),
        ]  # fmt: skip
    else:
        said = [pick(language, f"By the curve: {said[0]}.", f"Selon la courbe{NBSP}: {said[0]}.")]
    if "points" in values:
        read = [_said(point["magnetic_deg"], point["deviation_deg"], language) for point in values["points"]]
        said.append(
            pick(language, f"Readings: {in_a_row(read, language)}.", f"Lectures{NBSP}: {in_a_row(read, language)}.")
        )
    return " ".join(said)


def _read_out(coefficients: Named, language: Language) -> str:
    sized = Coefficients(**coefficients)
    return in_a_row([_said(h or 360, deviation_deg(sized, h), language) for h in SWING_HEADINGS_DEG], language)


def _said(heading: float, deviation: float, language: Language) -> str:
    size, _, letter = size_and_letter(deviation, language).partition(NBSP)
    return f"{card_label(heading, language)}{NBSP}{size}°{NBSP if letter else ''}{letter}"


def _is_coefficients(value: Any) -> bool:
    return isinstance(value, Mapping) and set(value) == set("abcde") and all(is_number(each) for each in value.values())


def _is_points(value: Any) -> bool:
    return (
        isinstance(value, list | tuple)
        and 1 <= len(value) <= MOST_POINTS
        and all(isinstance(each, Mapping) and set(each) == {"magnetic_deg", "deviation_deg"} for each in value)
        and all(is_number(each["magnetic_deg"]) and 0 <= each["magnetic_deg"] <= 360 for each in value)
        and all(is_number(each["deviation_deg"]) for each in value)
    )


def _conflicts(values: Values) -> list[str]:
    curves = [values[name] for name in ("coefficients", "after") if name in values]
    largest = max([sum(map(abs, curve.values())) for curve in curves])
    return [f"coefficients come to {largest:g}: give at most {LARGEST_DEG} in all"] if largest > LARGEST_DEG else []


COEFFICIENTS = Parameter("a mapping of a, b, c, d and e to degrees, east positive", _is_coefficients)
POINTS = Parameter(
    f"a list of 1 to {MOST_POINTS} points with magnetic_deg, 0 to 360, and deviation_deg, east positive", _is_points
)
DEVIATION_CURVE = Figure(
    "deviation-curve",
    {
        "coefficients": need(COEFFICIENTS),
        "after": COEFFICIENTS,
        "points": POINTS,
        "span_deg": between(0, LARGEST_DEG),
        "width": need(one_of("wide", "narrow")),
    },
    draw,
    _conflicts,
)
