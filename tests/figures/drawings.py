"""Ways to look into a drawing."""

import re
from cmath import phase, rect
from collections.abc import Iterator
from math import hypot, tau
from typing import Any, Final

from lxml import etree

from app.figures import draw_figure
from app.figures.model import FigureCall, Language, Medium
from app.figures.samples import SAMPLES, Sample

SVG: Final = "{http://www.w3.org/2000/svg}"
Point = tuple[float, float]

LANGUAGES: Final[tuple[Language, Language]] = ("en", "fr")


def sample_id(sample: Sample) -> str:
    return f"{sample[0]}-{SAMPLES.index(sample)}"


def root_of(
    name: str, parameters: dict[str, Any], language: Language = "en", medium: Medium = "page"
) -> etree._Element:
    """Draw a figure and parse it as XML, which also proves it well formed."""
    return etree.fromstring(draw_figure(FigureCall(name, parameters), language, medium).markup)


def drawn(root: etree._Element) -> Iterator[etree._Element]:
    """Give everything that leaves ink: paths, circles, words."""
    yield from (element for element in root.iter() if element.tag in {f"{SVG}path", f"{SVG}circle", f"{SVG}text"})


def texts(root: etree._Element) -> dict[str, Point]:
    """Return where each word stands: the point of its baseline, by the words."""
    return {element.text: place_of(element) for element in root.iter(f"{SVG}text") if element.text}


def place_of(text: etree._Element) -> Point:
    """Return the point that a text hangs on: of its attributes, or the first shift of its transform."""
    if moved := re.match(r"translate\((\S+) (\S+)\)", text.get("transform", "")):
        return float(moved[1]), float(moved[2])
    return float(text.get("x")), float(text.get("y"))


def points_of(path: str) -> list[Point]:
    """Return the points that bound a path of straight, quadratic and circular pieces; arcs by points along them."""
    points: list[Point] = []
    for command, text in re.findall(r"([MLQAZ])([^MLQAZ]*)", path):
        numbers = [float(each) for each in text.split()]
        if command == "A":
            points += _along_arc(points[-1], numbers)
        else:
            points += list(zip(numbers[::2], numbers[1::2], strict=True))
    return points


def _along_arc(start: Point, numbers: list[float]) -> list[Point]:
    """Sample a circular arc: its centre lies off the middle of the chord, on the side the two flags choose."""
    radius, large, clockwise, end = numbers[0], numbers[3], numbers[4], (numbers[5], numbers[6])
    run, drop = (end[0] - start[0]) / 2, (end[1] - start[1]) / 2
    half = hypot(run, drop)
    off = (max(0.0, radius * radius - half * half)) ** 0.5 * (1 if large != clockwise else -1)
    centre = complex(start[0] + run - off * drop / half, start[1] + drop + off * run / half)
    first, last = complex(*start) - centre, complex(*end) - centre
    angle = phase(last / first) % tau - (0 if clockwise else tau)
    spots = (centre + first * rect(1.0, angle * step / 24) for step in range(25))
    return [(spot.real, spot.imag) for spot in spots]
