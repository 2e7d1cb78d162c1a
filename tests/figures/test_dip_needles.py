"""Dip needles: the filled north end is below the level line by the dip, and the parts make a right triangle."""

from math import atan2, degrees

import pytest
from lxml import etree

from app.figures import check_figure, draw_figure
from app.figures.model import FigureCall, Language
from tests.figures.drawings import LANGUAGES, SVG, points_of, root_of, texts

A_TENTH = 0.1  # degrees: coordinates are written with two decimals


def north_ends(root: etree._Element) -> list[list[tuple[float, float]]]:
    """Return pivot and north end of each needle, from left to right."""
    return [points_of(p.get("d")) for p in root.iter(f"{SVG}path") if p.get("stroke-width") == "5"]


def dip_of(needle: list[tuple[float, float]]) -> float:
    (x1, y1), (x2, y2) = needle
    return degrees(atan2(y2 - y1, x2 - x1))


@pytest.mark.parametrize("dip", range(-80, 81, 10))
def test_the_north_end_is_below_the_level_line_by_the_dip(dip: int) -> None:
    root = root_of("dip-needles", {"dip_a_deg": dip})
    assert abs(dip_of(north_ends(root)[0]) - dip) < A_TENTH


def test_needles_stand_in_the_order_of_their_letters() -> None:
    root = root_of("dip-needles", {"dip_a_deg": 69, "dip_b_deg": -2, "dip_c_deg": -64})
    needles = north_ends(root)
    assert [round(dip_of(each)) for each in needles] == [69, -2, -64]
    placed = texts(root)
    for letter, needle in zip("ABC", needles, strict=True):
        assert abs(placed[letter][0] - needle[0][0]) < 1


def test_the_level_part_is_the_cosine_and_the_upright_part_the_sine() -> None:
    root = root_of("dip-needles", {"dip_a_deg": 60, "show_parts": True})
    (foot, tip) = north_ends(root)[0]
    level = next(points_of(p.get("d")) for p in root.iter(f"{SVG}path") if p.get("stroke-width") == "3")
    assert level[0] == foot
    assert abs((level[1][0] - foot[0]) - 22) < 0.1  # half of 44: the cosine of 60 degrees
    assert level[1][0] == tip[0]
    assert {"F", "H", "Z"} <= set(texts(root))


@pytest.mark.parametrize(
    ("language", "north", "south", "level"),
    [("en", "north end 69°", "south end 64°", "lies level"), ("fr", "nord à 69°", "sud à 64°", "horizontale")],
)
def test_words_name_the_end_that_is_down(language: Language, north: str, south: str, level: str) -> None:
    said = draw_figure(
        FigureCall("dip-needles", {"dip_a_deg": 69, "dip_b_deg": 0, "dip_c_deg": -64}), language
    ).description
    assert all(each in said for each in (north, south, level))


def test_a_third_needle_needs_a_second() -> None:
    assert "dip_b_deg before" in " ".join(check_figure(FigureCall("dip-needles", {"dip_a_deg": 9, "dip_c_deg": 8})))


@pytest.mark.parametrize("language", LANGUAGES)
def test_title_counts(language: Language) -> None:
    one, two = (
        draw_figure(FigureCall("dip-needles", given), language).title
        for given in ({"dip_a_deg": 9}, {"dip_a_deg": 9, "dip_b_deg": -9})
    )
    assert one != two
