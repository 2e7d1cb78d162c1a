"""The airspeed indicator: numerals, arcs and needle each stand where their speed is, and arcs tell apart in black."""

from itertools import pairwise
from math import atan2, degrees, hypot

import pytest
from lxml import etree

from app.figures import check_figure, draw_figure
from app.figures.model import FigureCall, Language
from tests.figures.drawings import LANGUAGES, SVG, points_of, root_of, texts

CENTRE = (160.0, 160.0)
A_TENTH = 0.1  # degrees: coordinates are written with two decimals
ARCS = {"white_low_kt": 42, "white_high_kt": 88, "green_low_kt": 50, "green_high_kt": 118, "red_kt": 152}


def azimuth(point: tuple[float, float]) -> float:
    return degrees(atan2(point[0] - CENTRE[0], CENTRE[1] - point[1])) % 360


def lines(root: etree._Element, width: str) -> list[list[tuple[float, float]]]:
    return [points_of(path.get("d")) for path in root.iter(f"{SVG}path") if path.get("stroke-width") == width]


def scale(root: etree._Element) -> tuple[float, float]:
    """Work out from two numerals alone where 0 kt would be, and the degrees a knot takes."""
    placed = texts(root)
    at = {speed: azimuth((placed[str(speed)][0], placed[str(speed)][1] - 0.36 * 18)) for speed in (60, 160)}
    per_kt = (at[160] - at[60]) / 100
    return at[60] - 60 * per_kt, per_kt


def test_numerals_stand_clockwise_and_evenly() -> None:
    placed = texts(root_of("airspeed", {"ias_kt": 65}))
    azimuths = [azimuth((placed[str(s)][0], placed[str(s)][1] - 0.36 * 18)) for s in range(40, 181, 20)]
    steps = [high - low for low, high in pairwise(azimuths)]
    assert all(abs(step - steps[0]) < A_TENTH for step in steps)
    assert steps[0] > 30


@pytest.mark.parametrize("speed", range(40, 181, 5))
def test_the_needle_points_to_its_speed(speed: int) -> None:
    root = root_of("airspeed", {"ias_kt": speed})
    zero, per_kt = scale(root)
    tip = lines(root, "5")[0][0]
    assert abs(azimuth(tip) - zero - speed * per_kt) < 2 * A_TENTH


def test_words_stand_over_the_needle_and_the_unit_beside_it() -> None:
    root = root_of("airspeed", ARCS | {"ias_kt": 100})
    drawn = list(root.iter(f"{SVG}path", f"{SVG}text"))
    needle = max(
        place for place, each in enumerate(drawn) if each.tag == f"{SVG}path" and each.get("stroke-width") == "5"
    )
    assert {each.text for each in drawn[needle:]} >= {"40", "100", "180", *"WGYR"}
    unit = texts(root)["kt"]
    for speed in range(40, 181, 5):
        tip = lines(root_of("airspeed", {"ias_kt": speed}), "5")[0][0]
        reach = hypot(tip[0] - CENTRE[0], tip[1] - CENTRE[1])
        across = (tip[0] - CENTRE[0]) * (unit[1] - CENTRE[1]) - (tip[1] - CENTRE[1]) * (unit[0] - CENTRE[0])
        behind = tip[1] > CENTRE[1]  # the tail is too short to matter
        assert behind or abs(across) / reach > 12


def test_arcs_end_where_their_speeds_are() -> None:
    root = root_of("airspeed", ARCS)
    zero, per_kt = scale(root)

    def speed(point: tuple[float, float]) -> float:
        return (azimuth(point) - zero) / per_kt

    green, red = lines(root, "6")[0], lines(root, "5")[0]
    assert abs(speed(green[0]) - 50) < 0.2
    assert abs(speed(green[-1]) - 118) < 0.2
    assert abs(speed(red[0]) - 152) < 0.2
    ends = [(speed(line[0]), speed(line[-1])) for line in lines(root, "1.5")]
    for low, high in ((42, 88), (118, 152)):
        assert (
            sum(abs(a - low) < 0.2 and abs(b - high) < 0.2 for a, b in ends) == 3
        )  # two edges, and the two ends as one path


@pytest.mark.parametrize(("language", "letters"), [("en", "WGYR"), ("fr", "BVJR")])
def test_arcs_carry_letters_in_order(language: Language, letters: str) -> None:
    placed = texts(root_of("airspeed", ARCS, language))
    found = [azimuth((placed[letter][0], placed[letter][1] - 0.36 * 15)) for letter in letters]
    assert found == sorted(found)


@pytest.mark.parametrize("language", LANGUAGES)
def test_words_give_the_ends_and_let_the_needle_be_counted(language: Language) -> None:
    arcs = draw_figure(FigureCall("airspeed", ARCS), language).description
    assert all(str(value) in arcs for value in ARCS.values())
    needle = draw_figure(FigureCall("airspeed", {"ias_kt": 75}), language).description
    assert "75" not in needle
    assert "60" in needle.split("." if language == "en" else "5\u00a0kt.")[-2 if language == "en" else -1]


@pytest.mark.parametrize(
    ("parameters", "said"),
    [
        ({}, "give ias_kt"),
        ({"ias_kt": 63}, "multiple of 5"),
        ({"white_low_kt": 42}, "give all of"),
        (ARCS | {"red_kt": 100}, "red line"),
    ],
)
def test_says_what_does_not_fit(parameters: dict[str, float], said: str) -> None:
    assert said in " ".join(check_figure(FigureCall("airspeed", parameters)))
