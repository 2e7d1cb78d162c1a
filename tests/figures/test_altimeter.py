"""The altimeter: three hands, each at its own share of a turn, and words from which the altitude can be worked out."""

import re
from itertools import pairwise
from math import atan2, degrees, hypot

import pytest
from lxml import etree

from app.figures import check_figure, draw_figure
from app.figures.model import FigureCall, Language
from tests.figures.drawings import LANGUAGES, SVG, points_of, root_of, texts

CENTRE = (160.0, 160.0)
HAND_WIDTHS = ("1.75", "2.25", "5")
A_TENTH = 0.1  # degrees: coordinates are written with two decimals
ALTITUDES = range(0, 20_001, 20)
PLACED = re.compile(r"(?:is on|est sur le) (\d)|(?:is|est à) ([\d.,]+) (?:steps? past|pas après le) (\d)")


def call(altitude_ft: int) -> FigureCall:
    return FigureCall("altimeter", {"indicated_ft": altitude_ft, "setting_inhg": 29.92})


def azimuth(point: tuple[float, float]) -> float:
    return degrees(atan2(point[0] - CENTRE[0], CENTRE[1] - point[1])) % 360


def hands(root: etree._Element) -> list[list[tuple[float, float]]]:
    """Return the outlines of triangle, short and long hand, each from its tip; no other line has their widths."""
    return [points_of(path.get("d")) for path in root.iter(f"{SVG}path") if path.get("stroke-width") in HAND_WIDTHS]


def test_each_hand_has_gone_its_share_of_a_turn() -> None:
    for altitude in ALTITUDES:
        outlines = hands(root_of("altimeter", dict(call(altitude).parameters)))
        for outline, feet_a_turn in zip(outlines, (100_000, 10_000, 1000), strict=True):
            wanted = 360 * altitude / feet_a_turn
            assert abs((azimuth(outline[0]) - wanted + 180) % 360 - 180) < A_TENTH


def test_hands_differ_in_length_and_width() -> None:
    rim, short, long = hands(root_of("altimeter", {"indicated_ft": 0, "setting_hpa": 1013}))
    reach = [max(hypot(x - CENTRE[0], y - CENTRE[1]) for x, y in outline) for outline in (short, long, rim)]
    assert reach == sorted(reach)
    assert reach[1] > 1.4 * reach[0]
    assert max(x for x, _ in short) - min(x for x, _ in short) > 2 * float(HAND_WIDTHS[-1])


def test_numerals_stand_clockwise_from_the_top() -> None:
    placed = texts(root_of("altimeter", dict(call(6340).parameters)))
    for numeral in range(10):
        x, y = placed[str(numeral)]
        assert abs((azimuth((x, y - 9)) - 36 * numeral + 180) % 360 - 180) < A_TENTH


@pytest.mark.parametrize("language", LANGUAGES)
def test_words_let_a_blind_student_read_it(language: Language) -> None:
    for altitude in ALTITUDES:
        description = draw_figure(call(altitude), language).description
        assert hear(description) == altitude
        assert str(altitude) not in description or altitude < 20


def hear(description: str) -> int:
    """Work the altitude out from the smallest unit up: hundreds by the long hand, thousands and tens by the others."""
    numbers = [
        (float(on), 0.0) if on else (float(past), float(steps.replace(",", ".")))
        for on, steps, past in PLACED.findall(description)
    ]
    assert len(numbers) == 3, description
    within = round(100 * numbers[0][0] + 20 * numbers[0][1])
    thousands = round((1000 * numbers[1][0] + 200 * numbers[1][1] - within) / 1000) % 10
    ten_thousands = round((10_000 * numbers[2][0] + 2000 * numbers[2][1] - 1000 * thousands - within) / 10_000)
    return 10_000 * ten_thousands + 1000 * thousands + within


def test_no_thick_hand_comes_over_the_setting() -> None:
    """The words fill 48 by 13 of the drawing; each hand is tried as a dense row of points along its edges."""
    for altitude in range(0, 20_001, 60):
        root = root_of("altimeter", dict(call(altitude).parameters))
        x, y = texts(root)["29.92"]
        for outline in hands(root)[1:]:
            rows = [between(a, b) for a, b in pairwise([*outline, outline[0]])]
            assert not [p for row in rows for p in row if abs(p[0] - x) < 24 and abs(p[1] - (y - 5.4)) < 6.5], altitude


def between(start: tuple[float, float], end: tuple[float, float]) -> list[tuple[float, float]]:
    across, down = end[0] - start[0], end[1] - start[1]
    return [(start[0] + across * share / 20, start[1] + down * share / 20) for share in range(21)]


def test_numerals_stand_over_the_hands() -> None:
    drawn = list(root_of("altimeter", dict(call(5500).parameters)).iter(f"{SVG}path", f"{SVG}text"))
    last_hand = max(
        place
        for place, each in enumerate(drawn)
        if each.tag == f"{SVG}path" and each.get("stroke-width") in HAND_WIDTHS
    )
    assert {each.text for each in drawn[last_hand:]} >= {*"0123456789"}


@pytest.mark.parametrize(("language", "shown"), [("en", "30.12"), ("fr", "30,12")])
def test_the_window_shows_the_setting(language: Language, shown: str) -> None:
    assert shown in texts(root_of("altimeter", {"indicated_ft": 5000, "setting_inhg": 30.12}, language))


@pytest.mark.parametrize(
    ("parameters", "said"),
    [
        ({"indicated_ft": 5000}, "one of them"),
        ({"indicated_ft": 5000, "setting_inhg": 29.92, "setting_hpa": 1013}, "one of them"),
        ({"indicated_ft": 5010, "setting_hpa": 1013}, "multiple of 20"),
        ({"indicated_ft": -20, "setting_hpa": 1013}, "multiple of 20"),
    ],
)
def test_says_what_does_not_fit(parameters: dict[str, float], said: str) -> None:
    assert said in " ".join(check_figure(FigureCall("altimeter", parameters)))
