"""The case of a panel instrument: its edge, its opening, its screws."""

from collections.abc import Iterator
from math import sqrt

from app.figures.model import Language
from app.figures.strokes import FRAME, Lettering, Pen, Point, fill, ring, rounded, segment, stroke, words
from app.figures.words import word

SLOT = sqrt(0.5)


def window_case(size: Point, corner: Point, opening: Point) -> Iterator[str]:
    """Draw a case with a window: it covers what lies outside the opening."""
    outer, window = rounded((2, 2), (size[0] - 4, size[1] - 4), 12), rounded(corner, opening, 4)
    yield fill(outer + window, "tint")
    yield stroke(outer, FRAME)
    yield stroke(rounded((10, 10), (size[0] - 20, size[1] - 20), 7), Pen("line", 1))
    yield stroke(window, FRAME)
    yield from corner_screws(size)


def square_case(size: Point) -> Iterator[str]:
    """Draw the case of a round instrument."""
    yield stroke(rounded((2, 2), (size[0] - 4, size[1] - 4), 12), FRAME, "tint")
    yield stroke(rounded((10, 10), (size[0] - 20, size[1] - 20), 7), Pen("line", 1))


def corner_screws(size: Point, *, knob: bool = False) -> Iterator[str]:
    """Draw small slotted screws in the corners; a knob takes the place of the one at the lower left."""
    width, height = size
    places = ((23, 23, 1), (width - 23, 23, 1), (width - 23, height - 23, -1), (23, height - 23, 1))
    for x, y, turn in places[: 3 if knob else 4]:
        yield screw((x, y), 5, (SLOT, SLOT * turn))


def screw(at: Point, radius: float, slot: Point) -> str:
    """Draw a slotted screw; `slot` is the direction of its slot."""
    reach = radius * 0.85
    ends = (at[0] - reach * slot[0], at[1] - reach * slot[1]), (at[0] + reach * slot[0], at[1] + reach * slot[1])
    return ring(at, radius, Pen("ink", 1.5), "tint") + stroke(segment(*ends), Pen("ink", 1.5))


def case_screws(y: float, language: Language) -> Iterator[str]:
    """Draw the two correcting screws under the window, with the directions they work on."""
    east_west = f"{word('E', language)}\u2013{word('W', language)}"
    yield screw((76, y), 10, (0.94, 0.34))
    yield words((92, y + 5), "N\u2013S", Lettering(anchor="start"))
    yield screw((244, y), 10, (0.8, -0.6))
    yield words((228, y + 5), east_west, Lettering(anchor="end"))
