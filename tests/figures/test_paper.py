"""Each figure printed: the page is not painted over, whatever a print engine makes of classes.

The outside authority is WeasyPrint, which ignores a page's style sheet inside a drawing.
"""

import re
import zlib
from collections.abc import Iterator

import pytest
from weasyprint import HTML

from app.figures import draw_figure, figure_names
from app.figures.model import FigureCall
from app.figures.samples import SAMPLES

LARGEST_BLACK_UNITS = 30.0  # a triangle, a disc, a star; nothing larger is filled
PAINTS = {"f", "f*", "B", "B*", "b", "b*"}


def printed(name: str) -> tuple[bytes, int]:
    drawings = [draw_figure(FigureCall(*sample), "fr", "paper").markup for sample in SAMPLES if sample[0] == name]
    document = HTML(string="<style>@page{size:800px 3000px;margin:10px}</style>" + "".join(drawings))
    return document.write_pdf(uncompressed_pdf=True), len(drawings)


def contents(pdf: bytes) -> Iterator[str]:
    for stream in re.findall(rb"stream\r?\n(.*?)\r?\nendstream", pdf, re.DOTALL):
        try:
            yield zlib.decompress(stream).decode("latin-1")
        except zlib.error:
            yield stream.decode("latin-1")


def black_fills(content: str) -> Iterator[float]:
    """Give the size of each area filled with black; colours are kept by q and given back by Q."""
    colour = ""
    kept: list[str] = []
    points: list[tuple[float, ...]] = []
    for line in content.splitlines():
        *numbers, operator = line.split() or [""]
        if operator == "q":
            kept.append(colour)
        elif operator == "Q":
            colour = kept.pop()
        elif operator == "rg":
            colour = " ".join(numbers)
        elif operator in {"m", "l", "c"}:
            points.append(tuple(float(each) for each in numbers[-2:]))
        elif operator in PAINTS | {"S", "n"}:
            if operator in PAINTS and colour == "0 0 0":
                yield extent(points)
            points = []


def extent(points: list[tuple[float, ...]]) -> float:
    """Return the larger side of what the points bound; the engine's own "0 0 m" before a path is no part of it."""
    drawn = [point for point in points if point != (0.0, 0.0)]
    return max(max(values) - min(values) for values in zip(*drawn, strict=True)) if drawn else 0.0


@pytest.mark.parametrize("name", figure_names())
def test_prints_without_a_black_block(name: str) -> None:
    pdf, count = printed(name)
    pages = re.findall(rb"/Type /Page\b", pdf)
    fills = [size for content in contents(pdf) for size in black_fills(content)]
    assert count
    assert len(pages) == 1
    assert all(size <= LARGEST_BLACK_UNITS for size in fills)


def test_a_black_block_would_be_seen() -> None:
    """The check above finds what it is there to find: a filled class without its attribute."""
    box = '<svg xmlns="http://www.w3.org/2000/svg" width="90" height="90"><path class="a" d="M5 5L80 5L80 80Z"/></svg>'
    pdf = HTML(string=f"<style>.a{{fill:#fff}}</style>{box}").write_pdf(uncompressed_pdf=True)
    sizes = [size for content in contents(pdf) for size in black_fills(content)]
    assert max(sizes, default=0) > LARGEST_BLACK_UNITS
