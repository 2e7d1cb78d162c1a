"""Strokes, fills and lettering as SVG text: black on paper by attributes, and classes by which a page recolours them.

Printing ignores a page's style sheet inside a drawing, so each shape carries its own attributes; a page needs colours
for day and night, so each also carries a class. Widths are pixels that do not scale with the drawing.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from html import escape
from math import ceil

from app.physics.angles import cos_deg, sin_deg

Point = tuple[float, float]

# Ink by name, as it prints; a page's tokens carry the same names.
INKS = {
    "ink": "#000", "soft": "#000", "true": "#000", "magnetic": "#000", "line": "#444", "rule": "#999",
    "paper": "#fff", "card": "#fff", "tint": "#fff",
}  # fmt: skip
MAGNETIC_DASH = "9 6"
COMPASS_DASH = "0.1 6"
EVENT_DASH = "2 5"
FONT = "B612, Verdana, 'DejaVu Sans', sans-serif"
HALO_PX = 5
DIRECTIONS = 1024  # kept: the marks of dials and roses stand at the same few hundred


@dataclass(frozen=True, slots=True)
class Pen:
    """How a line is drawn: ink by name, width in pixels, dashes, round or flat ends."""

    ink: str = "ink"
    width: float = 2
    dash: str = ""
    round: bool = False


@dataclass(frozen=True, slots=True)
class Lettering:
    """How words are set: size in units of the drawing (14 at least), ink by name, weight, anchor, paper behind them."""

    size: float = 14
    ink: str = "ink"
    bold: bool = False
    anchor: str = "middle"
    halo: str = ""


GRATICULE = Pen("rule", 1)
THIN = Pen("line", 1.25)
YOURS = Pen("ink", 1.5)
EDGE = Pen("ink", 1.5)
FRAME = Pen("ink", 2)
HEAVY = Pen("ink", 3)
TRUE = Pen("true", 2.5)
MAGNETIC = Pen("magnetic", 2.5, MAGNETIC_DASH)
COMPASS = Pen("ink", 2.5, COMPASS_DASH, round=True)


def number(value: float) -> str:
    """Write a coordinate with two decimals at most, never -0."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def spot(at: Point) -> str:
    """Write a point for path data."""
    return f"{number(at[0])} {number(at[1])}"


def around(centre: Point, radius: float, azimuth_deg: float) -> Point:
    """Return the point at an azimuth, clockwise from the top of the drawing."""
    east, north = _direction(azimuth_deg)
    return centre[0] + radius * east, centre[1] - radius * north


@lru_cache(maxsize=DIRECTIONS)
def _direction(azimuth_deg: float) -> Point:
    return sin_deg(azimuth_deg), cos_deg(azimuth_deg)


def segment(start: Point, end: Point) -> str:
    """Path data of one straight line."""
    return f"M{spot(start)}L{spot(end)}"


def segments(ends: Iterable[tuple[Point, Point]]) -> str:
    """Path data of many straight lines, such as the marks of a ring, which one pen then draws at once."""
    return "".join(segment(start, end) for start, end in ends)


def polyline(points: Iterable[Point]) -> str:
    """Path data of a line through points."""
    return "M" + "L".join(spot(point) for point in points)


def polygon(points: Iterable[Point]) -> str:
    """Path data of a closed outline through points."""
    return polyline(points) + "Z"


def arc(centre: Point, radius: float, from_deg: float, to_deg: float) -> str:
    """Path data of an arc between two azimuths, clockwise when `to_deg` is larger.

    In pieces of 90 degrees at most: the centre of one near 180 would hang on the last decimal of its ends.
    """
    pieces = max(1, ceil(abs(to_deg - from_deg) / 90))
    clockwise, step = int(to_deg > from_deg), (to_deg - from_deg) / pieces
    ends = (around(centre, radius, from_deg + step * at) for at in range(1, pieces + 1))
    turn = f"A{number(radius)} {number(radius)} 0 0 {clockwise} "
    return f"M{spot(around(centre, radius, from_deg))}" + "".join(turn + spot(end) for end in ends)


