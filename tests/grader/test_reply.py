"""What a student may type: read, or refused with a sentence that names the value and what is accepted."""

import pytest

from app.grader.reply import BadReply, Reply, parse_reply
from app.physics.angles import difference
from app.questions.draw import draw
from app.questions.model import Item
from tests.questions.engine import home, library


@pytest.fixture(scope="module")
def typed() -> Item:
    return draw(library(), "true-to-compass", 1, home(), "typed")


@pytest.fixture(scope="module")
def choice() -> Item:
    return draw(library(), "true-to-compass", 1, home(), "choice")


@pytest.mark.parametrize(("text", "value"), [("007", 7), ("7", 7), ("360", 360), ("000", 360), (" 045° ", 45)])
def test_headings_are_read(typed: Item, text: str, value: float) -> None:
    assert parse_reply(library(), typed, {"value": [text]}, "en").value == value


@pytest.mark.parametrize("text", ["361", "-5", "abc", "36O", "1e2", "٣٦", "nan", "0450", "12.5"])
def test_bad_headings_are_named(typed: Item, text: str) -> None:
    with pytest.raises(BadReply) as caught:
        parse_reply(library(), typed, {"value": [text]}, "en")
    assert f"“{text}”" in caught.value.message
    assert "001 to 360" in caught.value.message
    assert caught.value.field == "value"


def test_example_is_far_from_the_key() -> None:
    for seed in range(1, 200):
        item = draw(library(), "true-to-compass", seed, home(), "typed")
        with pytest.raises(BadReply) as caught:
            parse_reply(library(), item, {"value": ["x"]}, "en")
        example = float(caught.value.message.rstrip(".").split()[-1])
        assert abs(difference(example, item.key)) > 30


@pytest.mark.parametrize("fields", [{}, {"value": [""]}, {"value": ["  "]}, {"value": []}])
def test_empty_box_is_said(typed: Item, fields: dict[str, list[str]]) -> None:
    with pytest.raises(BadReply, match="La case est vide"):
        parse_reply(library(), typed, fields, "fr")


def test_megabytes_are_refused_without_echo(typed: Item) -> None:
    with pytest.raises(BadReply) as caught:
        parse_reply(library(), typed, {"value": ["9" * 10_000_000]}, "en")
    assert len(caught.value.message) < 100


@pytest.mark.parametrize("text", ["", "4", "-1", "x", "99", "1.0"])
def test_choice_must_be_an_option(choice: Item, text: str) -> None:
    with pytest.raises(BadReply):
        parse_reply(library(), choice, {"choice": [text]}, "en")


def test_choice_is_its_value(choice: Item) -> None:
    assert parse_reply(library(), choice, {"choice": ["2"]}, "en").value == choice.options[2].value


def test_reply_survives_storing() -> None:
    assert Reply.from_json(Reply((1, "a"), "x").as_json()) == Reply((1, "a"), "x")
