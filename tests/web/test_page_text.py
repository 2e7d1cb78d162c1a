"""How pages write numbers, results and what a box takes."""

from collections.abc import Iterator

import pytest
from flask import Flask

from app.questions.wording import WordedPart
from app.web.page_text import dip, hint, result, text_class, unit_class, variation


@pytest.fixture(autouse=True)
def request_in_english(app: Flask) -> Iterator[None]:
    with app.test_request_context(headers={"Accept-Language": "en"}):
        app.preprocess_request()
        yield


def box(kind: str, unit: str = "", tolerance: str = "") -> WordedPart:
    return WordedPart("value", "Label", unit, kind, tolerance, ())


@pytest.mark.parametrize(
    ("arithmetic", "written"),
    [
        ("075 + 13 = 088", "075 + 13 = <b>088</b>"),
        ("a = b = 3", "a = b = <b>3</b>"),
        ("early", "<b>early</b>"),
        ("2 < 3 = 1", "2 &lt; 3 = <b>1</b>"),
    ],
)
def test_result_stands_out(arithmetic: str, written: str) -> None:
    assert result(arithmetic) == written


@pytest.mark.parametrize(("value", "written"), [(-12.5, "13°\u00a0W"), (12.4, "12°\u00a0E"), (0.2, "0°"), (-0.4, "0°")])
def test_variation_is_whole(value: float, written: str) -> None:
    assert variation(value) == written


def test_dip_names_its_end() -> None:
    assert (dip(69.4), dip(-66.6)) == ("69°\u00a0N", "67°\u00a0S")


@pytest.mark.parametrize(
    ("part", "said"),
    [
        (box("heading", "degrees true", "2"), "Three digits, 001 to 360. Within 2° counts."),
        (box("heading", "degrees by compass"), "Three digits, 001 to 360."),
        (box("sided", "degrees", "1"), "The size as a number, then its side. Within 1° counts."),
        (box("number", "kt", "2"), "A number. Within 2\u00a0kt counts."),
        (box("number", "", "0.5"), "A number. Within 0.5 counts."),
        (box("arc-minutes", "", "1"), "Degrees and minutes with a space between, then the side. Within 1′ counts."),
        (box("clock", "", "1"), "Four digits, 24-hour time. Within 1\u00a0min counts."),
        (box("runway"), "A runway number, 1 to 36."),
    ],
)
def test_box_says_what_it_takes(part: WordedPart, said: str) -> None:
    assert hint(part) == said


@pytest.mark.parametrize(
    ("unit", "name"),
    [
        ("degrees true", "unit unit-true"),
        ("degrees magnetic", "unit unit-magnetic"),
        ("degrees by compass", "unit"),
        ("kt", "unit"),
        ("", "unit"),
    ],
)
def test_colour_is_data(unit: str, name: str) -> None:
    assert unit_class(box("heading", unit)) == name


@pytest.mark.parametrize(
    ("text", "number"),
    [("063", True), ("N", True), ("33", True), ("North", False), ("12° to the left, so turn right", False)],
)
def test_numbers_are_set_as_on_an_instrument(text: str, number: bool) -> None:  # noqa: FBT001
    assert ("number" in text_class(text)) == number
