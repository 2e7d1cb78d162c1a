"""Draw the coastlines of the bench's map anew from a topology of the world's land.

The file kept, `static/maps/coast.svg`, comes from `land-110m.json` of the npm package world-atlas 2.0.2 (ISC), whose
data are Natural Earth's (public domain, naturalearthdata.com), with fewer points.
"""

import json
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import click

from app.cli import Refused
from app.environment import ROOT
from app.figures.contours import simplified
from app.figures.strokes import Point
from app.figures.world_map import HEIGHT, WIDTH, relative

KEPT = ROOT / "static" / "maps" / "coast.svg"
TOLERANCE, SMALLEST = 0.5, 3.0  # units and square units of the map, two units a degree
SOURCE = "Natural Earth 1:110m land, public domain, by way of npm world-atlas 2.0.2; fewer points"


@click.command()
@click.argument("topology", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--out", type=click.Path(dir_okay=False, path_type=Path), default=KEPT, help="The file to write.")
def command(topology: Path, out: Path) -> None:
    """Write the map's land from TOPOLOGY, the file land-110m.json of the npm package world-atlas."""
    try:
        land = draw_land(json.loads(topology.read_text("utf-8")))
    except (ValueError, KeyError, TypeError) as error:
        raise Refused(f"{topology} is not a topology of land. Accepted: land-110m.json of world-atlas 2.") from error
    out.write_text(land, "utf-8")
    click.echo(f"{out}: {len(land)} bytes")


def draw_land(topology: Any) -> str:
    """Return the SVG file with the land as one path."""
    arcs = [list(_points(arc, topology["transform"])) for arc in topology["arcs"]]
    shapes = topology["objects"]["land"]["geometries"]
    joined = [_ring(ring, arcs) for shape in shapes for polygon in shape["arcs"] for ring in polygon]
    rings = [copy for ring in joined for copy in _within(_unwrapped(ring))]
    kept = [simplified(ring, TOLERANCE) for ring in rings if _area(ring) >= SMALLEST]
    path = "".join(relative(ring) + "z" for ring in kept if len(ring) > 3)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 720 360"><desc>{SOURCE}</desc>'
        f'<path id="land" d="{path}"/></svg>\n'
    )


def _points(arc: Sequence[Sequence[int]], transform: dict[str, list[float]]) -> Iterator[Point]:
    """Undo the steps and the scale of an arc: longitude and latitude to the map's units."""
    (scale_x, scale_y), (first_x, first_y) = transform["scale"], transform["translate"]
    x = y = 0
    for step_x, step_y in arc:
        x, y = x + step_x, y + step_y
        yield 2 * (180 + first_x + x * scale_x), 2 * (90 - first_y - y * scale_y)


def _ring(numbers: Sequence[int], arcs: Sequence[list[Point]]) -> list[Point]:
    """Join the arcs of a ring; a negative number is an arc run backwards."""
    ring: list[Point] = []
    for each in numbers:
        arc = arcs[each] if each >= 0 else arcs[~each][::-1]
        ring += arc[1:] if ring else arc
    return ring


def _unwrapped(ring: Sequence[Point]) -> list[Point]:
    """Follow a ring across the date line; one that runs round the earth is closed along the south edge."""
    line = [ring[0]]
    for x, y in ring[1:]:
        line.append((x - WIDTH * round((x - line[-1][0]) / WIDTH), y))
    if abs(line[-1][0] - line[0][0]) > WIDTH / 2:
        line += [(line[-1][0], HEIGHT), (line[0][0], HEIGHT), line[0]]
    return line


def _within(ring: Sequence[Point]) -> Iterator[list[Point]]:
    """Give a ring that stands out at one side of the map once more at the other."""
    for shift in (-WIDTH, 0.0, WIDTH):
        moved = [(x + shift, y) for x, y in ring]
        if min(x for x, _ in moved) < WIDTH and max(x for x, _ in moved) > 0:
            yield moved


def _area(ring: Sequence[Point]) -> float:
    pairs = zip(ring, [*ring[1:], ring[0]], strict=True)
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs)) / 2
