"""The drum, from first principles: a ring of radius R seen from outside its far side, marks at their sines."""

import re
from math import cos, isclose, radians, sin
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.figures import check_figure, draw_figure
from app.figures.model import FigureCall, Language
from tests.figures.drawings import LANGUAGES, SVG, Point, points_of, root_of, texts
from tests.figures.reading_aloud import heading_of, hear

EVERY_READING = range(1, 361)
XC, RADIUS, SEEN_DEG = 160.0, 156.0, 49.1
HALF_UNIT = 0.01  # coordinates are written with two decimals


def labels_of(reading: int) -> dict[int, Point]:
    placed = texts(root_of("drum", {"reading_deg": reading}))
    return {heading_of(label): spot for label, spot in placed.items()}


def clockwise(heading: float, reading: float) -> float:
    return (heading - reading + 180) % 360 - 180


def test_on_north_33_stands_to_the_right_of_n() -> None:
    """FAA-H-8083-25C ch. 8, magnetic compass: the face is seen from behind, so 33 stands to the right of N."""
    labels = labels_of(360)
    assert isclose(labels[360][0], XC)
    assert labels[330][0] > labels[360][0] > labels[30][0]


def test_larger_numbers_stand_to_the_left() -> None:
    for reading in EVERY_READING:
        left_to_right = sorted(labels_of(reading).items(), key=lambda label: label[1][0])
        order = [clockwise(heading, reading) for heading, _ in left_to_right]
        assert order == sorted(order, reverse=True)
        assert len(order) >= 3


def test_labels_stand_at_their_sines_and_the_ring_sags() -> None:
    every_label = ((reading, *label) for reading in EVERY_READING for label in labels_of(reading).items())
    for reading, heading, (x, y) in every_label:
        off = radians(clockwise(heading, reading))
        assert isclose(x, XC - RADIUS * sin(off), abs_tol=HALF_UNIT)
        assert isclose(y, 100 - 0.1 * RADIUS * (1 - cos(off)), abs_tol=HALF_UNIT)


def test_every_mark_in_the_window_is_drawn_once() -> None:
    """Long marks each 10 degrees, short ones between; the line itself stands over the middle."""
    edge = RADIUS * sin(radians(SEEN_DEG))
    for reading in EVERY_READING:
        marks = sorted((x, foot - top) for (x, top), (_, foot) in upright_marks(reading) if abs(x - XC) <= edge)
        seen = [heading for heading in range(0, 360, 5) if abs(clockwise(heading, reading)) <= SEEN_DEG]
        expected = sorted((XC - RADIUS * sin(radians(clockwise(h, reading))), 17 if h % 10 else 30) for h in seen)
        assert len(marks) == len(expected)
        for (x, length), (x_expected, length_expected) in zip(marks, expected, strict=True):
            assert isclose(x, x_expected, abs_tol=HALF_UNIT)
            assert isclose(length, length_expected, abs_tol=HALF_UNIT)


def upright_marks(reading: int) -> list[list[Point]]:
    paths = [points_of(path.get("d")) for path in root_of("drum", {"reading_deg": reading}).iter(f"{SVG}path")]
    return [path for path in paths if len(path) == 2 and path[0][0] == path[1][0] and 100 < path[1][1] <= 152]


def test_right_turn_slides_the_card_to_the_right() -> None:
    """A right turn makes the reading grow; the number 30 then moves to the right past the line."""
    xs = [labels_of(reading)[30][0] for reading in (10, 20, 30, 40, 50)]
    assert xs == sorted(xs)


@pytest.mark.parametrize("language", LANGUAGES)
def test_words_let_a_blind_student_read_it_and_do_not_tell_it(language: Language) -> None:
    for reading in EVERY_READING:
        description = draw_figure(FigureCall("drum", {"reading_deg": reading}), language).description
        assert hear(description) == reading
        assert f"{reading:03d}" not in description


@pytest.mark.parametrize("reading", range(10, 361, 10))
def test_a_hidden_label_is_nowhere_in_picture_or_words(reading: int) -> None:
    hidden = reading // 30 * 30 + 30
    hidden = hidden - 360 if hidden > 360 else hidden
    call = FigureCall("drum", {"reading_deg": reading, "hide_deg": hidden})
    shown = {heading_of(label) for label in texts(root_of(call.name, dict(call.parameters)))}
    name = {360: "N", 90: "E", 180: "S", 270: "W"}.get(hidden, str(hidden // 10))
    description = draw_figure(call).description
    assert hidden not in shown
    assert "covered" in description
    assert not re.search(rf"\b{name}\b", description.replace("Labels", ""))


@given(st.integers(1, 360), st.integers(1, 45), st.integers(1, 45))
def test_swing_stands_under_its_two_headings(reading: int, below: int, above: int) -> None:
    ends = {"low_deg": (reading - below) % 360 or 360, "high_deg": (reading + above) % 360 or 360}
    root = root_of("drum", {"reading_deg": reading, **ends})
    arrow = next(points_of(p.get("d")) for p in root.iter(f"{SVG}path") if p.get("d").count("L") == 1 and level(p))
    assert isclose(arrow[0][0], XC - RADIUS * sin(radians(above)), abs_tol=HALF_UNIT)
    assert isclose(arrow[1][0], XC + RADIUS * sin(radians(below)), abs_tol=HALF_UNIT)


def level(path: Any) -> bool:
    (_, first_y), (_, last_y) = points_of(path.get("d"))
    return first_y == last_y > 172


def test_says_both_ends_of_a_swing() -> None:
    swing = {"reading_deg": 355, "low_deg": 345, "high_deg": 5}
    _, first, second = re.split(r"One end|The other end", draw_figure(FigureCall("drum", swing)).description)
    assert {hear(first), hear(second)} == {345, 5}


def test_marks_key_and_answer_after_the_answer() -> None:
    drawing = draw_figure(FigureCall("drum", {"reading_deg": 307, "key_deg": 307, "yours_deg": 293}))
    assert "triangle marks 307" in drawing.description
    assert "ring marks your answer, 293" in drawing.description


@pytest.mark.parametrize(
    ("parameters", "word"),
    [
        ({}, "reading_deg is missing"),
        ({"reading_deg": 12.5}, "a whole heading from 1 to 360"),
        ({"reading_deg": True}, "reading_deg is True"),
        ({"reading_deg": 361}, "361"),
        ({"reading_deg": 30, "hide_deg": 35}, "every 30"),
        ({"reading_deg": 30, "face": "vertical-card"}, "one of drum"),
        ({"reading_deg": 30, "low_deg": 20}, "go together"),
        ({"reading_deg": 30, "low_deg": 200, "high_deg": 40}, "within 45"),
    ],
)
def test_wrong_parameters_are_named(parameters: dict[str, object], word: str) -> None:
    assert any(word in problem for problem in check_figure(FigureCall("drum", parameters)))


@pytest.mark.parametrize("off", range(-49, 50))
def test_the_number_of_an_answer_stays_clear_of_the_screws(off: int) -> None:
    """The screws of the case end 29 from its sides; three digits of this size are about 28 wide. Ours, no source."""
    root = root_of("drum", {"reading_deg": 180, "key_deg": 180, "yours_deg": 180 + off})
    rows = [
        each for each in root.iter(f"{SVG}text") if each.text == f"{180 + off:03d}" and float(each.get("y", 0)) > 172
    ]
    for each in rows:
        x, far = float(each.get("x", 0)), -28 if each.get("text-anchor") == "end" else 28
        assert 29 <= min(x, x + far) < max(x, x + far) <= 291
