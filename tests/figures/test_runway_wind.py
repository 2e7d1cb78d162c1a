"""Runway and wind: each number at the end where its landing begins, the wind's arrow from its side, no parts said."""

from math import atan2, degrees, hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.figures import check_figure, draw_figure
from app.figures.model import FigureCall
from tests.figures.drawings import LANGUAGES, SVG, Point, points_of, root_of, texts

MIDDLE = (160.0, 160.0)
A_DEGREE = 1.0


def azimuth(at: Point) -> float:
    return degrees(atan2(at[0] - MIDDLE[0], MIDDLE[1] - at[1])) % 360


def gap(a: float, b: float) -> float:
    return abs((a - b + 180) % 360 - 180)


@given(st.integers(1, 36))
def test_each_number_stands_where_its_landing_begins(runway: int) -> None:
    """A landing on 09 flies east, so it begins at the west end; the other end is 18 away."""
    said = texts(root_of("runway-wind", {"runway": runway, "wind_from_deg": 50, "wind_kt": 18}))
    other = runway - 18 if runway > 18 else runway + 18
    for number, side in ((runway, 180), (other, 0)):
        x, y = said[f"{number:02d}"]
        assert gap(azimuth((x, y - 0.36 * 18)), 10 * runway + side) < A_DEGREE


@given(st.integers(1, 36))
def test_the_wind_blows_in_from_its_direction(tens: int) -> None:
    root = root_of("runway-wind", {"runway": 9, "wind_from_deg": 10 * tens, "wind_kt": 18})
    shaft = next(path for path in root.iter(f"{SVG}path") if path.get("stroke-width") == "3")
    tail, neck = points_of(shaft.get("d"))
    assert gap(azimuth(tail), 10 * tens) < A_DEGREE
    assert hypot(tail[0] - 160, tail[1] - 160) > hypot(neck[0] - 160, neck[1] - 160)


@pytest.mark.parametrize("language", LANGUAGES)
def test_nothing_says_the_parts(language: str) -> None:
    """18 kt, 40 degrees from the right of runway 09 is 12 across and 14 along: neither stands there."""
    call = FigureCall("runway-wind", {"runway": 9, "wind_from_deg": 130, "wind_kt": 18})
    drawing = draw_figure(call, "fr" if language == "fr" else "en")
    said = (
        drawing.title + drawing.description + drawing.caption + " ".join(texts(root_of(call.name, {**call.parameters})))
    )
    for leak in ("12", "14", "40", "left", "right", "gauche", "droite"):
        assert leak not in said


@pytest.mark.parametrize("runway", [0, 37, 9.5, "09"])
def test_no_such_runway(runway: object) -> None:
    call = FigureCall("runway-wind", {"runway": runway, "wind_from_deg": 50, "wind_kt": 18})
    assert any("1 to 36" in problem for problem in check_figure(call))
