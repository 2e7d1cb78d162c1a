"""The deviation curve: where a degree stands, east upward, one scale for both curves, words for who cannot see it."""

from math import isclose

import pytest

from app.figures import check_figure, draw_figure
from app.figures.deviation_curve import frame_of
from app.figures.model import FigureCall
from app.figures.samples import FOUND, LEFT_OVER, SWUNG
from tests.figures.drawings import SVG, points_of, root_of, texts

BOTH = {"coefficients": SWUNG, "after": LEFT_OVER}
FRAMES = [("wide", 720.0, 330.0), ("narrow", 320.0, 320.0)]


@pytest.mark.parametrize(("width", "right", "bottom"), FRAMES)
def test_east_is_up_and_north_stands_at_both_ends(width: str, right: float, bottom: float) -> None:
    """A + C + E = 10.5 on north, A + B - E = 11.5 on east: 20.1 on 045 makes the frame 25 either side."""
    root = root_of("deviation-curve", {"coefficients": SWUNG, "width": width})
    curve = next(points_of(p.get("d")) for p in root.iter(f"{SVG}path") if p.get("stroke-width") == "3")
    middle, per_degree = 26 + (bottom - 74) / 2, (bottom - 74) / 50
    for place, heading, deviation in ((0, 0, 10.5), (18, 90, 11.5), (36, 180, -5.5), (72, 360, 10.5)):
        x, y = curve[place]
        assert isclose(x, 52 + heading * (right - 72) / 360, abs_tol=0.01)
        assert isclose(y, middle - deviation * per_degree, abs_tol=0.01)


def test_scale_is_lettered_east_and_west() -> None:
    shown = set(texts(root_of("deviation-curve", {"coefficients": SWUNG, "width": "wide"})))
    assert {"20\u00a0E", "20\u00a0W", "0", "N", "E", "S", "W", "030"} <= shown
    french = set(texts(root_of("deviation-curve", {"coefficients": SWUNG, "width": "wide"}, "fr")))
    assert {"20\u00a0O", "O"} <= french


def test_a_wish_for_a_larger_scale_is_kept_and_a_smaller_one_not() -> None:
    assert frame_of({"coefficients": LEFT_OVER, "width": "wide"}).span_deg == 5
    assert frame_of({"coefficients": LEFT_OVER, "width": "wide", "span_deg": 20}).span_deg == 20
    assert frame_of({"coefficients": SWUNG, "width": "wide", "span_deg": 5}).span_deg == 25


def test_points_stand_on_their_readings() -> None:
    values = {"coefficients": SWUNG, "points": FOUND, "width": "wide"}
    rings = [each for each in root_of("deviation-curve", values).iter(f"{SVG}circle") if each.get("r") == "5"]
    frame = frame_of(values)
    for drawn, point in zip(rings, FOUND, strict=True):
        x, y = frame.at(point["magnetic_deg"] % 360, point["deviation_deg"])
        assert isclose(float(drawn.get("cx")), x, abs_tol=0.01)
        assert isclose(float(drawn.get("cy")), y, abs_tol=0.01)


def test_words_hold_both_curves_and_the_readings() -> None:
    drawing = draw_figure(FigureCall("deviation-curve", {**BOTH, "points": FOUND, "width": "wide"}))
    assert "Found: N\u00a010.5°\u00a0E, 045\u00a0" in drawing.description
    assert "Left: N\u00a01.5°\u00a0E, 045\u00a02°\u00a0W" in drawing.description
    assert "Readings: N\u00a010.5°\u00a0E" in drawing.description
    assert drawing.caption == "Thin: what was found. Heavy: what is left. Rings: the readings."


@pytest.mark.parametrize(
    ("more", "word"),
    [
        ({"width": "broad"}, "one of wide, narrow"),
        ({"coefficients": {"a": 1.0}}, "a mapping of a, b, c, d and e"),
        ({"coefficients": dict.fromkeys("abcde", 60.0)}, "at most 120"),
        ({"points": [{"magnetic_deg": 400, "deviation_deg": 1}]}, "0 to 360"),
        ({"points": []}, "1 to 36 points"),
    ],
)
def test_refuses_what_does_not_fit(more: dict[str, object], word: str) -> None:
    problems = check_figure(FigureCall("deviation-curve", {**BOTH, "width": "wide", **more}))
    assert len(problems) == 1
    assert word in problems[0]
