"""The ladder: T - V - M - D - C on three scales, X(v) = 84 + (v - lo) 218 / (hi - lo)."""

import re
from math import isclose

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.figures import check_figure, draw_figure
from app.figures.model import FigureCall
from tests.figures.drawings import SVG, Point, points_of, root_of, texts

ROW_Y = {"T": 58.0, "M": 142.0, "C": 226.0}
WORKED = {"ask": "compass", "true_deg": 75, "variation_deg": -13, "deviation_deg": -3, "key": [75, 88, 91]}
WRONG = {**WORKED, "yours": [75, 62, 63], "first_wrong": "T-M"}


def heavy_line(parameters: dict[str, object]) -> list[Point]:
    paths = root_of("ladder", parameters).iter(f"{SVG}path")
    return next(points_of(p.get("d")) for p in paths if p.get("stroke-width") == "3")


def x_of(value: float, low: float, high: float) -> float:
    return 84 + (value - low) * 218 / (high - low)


def test_scale_is_the_look_s_own() -> None:
    """T 075, V 13 W, D 3 W as in the worked example of the design: lo 50, hi 120."""
    for (x, y), value, row_y in zip(heavy_line(WORKED), (75, 88, 91), ROW_Y.values(), strict=True):
        assert isclose(x, x_of(value, 50, 120), abs_tol=0.01)
        assert y == row_y


@given(st.integers(1, 360), st.integers(-30, 30), st.integers(-9, 9))
def test_slants_are_the_errors_whatever_north_does(true: int, variation: int, deviation: int) -> None:
    """West leans right going down, east left, and one scale serves all rows, also across north."""
    magnetic = (true - variation) % 360 or 360
    compass = (magnetic - deviation) % 360 or 360
    line = heavy_line({"ask": "compass", "key": [true, magnetic, compass]})
    (t, _), (m, _), (c, _) = line
    root = root_of("ladder", {"ask": "compass", "key": [true, magnetic, compass]})
    graticule = [points_of(p.get("d")) for p in root.iter(f"{SVG}path") if p.get("stroke-width") == "1"]
    ten = graticule[1][0][0] - graticule[0][0][0]
    assert isclose((t - m) / ten * 10, variation, abs_tol=0.05)
    assert isclose((m - c) / ten * 10, deviation, abs_tol=0.05)
    assert all(84 <= x <= 302 for x in (t, m, c))


def test_walking_up_the_ladder_puts_the_key_on_top() -> None:
    up = {"ask": "true", "compass_deg": 5, "key": [5, 9, 351]}
    assert [y for _, y in heavy_line(up)] == list(ROW_Y.values())
    placed = texts(root_of("ladder", up))
    assert placed["351"][1] < ROW_Y["T"] < placed["009"][1] < ROW_Y["M"] < ROW_Y["C"] < placed["005"][1]


@pytest.mark.parametrize(
    ("parameters", "said"),
    [
        (WORKED, {"add 13\u00a0W", "add 3\u00a0W"}),
        (WRONG, {"13\u00a0W off", "add 1\u00a0W"}),
        ({"ask": "true", "key": [91, 88, 75]}, {"13\u00a0W off", "3\u00a0W off"}),
        ({**WORKED, "yours": [75, 88, 88]}, {"left\u00a0out"}),
        ({"ask": "variation", "true_deg": 75, "magnetic_deg": 88, "key": [75, 88]}, {"13\u00a0W"}),
        ({"ask": "compass", "key": [75, 75, 72]}, {"0", "3\u00a0E off"}),
        (
            {"ask": "compass", "true_deg": 75, "variation_deg": -13, "deviation_deg": 0},
            {"variation 13\u00a0W", "deviation 0"},
        ),
    ],
)
def test_steps_are_named(parameters: dict[str, object], said: set[str]) -> None:
    assert said <= set(texts(root_of("ladder", parameters)))


def test_french_steps() -> None:
    assert {"ajouter 13\u00a0O", "ôter 13\u00a0O"} <= set(texts(root_of("ladder", WRONG, "fr")))


def test_own_path_is_barred_where_it_first_went_wrong() -> None:
    """The bar lies square across the middle of the step from T to M."""
    root = root_of("ladder", WRONG)
    lines = [(path.get("stroke-width"), points_of(path.get("d"))) for path in root.iter(f"{SVG}path")]
    bar = next(points for width, points in lines if width == "3" and len(points) == 2)
    yours = next(points for width, points in lines if width == "1.5" and len(points) == 3)
    for bar_ends, step_ends in zip(zip(*bar, strict=True), zip(*yours[:2], strict=True), strict=True):
        assert isclose(sum(bar_ends), sum(step_ends), abs_tol=0.04)
    (run, drop), (across, down) = (tuple(b - a for a, b in zip(*ends, strict=True)) for ends in (yours[:2], bar))
    assert isclose(run * across + drop * down, 0, abs_tol=2)


def test_before_the_answer_only_what_is_given_stands_there() -> None:
    placed = texts(root_of("ladder", {"ask": "compass", "true_deg": 75, "variation_deg": -13}))
    assert "075" in placed
    assert "088" not in placed
    description = draw_figure(
        FigureCall("ladder", {"ask": "compass", "true_deg": 75, "variation_deg": -13})
    ).description
    assert re.findall(r"\d{3}", description) == ["075"]


def test_a_question_for_the_error_marks_no_heading_as_its_key() -> None:
    found = {"ask": "deviation", "magnetic_deg": 88, "compass_deg": 91, "key": [88, 91]}
    filled = [p for p in root_of("ladder", found).iter(f"{SVG}path") if p.get("stroke") is None]
    assert filled == []


def test_words_hold_both_paths() -> None:
    description = draw_figure(FigureCall("ladder", WRONG)).description
    assert "The working: true 075, magnetic 088 and compass 091" in description
    assert "Your answer: true 075, magnetic 062 and compass 063" in description


@pytest.mark.parametrize(
    ("parameters", "word"),
    [
        ({}, "no heading is given"),
        ({"key": [75]}, "a list of two or three headings"),
        ({"rows": "TM", "key": [75, 88, 91]}, "one for each row"),
        ({"rows": "TX"}, "one of TMC"),
        ({**WORKED, "first_wrong": "T-C"}, "first_wrong is T-C"),
        ({"true_deg": 75, "yours": [75, 88, 91]}, "need the key"),
        ({"true_deg": 400}, "a heading from 0 to 360"),
    ],
)
def test_wrong_parameters_are_named(parameters: dict[str, object], word: str) -> None:
    assert any(word in problem for problem in check_figure(FigureCall("ladder", parameters)))
