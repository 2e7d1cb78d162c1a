"""Vertical card and heading indicator: a rose seen from the front, turned so that the reading is at the top."""

from math import atan2, degrees, hypot, isclose

import pytest

from app.figures import draw_figure
from app.figures.model import FigureCall, Language
from tests.figures.drawings import LANGUAGES, root_of, texts
from tests.figures.reading_aloud import heading_of, hear

CENTRE = (160.0, 164.0)
A_TENTH = 0.1  # degrees: coordinates are written with two decimals
NAMES = [("vertical-card", "reading_deg"), ("heading-indicator", "indicator_deg")]


@pytest.mark.parametrize(("figure", "name"), NAMES)
def test_labels_stand_clockwise_from_the_reading(figure: str, name: str) -> None:
    faces = {reading: texts(root_of(figure, {name: reading})) for reading in range(1, 361)}
    assert all(len(placed) == 12 for placed in faces.values())
    every_label = ((reading, *spot) for reading, placed in faces.items() for spot in placed.items())
    for reading, label, (x, y) in every_label:
        azimuth = degrees(atan2(x - CENTRE[0], CENTRE[1] - y))
        assert abs((azimuth - heading_of(label) + reading + 180) % 360 - 180) < A_TENTH
        assert isclose(hypot(x - CENTRE[0], y - CENTRE[1]), 96, abs_tol=0.02)


def test_larger_numbers_stand_to_the_right() -> None:
    placed = texts(root_of("vertical-card", {"reading_deg": 360}))
    assert placed["33"][0] < placed["N"][0] < placed["3"][0]


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize(("figure", "name"), NAMES)
def test_words_let_a_blind_student_read_it(figure: str, name: str, language: Language) -> None:
    for reading in range(1, 361):
        description = draw_figure(FigureCall(figure, {name: reading}), language).description
        assert hear(description) == reading
        assert f"{reading:03d}" not in description


def test_near_numbers_stand_clear_of_each_other() -> None:
    placed = texts(root_of("vertical-card", {"reading_deg": 307, "key_deg": 307, "yours_deg": 305}))
    assert placed["307"][0] - placed["305"][0] > 25


def test_a_knob_takes_the_place_of_a_screw() -> None:
    plain, knobbed = (root_of("heading-indicator", {"indicator_deg": 5, "knob": knob}) for knob in (False, True))
    corners = [
        [(c.get("cx"), c.get("cy")) for c in root.iter("{*}circle") if c.get("r") == "5"] for root in (plain, knobbed)
    ]
    assert set(corners[0]) - set(corners[1]) == {("23", "297")}