def rounded(corner: Point, size: Point, radius: float) -> str:
    """Path data of a box with rounded corners."""
    (x, y), (w, h), r = corner, size, radius
    turn = f"A{number(r)} {number(r)} 0 0 1 "
    return (
        f"M{spot((x + r, y))}L{spot((x + w - r, y))}{turn}{spot((x + w, y + r))}L{spot((x + w, y + h - r))}"
        f"{turn}{spot((x + w - r, y + h))}L{spot((x + r, y + h))}{turn}{spot((x, y + h - r))}"
        f"L{spot((x, y + r))}{turn}{spot((x + r, y))}Z"
    )


def stroke(path: str, pen: Pen, fill: str = "") -> str:
    """Draw a path with a pen; `fill` is an ink by name, nothing for an open outline."""
    classes = f"fig-{pen.ink}" + (f" fig-{fill}-fill" if fill else "")
    dashes = f' stroke-dasharray="{pen.dash}"' if pen.dash else ""
    ends = ' stroke-linecap="round"' if pen.round else ""
    return (
        f'<path class="{classes}" d="{path}" fill="{INKS[fill] if fill else "none"}" stroke="{INKS[pen.ink]}" '
        f'stroke-width="{number(pen.width)}"{dashes}{ends} stroke-linejoin="round" vector-effect="non-scaling-stroke"/>'
    )


def fill(path: str, ink: str) -> str:
    """Fill a path without an outline; where outlines lie inside each other, holes stay open."""
    return f'<path class="fig-{ink}-fill" d="{path}" fill="{INKS[ink]}" fill-rule="evenodd"/>'


def ring(centre: Point, radius: float, pen: Pen, fill: str = "") -> str:
    """Draw a circle."""
    classes = f"fig-{pen.ink}" + (f" fig-{fill}-fill" if fill else "")
    dashes = f' stroke-dasharray="{pen.dash}"' if pen.dash else ""
    return (
        f'<circle class="{classes}" cx="{number(centre[0])}" cy="{number(centre[1])}" r="{number(radius)}" '
        f'fill="{INKS[fill] if fill else "none"}" stroke="{INKS[pen.ink]}" stroke-width="{number(pen.width)}"{dashes} '
        'vector-effect="non-scaling-stroke"/>'
    )


def disc(centre: Point, radius: float, ink: str = "ink") -> str:
    """Draw a filled point."""
    return (
        f'<circle class="fig-{ink}-fill" cx="{number(centre[0])}" cy="{number(centre[1])}" r="{number(radius)}" '
        f'fill="{INKS[ink]}"/>'
    )


def words(at: Point, text: str, style: Lettering = Lettering(), place: str = "") -> str:
    """Set words with their baseline at a point; `place` is a transform that replaces the point."""
    where = f'transform="{place}"' if place else f'x="{number(at[0])}" y="{number(at[1])}"'
    weight = ' font-weight="700"' if style.bold else ""
    shape = f'{where} font-size="{number(style.size)}"{weight} text-anchor="{style.anchor}"'
    top = f'<text class="fig-{style.ink}-fill" {shape} fill="{INKS[style.ink]}">{_printed(text)}</text>'
    if not style.halo:
        return top
    ground = INKS[style.halo]
    halo = (
        f'<text class="fig-{style.halo} fig-{style.halo}-fill" {shape} fill="{ground}" stroke="{ground}" '
        f'stroke-width="{HALO_PX}" stroke-linejoin="round" vector-effect="non-scaling-stroke" aria-hidden="true">'
        f"{_printed(text)}</text>"
    )
    return halo + top


def centred(at: Point, text: str, style: Lettering = Lettering()) -> str:
    """Set words with the middle of their digits at a point."""
    return words((at[0], at[1] + 0.36 * style.size), text, style)


def _printed(text: str) -> str:
    return escape(text.replace("'", "’"))


def sheet(name: str, size: Point, parts: Sequence[str], title: str, description: str) -> str:
    """Put a drawing together: an image to the reader, with its title and its description inside."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="fig fig-{name}" role="img" '
        f'viewBox="0 0 {number(size[0])} {number(size[1])}" width="{number(size[0])}" height="{number(size[1])}" '
        f'font-family="{FONT}"><title>{_printed(title)}</title><desc>{_printed(description)}</desc>'
        f"{''.join(parts)}</svg>"
    )
