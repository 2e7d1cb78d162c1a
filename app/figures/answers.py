"""How the key and the student's answer are marked, everywhere: a filled triangle and an open ring."""

from collections.abc import Iterator
from dataclasses import dataclass

from app.figures.faces import three_digits
from app.figures.strokes import EDGE, Lettering, Pen, Point, fill, polygon, ring, segment, stroke, words

HALF_WIDTH, HEIGHT, RADIUS = 6.5, 11.0, 5.0


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
    """Draw the row; the two numbers stand outward of each other."""
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
        yield _beside(x, top, value, right=not yours_left)


def _beside(x: float, top: float, value: float, *, right: bool) -> str:
    style = Lettering(bold=True, anchor="start" if right else "end")
    return words((x + (10 if right else -10), top + HEIGHT), three_digits(value), style)


def _swing(ends: tuple[float, float], y: float) -> Iterator[str]:
    left, right = ends
    yield stroke(segment((left, y), (right, y)), EDGE)
    for x, inward in ((left, 6), (right, -6)):
        yield stroke(f"M{x + inward:.2f} {y - 4:.2f}L{x:.2f} {y:.2f}L{x + inward:.2f} {y + 4:.2f}", EDGE)
