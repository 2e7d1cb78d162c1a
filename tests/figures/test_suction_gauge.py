"""The suction gauge: evenly spaced, its arc where the handbook has it, its needle on its value, its words countable."""

from itertools import pairwise
from math import atan2, degrees

import pytest

from app.figures import check_figure, draw_figure
from app.figures.model import FigureCall, Language
from tests.figures.drawings import LANGUAGES, SVG, points_of, root_of, texts

CENTRE = (160.0, 160.0)
A_TENTH = 0.1  # degrees: coordinates are written with two decimals
NORMAL_INHG = (4.5, 5.5)  # FAA-H-8083-25C, chapter 8, from memory


def azimuth(point: tuple[float, float]) -> float:
    return degrees(atan2(point[0] - CENTRE[0], CENTRE[1] - point[1]))


def azimuth_of_numeral(suction: float, language: Language = "en") -> float:
    """Read off where a value stands, by the numerals on both sides alone."""
    placed = texts(root_of("suction-gauge", {"suction_inhg": 0}, language))
    low = min(int(suction), 7)
    below, above = (azimuth((placed[str(n)][0], placed[str(n)][1] - 0.36 * 22)) for n in (low, low + 1))
    return below + (suction - low) * (above - below)


def line(suction: float, width: str) -> list[tuple[float, float]]:
    paths = root_of("suction-gauge", {"suction_inhg": suction}).iter(f"{SVG}path")
    return next(points_of(path.get("d")) for path in paths if path.get("stroke-width") == width)


def test_numerals_stand_clockwise_and_evenly() -> None:
    steps = [b - a for a, b in pairwise(azimuth_of_numeral(n) for n in range(9))]
    assert all(abs(step - steps[0]) < A_TENTH for step in steps)
    assert steps[0] > 20


@pytest.mark.parametrize("fifths", range(41))
def test_the_needle_points_to_its_value(fifths: int) -> None:
    tip = line(fifths / 5, "5")[0]
    assert abs(azimuth(tip) - azimuth_of_numeral(fifths / 5)) < 2 * A_TENTH


def test_the_arc_lies_where_suction_should_be() -> None:
    drawn = line(0, "6")
    for end, value in zip((drawn[0], drawn[-1]), NORMAL_INHG, strict=True):
        assert abs(azimuth(end) - azimuth_of_numeral(value)) < 2 * A_TENTH


@pytest.mark.parametrize("language", LANGUAGES)
def test_words_let_the_needle_be_counted_and_do_not_judge_it(language: Language) -> None:
    said = draw_figure(FigureCall("suction-gauge", {"suction_inhg": 3.6}), language).description
    assert {"en": "3 steps past 3", "fr": "à 3 pas après 3"}[language] in said
    assert "3.6" not in said.replace(",", ".")
    assert "below" not in said
    assert "sous" not in said


@pytest.mark.parametrize(
    ("value", "said"), [(None, "suction_inhg is missing"), (5.1, "multiple of 0.2"), (9, "0 to 8")]
)
def test_says_what_does_not_fit(value: float | None, said: str) -> None:
    assert said in " ".join(check_figure(FigureCall("suction-gauge", {"suction_inhg": value})))
