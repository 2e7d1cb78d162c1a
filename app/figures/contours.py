"""Lines of one value through a grid of values, and fewer points for a line that keeps its shape.

Each cell of the grid is crossed by straight pieces between the points where its edges have the value; pieces that
share an edge are joined. Grid coordinates: (column, row), counted from the first value.
"""

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from math import hypot

from app.figures.strokes import Point

Values = Sequence[Sequence[float]]
Edge = tuple[int, int, int]  # row and column of the first value, 0 along the row or 1 down the column
Off = Callable[[float], float]
"""How far a value is from the level, signed."""


def contour(values: Values, off: Off, largest_jump: float, inside: Values | None = None) -> list[list[Point]]:
    """Return the lines along which `off` is nothing; a closed one ends where it begins.

    An edge whose ends differ by more than `largest_jump` is no crossing: an angle runs round there. Cells with a
    corner where `inside` is not positive are left out.
    """
    spans = [[off(value) for value in row] for row in values]
    points: dict[Edge, Point] = {}
    joined: dict[Edge, list[Edge]] = {}
    for row, column in _cells(spans, inside):
        for one, other in _pieces(spans, row, column, largest_jump):
            for edge in (one, other):
                points.setdefault(edge, _crossing(spans, edge))
            joined.setdefault(one, []).append(other)
            joined.setdefault(other, []).append(one)
    return [[points[edge] for edge in chain] for chain in _chains(joined)]


def simplified(line: Sequence[Point], tolerance: float) -> list[Point]:
    """Drop points that lie within the tolerance of the line through those that stay (Ramer, Douglas and Peucker)."""
    if len(line) < 3:
        return list(line)
    (x0, y0), (x1, y1) = line[0], line[-1]
    run, rise = x1 - x0, y1 - y0
    length = hypot(run, rise)
    away = [
        abs(run * (y - y0) - rise * (x - x0)) / length if length > 1e-12 else hypot(x - x0, y - y0)
        for x, y in line[1:-1]
    ]
    farthest = max(range(len(away)), key=away.__getitem__)
    if away[farthest] <= tolerance:
        return [line[0], line[-1]]
    at = farthest + 1
    return simplified(line[: at + 1], tolerance)[:-1] + simplified(line[at:], tolerance)


def _cells(spans: Values, inside: Values | None) -> Iterator[tuple[int, int]]:
    """Find the cells whose corners do not all lie on one side of the level."""
    above = [[span > 0 for span in row] for row in spans]
    for row, (upper, lower) in enumerate(pairwise(above)):
        corners = zip(upper, upper[1:], lower, lower[1:], strict=False)
        for column, (a, b, c, d) in enumerate(corners):
            if not a == b == c == d and (inside is None or _all_inside(inside, row, column)):
                yield row, column


def _all_inside(inside: Values, row: int, column: int) -> bool:
    return all(inside[row + r][column + c] > 0 for r in (0, 1) for c in (0, 1))


def _pieces(spans: Values, row: int, column: int, largest_jump: float) -> Iterator[tuple[Edge, Edge]]:
    """Join the crossed edges of a cell, two by two; a cell crossed an odd number of times holds a pole."""
    edges = [(row, column, 0), (row, column + 1, 1), (row + 1, column, 0), (row, column, 1)]
    crossed = [edge for edge in edges if _crosses(spans, edge, largest_jump)]
    if len(crossed) == 2:
        yield crossed[0], crossed[1]
    elif len(crossed) == 4:
        top, right, foot, left = crossed
        middle = sum(spans[row + r][column + c] for r in (0, 1) for c in (0, 1))
        if (middle > 0) == (spans[row][column] > 0):
            yield from ((top, right), (left, foot))
        else:
            yield from ((top, left), (right, foot))


def _ends(spans: Values, edge: Edge) -> tuple[float, float]:
    row, column, down = edge
    return spans[row][column], spans[row + down][column + 1 - down]


def _crosses(spans: Values, edge: Edge, largest_jump: float) -> bool:
    first, last = _ends(spans, edge)
    return (first > 0) != (last > 0) and abs(first - last) <= largest_jump


def _crossing(spans: Values, edge: Edge) -> Point:
    row, column, down = edge
    first, last = _ends(spans, edge)
    part = first / (first - last)
    return (column, row + part) if down else (column + part, row)


def _chains(joined: dict[Edge, list[Edge]]) -> Iterator[list[Edge]]:
    """Walk each line from one end to the other, then each closed line once round."""
    left = {edge: list(others) for edge, others in joined.items()}
    starts = [edge for edge, others in left.items() if len(others) == 1]
    for start in [*starts, *left]:
        chain, edge = [start], start
        while left[edge]:
            following = left[edge].pop()
            left[following].remove(edge)
            chain.append(following)
            edge = following
        if len(chain) > 1:
            yield chain
