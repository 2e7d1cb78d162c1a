"""Rose and fan of norths: magnetic north stands V east of true, compass north D east of magnetic."""

from math import atan2, degrees, hypot, isclose

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.figures import check_figure, draw_figure
from app.figures.model import FigureCall
from app.figures.north_fan import norths
from tests.figures.drawings import SVG, Point, points_of, root_of, texts

ROSE_CENTRE, FAN_CENTRE = (170.0, 170.0), (160.0, 204.0)
A_FIFTH = 0.2  # degrees: a point is written with two decimals


def azimuth(at: Point, centre: Point) -> float:
    return degrees(atan2(at[0] - centre[0], centre[1] - at[1]))


def gap(a: float, b: float) -> float:
    return abs((a - b + 180) % 360 - 180)


@given(st.integers(-40, 40))
def test_the_magnetic_rose_is_turned_by_the_variation(variation: int) -> None:
    root = root_of("rose", {"variation_deg": variation})
    for text in root.iter(f"{SVG}text"):
        if "magnetic" in text.get("class") and text.text.isdigit():
            at = float(text.get("x")), float(text.get("y")) - 0.36 * 15
            assert gap(azimuth(at, ROSE_CENTRE), int(text.text) * 10 + variation) < A_FIFTH
            assert isclose(hypot(at[0] - 170, at[1] - 170), 63, abs_tol=0.05)


def test_size_stands_on_the_far_side_of_the_true_ray() -> None:
    """The worked example of the design: 13 W, the magnetic ray to the left, its size to the right."""
    assert texts(root_of("rose", {"variation_deg": -13}))["13\u00a0W"][0] > 170
    assert texts(root_of("rose", {"variation_deg": 13}))["13\u00a0E"][0] < 170


def test_one_line_is_read_on_both_roses() -> None:
    drawing = draw_figure(FigureCall("rose", {"variation_deg": -13, "true_deg": 75}))
    assert drawing.caption == "One line, two roses: 075 true is 088 magnetic."


def test_a_rose_can_keep_its_variation_to_itself() -> None:
    call = FigureCall("rose", {"variation_deg": -13, "true_deg": 75, "show_variation": False})
    drawing = draw_figure(call)
    assert "13" not in drawing.description + drawing.caption
    assert "13\u00a0W" not in texts(root_of(call.name, dict(call.parameters)))


def test_words_say_on_which_side_magnetic_north_lies() -> None:
    said = [draw_figure(FigureCall("rose", {"variation_deg": v})).description for v in (-5, 0, 5)]
    assert [w in s for w, s in zip(("left", "along", "right"), said, strict=True)] == [True, True, True]


@given(st.integers(1, 360), st.integers(-40, 40), st.integers(-9, 9))
def test_fan_follows_from_the_three_headings(true: int, variation: int, deviation: int) -> None:
    magnetic = (true - variation) % 360 or 360
    compass = (magnetic - deviation) % 360 or 360
    at = norths({"true_deg": true, "magnetic_deg": magnetic, "compass_deg": compass})
    assert at == {"T": 0.0, "M": variation, "C": variation + deviation}


@pytest.mark.parametrize(
    ("values", "rows"),
    [
        ({"true_deg": 75}, "T"),
        ({"true_deg": 75, "compass_deg": 80}, "T"),
        ({"compass_deg": 80}, "C"),
        ({"magnetic_deg": 80, "compass_deg": 83}, "MC"),
        ({"deviation_deg": -3}, "MC"),
        ({"variation_deg": 9}, "TM"),
        ({"true_deg": 75, "variation_deg": 9, "deviation_deg": 2}, "TMC"),
    ],
)
def test_only_norths_that_follow_from_what_is_given_are_drawn(values: dict[str, float], rows: str) -> None:
    letters = {text for text in texts(root_of("north-fan", dict(values))) if text in {"T", "M", "C"}}
    assert letters == set(rows)


def test_rays_point_to_their_norths() -> None:
    root = root_of("north-fan", {"true_deg": 75, "magnetic_deg": 88, "compass_deg": 91})
    rays = [p for p in root.iter(f"{SVG}path") if p.get("stroke-width") == "2.5" and (p.get("stroke-dasharray"))]
    tips = [points_of(ray.get("d"))[1] for ray in rays]
    assert [round(azimuth(tip, FAN_CENTRE)) for tip in tips] == [-13, -16]


def test_fan_in_words() -> None:
    said = draw_figure(FigureCall("north-fan", {"true_deg": 75, "magnetic_deg": 88, "compass_deg": 91})).description
    assert "Variation 13\u00a0W. Deviation 3\u00a0W." in said
    assert "true 075, magnetic 088 and compass 091" in said


@pytest.mark.parametrize(
    ("parameters", "word"),
    [
        ({}, "nothing is given"),
        ({"true_deg": 10, "magnetic_deg": 100}, "comes to -90"),
        ({"variation_deg": 200}, "-180"),
    ],
)
def test_wrong_fans_are_named(parameters: dict[str, object], word: str) -> None:
    assert any(word in problem for problem in check_figure(FigureCall("north-fan", parameters)))
