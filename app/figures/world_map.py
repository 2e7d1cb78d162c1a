"""The magnetic world on one day as layers of an SVG file: a page draws each by reference, in its own ink.

Plate carrée, two units a degree, north up, Greenwich in the middle. The paths carry no colour of their own. Layers:
isogonals each 10 degrees, the agonic line, isoclinals each 20 degrees, the magnetic equator, the zones in which the
World Magnetic Model's report warns of compasses, and the lines' names.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import pairwise
from math import hypot

from app.figures.contours import Values, contour, simplified
from app.figures.model import Language
from app.figures.strokes import Point, number
from app.figures.words import pick
from app.physics.field import BLACKOUT_NT, CAUTION_NT
from app.physics.world_field import STEP_DEG, WorldField

WIDTH, HEIGHT = 720.0, 360.0
UNITS = 2.0 * STEP_DEG  # of the drawing, between two values of the grid
TOLERANCE, SHORTEST = 0.4, 12.0
ROOM, MARGIN = 26.0, 14.0  # between names, and to the frame
PLACES_OF_NAMES = (0.5, 0.35, 0.65, 0.2, 0.8)

Line = list[Point]


def draw_world(world: WorldField, language: Language) -> str:
    """Return the file with its layers, each under its id."""
    seen = [[nt - BLACKOUT_NT for nt in row] for row in world.horizontal_nt]
    isogonals = {level: _isogonal(world.declination_deg, level, seen) for level in range(-170, 181, 10)}
    isoclinals = {level: _lines(world.dip_deg, _minus(level)) for level in range(-80, 81, 20)}
    taken: list[Point] = []
    names = {
        "isogonal-names": list(_names(isogonals, pick(language, "EW", "EO"), taken)),
        "isoclinal-names": list(_names(isoclinals, pick(language, "NS", "NS"), taken)),
    }
    paths = {
        "isogonals": _path(line for level, lines in isogonals.items() if level for line in lines),
        "agonic": _path(isogonals[0]),
        "isoclinals": _path(line for level, lines in isoclinals.items() if level for line in lines),
        "equator": _path(isoclinals[0]),
        "caution": _path(map(_closed, _lines(world.horizontal_nt, _minus(CAUTION_NT)))),
        "blackout": _path(map(_closed, _lines(world.horizontal_nt, _minus(BLACKOUT_NT)))),
    }
    layers = [f'<path id="{name}" d="{path}"/>' for name, path in paths.items()]
    layers += [f'<g id="{name}">{"".join(texts)}</g>' for name, texts in names.items()]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {number(WIDTH)} {number(HEIGHT)}">'
        f"{''.join(layers)}</svg>"
    )


def _minus(level: float) -> Callable[[float], float]:
    return lambda value: value - level


def _isogonal(declinations: Values, level: float, seen: Values) -> list[Line]:
    return _placed(contour(declinations, lambda value: (value - level + 180) % 360 - 180, 90.0, seen))


def _lines(values: Values, off: Callable[[float], float]) -> list[Line]:
    return _placed(contour(values, off, float("inf")))


def _placed(lines: Sequence[Line]) -> list[Line]:
    """Scale to the drawing, drop points that do not matter and lines too short to see."""
    scaled = [[(UNITS * x, UNITS * y) for x, y in line] for line in lines]
    return [simplified(line, TOLERANCE) for line in scaled if _length(line) >= SHORTEST]


def _length(line: Line) -> float:
    return sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(line))


def _closed(line: Line) -> Line:
    """Close the outline of a zone: one that runs from side to side goes round its pole."""
    (first, y), (last, _) = line[0], line[-1]
    if abs(first - last) < WIDTH / 2:
        return [*line, line[0]]
    pole = 0.0 if y < HEIGHT / 2 else HEIGHT
    return [*line, (last, pole), (first, pole), line[0]]


def _path(lines: Iterable[Line]) -> str:
    """Path data in tenths of a unit, each point as the way from the last one: half the letters."""
    return "".join(relative(line) for line in lines)


def relative(line: Line) -> str:
    """Path data of one line, as `_path` writes it."""
    tenths = [(round(10 * x), round(10 * y)) for x, y in line]
    steps = [(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(tenths)]
    moves = " ".join(f"{x / 10:g} {y / 10:g}" for x, y in steps if (x, y) != (0, 0))
    return f"M{tenths[0][0] / 10:g} {tenths[0][1] / 10:g}l{moves}".replace(" -", "-")


def _names(levels: dict[int, list[Line]], sides: str, taken: list[Point]) -> Iterator[str]:
    """Name each line once, where there is room for it."""
    for level, lines in levels.items():
        side = "" if level % 180 == 0 else f"\u00a0{sides[level < 0]}"
        for line in lines:
            places = (_along(line, share) for share in PLACES_OF_NAMES)
            spot = next((each for each in places if _room(each, taken)), None)
            if spot is not None:
                taken.append(spot)
                yield f'<text x="{spot[0]:.0f}" y="{spot[1] + 4:.0f}">{abs(level)}°{side}</text>'


def _along(line: Line, share: float) -> Point:
    """Return the point after a share of a line's length."""
    left = share * _length(line)
    for (x0, y0), (x1, y1) in pairwise(line):
        piece = hypot(x1 - x0, y1 - y0)
        if left <= piece and piece:
            return x0 + left / piece * (x1 - x0), y0 + left / piece * (y1 - y0)
        left -= piece
    return line[-1]


def _room(spot: Point, taken: Sequence[Point]) -> bool:
    x, y = spot
    framed = MARGIN <= x <= WIDTH - MARGIN and MARGIN <= y <= HEIGHT - MARGIN
    return framed and all(hypot(x - a, 1.6 * (y - b)) >= ROOM for a, b in taken)
