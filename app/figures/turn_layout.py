"""Where things stand in a turn seen from above: two rings round the centre of the turn, fitted to the drawing.

In a right turn an aircraft on heading h stands at azimuth h - 90 from the centre of its turn, in a left one at h + 90.
Progress is counted in degrees from the start, in the direction of the turn.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import degrees

from app.figures.strokes import Point, around
from app.physics.angles import difference, wrap360
from app.physics.turning import TurnSide, turn_sign

Box = tuple[float, float, float, float]

WIDTH, MARGIN = 340.0, 8.0
OUTER, BETWEEN, LEAST_BETWEEN = 216.0, 82.0, 54.0
NUMBER_OUT = 27.0
NUMBER_HALF = (17.0, 9.0)  # half the width and height of three digits
BEYOND_DEG = 30.0  # the reading ring goes on this far past the target
BEHIND_DEG = 60.0  # farther than this behind the start, an answer lies ahead of it the long way round
TALLEST = 400.0
BOUNDED_EVERY_DEG = 10.0  # between two such points an arc stands out by less than a unit
ANSWER_OUT = 36.0
ARROW: Box = (-12.0, -46.0, 12.0, 18.0)  # the north arrow round its middle
ROOMY = 100.0  # a ring of readings this large has room for the north arrow in its middle
AEROPLANE_BACK = 24.0


@dataclass(frozen=True, slots=True)
class Turn:
    """A turn: whole headings it starts and ends on, and its side."""

    start_deg: float
    target_deg: float
    side: TurnSide

    @property
    def sweep_deg(self) -> float:
        """How far the turn goes, 0 to 360."""
        return wrap360(turn_sign(self.side) * (self.target_deg - self.start_deg))

    def progress(self, heading_deg: float) -> float:
        """Progress at a heading; shortly behind the start is negative."""
        ahead = wrap360(turn_sign(self.side) * (heading_deg - self.start_deg))
        return ahead - 360.0 if ahead > max(360.0 - BEHIND_DEG, self.sweep_deg) else ahead

    def reading_progress(self, heading_deg: float, reading_deg: float) -> float:
        """Progress of a reading that belongs to a real heading: near it, on whichever side."""
        off = turn_sign(self.side) * difference(reading_deg, heading_deg)
        return self.progress(heading_deg) + off

    def heading(self, progress_deg: float) -> float:
        """Heading after some progress."""
        return wrap360(self.start_deg + turn_sign(self.side) * progress_deg)

    def azimuth(self, progress_deg: float) -> float:
        """Azimuth from the centre of the turn, not wrapped, so that arcs run on."""
        sign = turn_sign(self.side)
        return self.start_deg + sign * progress_deg - sign * 90.0

    def multiples(self, every_deg: int, first: float, last: float) -> Iterator[float]:
        """Give the progress of each heading that is a multiple of `every_deg` between two progresses."""
        offset = wrap360(-turn_sign(self.side) * self.start_deg) % every_deg
        progress = offset + every_deg * ((first - offset) // every_deg)
        while progress <= last + 1e-9:
            if progress >= first - 1e-9:
                yield progress
            progress += every_deg


@dataclass(frozen=True, slots=True)
class Layout:
    """Centre, radii and height of a drawing that holds the whole turn."""

    turn: Turn
    centre: Point
    outer: float
    inner: float
    height: float

    @property
    def numbers_apart_deg(self) -> float:
        """How far two answers' numbers must be turned apart to stand clear of each other."""
        return degrees(2.2 * NUMBER_HALF[0] / (self.inner + ANSWER_OUT))

    def on_outer(self, progress_deg: float, out: float = 0.0) -> Point:
        """Return a point on the ring of real headings, or `out` beyond it."""
        return around(self.centre, self.outer + out, self.turn.azimuth(progress_deg))

    def on_inner(self, progress_deg: float, out: float = 0.0) -> Point:
        """Return a point on the ring of readings, or `out` beyond it."""
        return around(self.centre, self.inner + out, self.turn.azimuth(progress_deg))


def fit(turn: Turn, first: float, last: float, marks: Iterable[float] = ()) -> Layout:
    """Lay a turn out: readings run from progress `first` to `last`, answers stand at `marks`; rings shrink to fit."""
    held = tuple(marks)
    outer = OUTER
    while True:
        inner = outer - max(LEAST_BETWEEN, BETWEEN * outer / OUTER)
        boxes = _boxes(Layout(turn, (0.0, 0.0), outer, inner, 0.0), (first, last), held)
        lefts, tops, rights, bottoms = zip(*boxes, strict=True)
        west, north, east, south = min(lefts), min(tops), max(rights), max(bottoms)
        if east - west <= WIDTH - 2 * MARGIN and south - north <= TALLEST:
            break
        outer -= 2.0
    x = (WIDTH - west - east) / 2
    return Layout(turn, (x, MARGIN - north), outer, inner, south - north + 2 * MARGIN)


def _boxes(layout: Layout, span: tuple[float, float], marks: tuple[float, ...]) -> list[Box]:
    """Return the boxes of everything that must stand inside the drawing."""
    back = around(layout.on_outer(0), AEROPLANE_BACK, layout.turn.start_deg + 180)
    boxes = [_box(back, (26, 26)), *([ARROW] if layout.inner >= ROOMY else [_box(layout.centre, (2, 2))])]
    for progress in _steps(0, layout.turn.sweep_deg):
        boxes += [_box(layout.on_outer(progress, NUMBER_OUT), NUMBER_HALF), _box(layout.on_outer(progress), (12, 12))]
    boxes += [_box(layout.on_inner(progress), (12, 12)) for progress in _steps(*span)]
    turned = layout.numbers_apart_deg
    boxes += [_box(layout.on_inner(at + by, ANSWER_OUT), NUMBER_HALF) for at in marks for by in (-turned, 0, turned)]
    return boxes


def north_arrow(layout: Layout, span: tuple[float, float], marks: tuple[float, ...]) -> Point:
    """Return the middle of the north arrow: the centre of the turn, or the emptiest corner where that is full."""
    if layout.inner >= ROOMY:
        return layout.centre
    boxes = _boxes(layout, span, marks)
    corners = [
        (x, y)
        for x in (MARGIN - ARROW[0], WIDTH - MARGIN - ARROW[2])
        for y in (MARGIN - ARROW[1], layout.height - MARGIN - ARROW[3])
    ]
    return max(corners, key=lambda corner: min(_gap(corner, box) for box in boxes))


def _gap(at: Point, box: Box) -> float:
    """Return how far the north arrow at a point stays clear of a box; negative where they overlap."""
    across = max(box[0] - at[0] - ARROW[2], at[0] + ARROW[0] - box[2])
    down = max(box[1] - at[1] - ARROW[3], at[1] + ARROW[1] - box[3])
    return max(across, down)


def _steps(first: float, last: float) -> Iterator[float]:
    progress = first
    while progress < last:
        yield progress
        progress += BOUNDED_EVERY_DEG
    yield last


def _box(at: Point, half: Point) -> Box:
    return at[0] - half[0], at[1] - half[1], at[0] + half[0], at[1] + half[1]


def spaced(spots: Iterable[tuple[Point, str]]) -> list[tuple[Point, str]]:
    """Keep those numbers, first come first kept, that do not run into one kept before."""
    kept: list[tuple[Point, str]] = []
    for (x, y), text in spots:
        if all(abs(x - at[0]) > 2 * NUMBER_HALF[0] or abs(y - at[1]) > 2 * NUMBER_HALF[1] for at, _ in kept):
            kept.append(((x, y), text))
    return kept
