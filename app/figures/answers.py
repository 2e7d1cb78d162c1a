"""How the key and the student's answer are marked, everywhere: a filled triangle and an open ring."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import copysign

from app.figures.faces import three_digits
from app.figures.strokes import (
    EDGE,
    Lettering,
    Pen,
    Point,
    around,
    centred,
    fill,
    polygon,
    ring,
    segment,
    stroke,
    words,
)
from app.physics.angles import difference

HALF_WIDTH, HEIGHT, RADIUS = 6.5, 11.0, 5.0
DIAL_NUMBERS_APART_DEG = 32.0
ROW_LEFT, ROW_RIGHT = 72.0, 248.0  # a number outward of a mark beyond these would lie on a screw of the case


@dataclass(frozen=True, slots=True)
class Marked:
    """What stands in the row under a window: (x, value) of key and answer, left and right end of a swing."""

    key: Point | None = None
    yours: Point | None = None
    swing: tuple[float, float] | None = None


def triangle_up(at: Point) -> str:
    """Draw a filled triangle whose tip is at a point, pointing up."""
    x, y = at
    return fill(polygon([(x, y), (x + HALF_WIDTH, y + HEIGHT), (x - HALF_WIDTH, y + HEIGHT)]), "ink")


def answer_row(marked: Marked, top: float) -> Iterator[str]:
    """Draw the row; the two numbers stand outward of each other, but within the screws of the case."""
    yours_left = marked.key is not None and marked.yours is not None and marked.yours[0] < marked.key[0]
    if marked.swing:
        yield from _swing(marked.swing, top + 2)
        top += 6
    if marked.key:
        x, value = marked.key
        yield triangle_up((x, top))
        yield _beside(x, top, value, right=yours_left or marked.yours is None)
    if marked.yours:
        x, value = marked.yours
        yield ring((x, top + HEIGHT / 2), RADIUS, Pen("ink", 2), "tint")
        within = ROW_LEFT <= x <= ROW_RIGHT
        yield _beside(x, top, value, right=not yours_left if within else x < ROW_LEFT)


def dial_answers(centre: Point, reading_deg: float, key_deg: float | None, yours_deg: float | None) -> Iterator[str]:
    """Mark key and answer inside the numbers of a dial whose card shows `reading_deg` at the top."""
    apart_deg = 180.0
    if key_deg is not None and yours_deg is not None:
        apart_deg = difference(yours_deg, key_deg)
    if yours_deg is not None:
        azimuth = difference(yours_deg, reading_deg)
        pushed_deg = copysign(max(0.0, DIAL_NUMBERS_APART_DEG - abs(apart_deg)), apart_deg)
        yield _dial_number(centre, azimuth + pushed_deg, yours_deg, bold=False)
        yield ring(around(centre, 74, azimuth), RADIUS, Pen("ink", 2), "card")
    if key_deg is not None:
        azimuth = difference(key_deg, reading_deg)
        base = around(centre, 69, azimuth)
        sides = (around(base, HALF_WIDTH, azimuth - 90), around(base, HALF_WIDTH, azimuth + 90))
        yield _dial_number(centre, azimuth, key_deg, bold=True)
        yield fill(polygon([around(centre, 80, azimuth), *sides]), "ink")


def _dial_number(centre: Point, azimuth_deg: float, value_deg: float, *, bold: bool) -> str:
    return centred(around(centre, 56, azimuth_deg), three_digits(value_deg), Lettering(bold=bold, halo="card"))


def _beside(x: float, top: float, value: float, *, right: bool) -> str:
    style = Lettering(bold=True, anchor="start" if right else "end")
    return words((x + (10 if right else -10), top + HEIGHT), three_digits(value), style)


def _swing(ends: tuple[float, float], y: float) -> Iterator[str]:
    left, right = ends
    yield stroke(segment((left, y), (right, y)), EDGE)
    for x, inward in ((left, 6), (right, -6)):
        yield stroke(f"M{x + inward:.2f} {y - 4:.2f}L{x:.2f} {y:.2f}L{x + inward:.2f} {y + 4:.2f}", EDGE)
