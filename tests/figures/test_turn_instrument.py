"""Turn instruments: the deflection is the rate's share of the mark, the low wing is on the side of the turn."""

from math import atan2, degrees

import pytest
from lxml import etree

from app.figures import draw_figure
from app.figures.model import FigureCall, Language
from tests.figures.drawings import LANGUAGES, SVG, points_of, root_of, texts

A_TENTH = 0.1  # degrees: coordinates are written with two decimals
SHARES = {"half-way": 0.5, "on-the-mark": 1.0, "past-the-mark": 1.5}


def shown(instrument: str, turn: str, mark: str, ball: str = "ball-centre") -> dict[str, str]:
    return {"instrument": instrument, "turn": turn, "mark": mark, "ball": ball}


def wings(root: etree._Element) -> list[tuple[float, float]]:
    return next(points_of(p.get("d")) for p in root.iter(f"{SVG}path") if p.get("stroke-width") == "5")


def ball_of(root: etree._Element) -> float:
    return next(float(c.get("cx")) for c in root.iter(f"{SVG}circle") if c.get("r") == "11")


@pytest.mark.parametrize(("turn", "sign"), [("left", -1), ("right", 1)])
@pytest.mark.parametrize(("mark", "share"), SHARES.items())
def test_the_low_wing_is_on_the_side_of_the_turn_and_as_far_as_the_rate(
    turn: str, sign: int, mark: str, share: float
) -> None:
    left, right = wings(root_of("turn-instrument", shown("turn-coordinator", turn, mark)))
    lowered = degrees(atan2(right[1] - left[1], right[0] - left[0]))
    assert abs(lowered - sign * share * 20) < A_TENTH


@pytest.mark.parametrize(("turn", "sign"), [("left", -1), ("right", 1)])
@pytest.mark.parametrize(("mark", "share"), SHARES.items())
def test_the_needle_leans_to_the_side_of_the_turn(turn: str, sign: int, mark: str, share: float) -> None:
    root = root_of("turn-instrument", shown("turn-needle", turn, mark))
    foot, tip = next(points_of(p.get("d")) for p in root.iter(f"{SVG}path") if p.get("stroke-width") == "6")
    assert abs(degrees(atan2(tip[0] - foot[0], foot[1] - tip[1])) - sign * share * 20) < A_TENTH


def test_marks_lie_where_the_wing_is_at_rate_one() -> None:
    root = root_of("turn-instrument", shown("turn-coordinator", "right", "on-the-mark"))
    marks = [points_of(p.get("d")) for p in root.iter(f"{SVG}path") if p.get("stroke-width") == "3"]
    _, tip = wings(root)
    ends = [point for mark in marks for point in mark]
    assert min(abs(degrees(atan2(y - 138, x - 160)) - degrees(atan2(tip[1] - 138, tip[0] - 160))) for x, y in ends) < 1


def test_the_ball_lies_where_it_is_said() -> None:
    for instrument in ("turn-coordinator", "turn-needle"):
        left, centre, right = (
            ball_of(root_of("turn-instrument", shown(instrument, "left", "half-way", f"ball-{place}")))
            for place in ("left", "centre", "right")
        )
        assert centre == 160
        assert left < 160 - 30
        assert right > 160 + 30


@pytest.mark.parametrize(("language", "letters"), [("en", "LR"), ("fr", "GD")])
def test_left_letter_stands_left(language: Language, letters: str) -> None:
    placed = texts(root_of("turn-instrument", shown("turn-needle", "left", "half-way"), language))
    assert placed[letters[0]][0] < 160 < placed[letters[1]][0]


@pytest.mark.parametrize("language", LANGUAGES)
def test_words_say_what_is_seen_and_not_what_it_means(language: Language) -> None:
    for ball in ("ball-left", "ball-centre", "ball-right"):
        said = draw_figure(
            FigureCall("turn-instrument", shown("turn-coordinator", "left", "half-way", ball)), language
        ).description.lower()
        for meaning in ("turn ", "slip", "skid", "balance", "virage", "glissade", "dérapage", "coordonné", "pedal"):
            assert meaning not in said
