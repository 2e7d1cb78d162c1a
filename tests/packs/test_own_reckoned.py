"""Own questions with numbers: what is kept, what does not fit together, and what is odd about it."""

from typing import Any

import pytest
from pydantic import ValidationError

from app.packs.own import ReckonedBody, own_body
from app.packs.own_body import Remark
from tests.questions.own_reckoned import BODY, ENGLISH, FRENCH, changed, mistake

DISTANCE, SPEED = BODY["numbers"]


def body(**changes: Any) -> ReckonedBody:
    read = own_body(changed(**changes))
    assert isinstance(read, ReckonedBody)
    return read


def found(**changes: Any) -> list[tuple[str, str]]:
    return [(each.field, each.code) for each in body(**changes).faults()]


def test_it_is_kept_as_it_was_written() -> None:
    again = own_body(body().model_dump(mode="json"))
    assert again == body()
    assert again.model_dump(mode="json", exclude_none=True)["numbers"][0] == {**DISTANCE, "shown": "0"}


def test_names_and_numbers_are_read_as_people_type_them() -> None:
    typed = body(
        numbers=[{"name": "speed", "low": "2,5", "high": "1 000", "step": "0.5", "shown": "1"}, DISTANCE],
        answer={"formula": " DISTANCE  ÷ SPEED ", "tolerance": "0,5"},
    )
    number = typed.numbers[0]
    assert (number.name, number.low, number.high, number.step) == ("SPEED", 2.5, 1000, 0.5)
    assert (typed.answer.formula, typed.answer.tolerance) == ("DISTANCE ÷ SPEED", 0.5)


@pytest.mark.parametrize(
    ("number", "code"),
    [
        (SPEED | {"name": "S"}, "own-name"),
        (SPEED | {"name": "GROUND SPEED"}, "own-name"),
        (SPEED | {"name": "VITÈSSE"}, "own-name"),
        (SPEED | {"formula": "3"}, "own-number-both"),
        ({"name": "SPEED", "low": 70, "high": 130}, "own-number-how"),
        ({"name": "SPEED"}, "own-number-how"),
        (SPEED | {"high": 70}, "own-number-range"),
        (SPEED | {"step": 0}, "own-number-range"),
        (SPEED | {"step": 70}, "own-number-range"),
        (SPEED | {"step": 2.5}, "own-number-decimals"),
        (SPEED | {"low": 70.5}, "own-number-decimals"),
        (SPEED | {"low": 0, "shown": "heading"}, "own-number-heading"),
        (SPEED | {"high": 365, "shown": "heading"}, "own-number-heading"),
        ({"name": "SPEED", "formula": "3 +"}, "own-formula-end"),
        (SPEED | {"low": "fast"}, "float_parsing"),
        (SPEED | {"high": 2_000_000}, "less_than_equal"),
        (SPEED | {"shown": "3"}, "literal_error"),
    ],
)
def test_a_number_that_cannot_be_kept(number: dict[str, Any], code: str) -> None:
    with pytest.raises(ValidationError) as refusal:
        body(numbers=[DISTANCE, number])
    assert [error["type"] for error in refusal.value.errors()] == [code]


@pytest.mark.parametrize(
    ("changes", "fault"),
    [
        ({"numbers": [DISTANCE, SPEED, DISTANCE]}, ("numbers.2.name", "own-name-twice")),
        ({"numbers": [DISTANCE, SPEED, DISTANCE | {"name": "KEY"}]}, ("numbers.2.name", "own-name-taken")),
        ({"numbers": [DISTANCE, SPEED, DISTANCE | {"name": "MIN"}]}, ("numbers.2.name", "own-name-taken")),
        (
            {"numbers": [DISTANCE, {"name": "HALF", "formula": "SPEED / 2"}, SPEED]},
            ("numbers.1.formula", "own-formula-unknown"),
        ),
        ({"answer": {"formula": "DISTENCE / SPEED"}}, ("answer.formula", "own-formula-unknown")),
        ({"answer": {"formula": "KEY + SPEED"}}, ("answer.formula", "own-formula-unknown")),
        ({"wrong": ["KEY + 10", "YOURS", "DISTANCE", "SPEED"]}, ("wrong.1", "own-formula-unknown")),
        ({"wrong": ["DISTANCE", "SPEED"], "fr": None}, ("en.wrong", "own-wrong-unlike")),
        ({"en": ENGLISH | {"title": "SPEED alone"}}, ("en.title", "own-name-here")),
        ({"fr": FRENCH | {"question": "Pourquoi KEY?"}}, ("fr.question", "own-name-here")),
        ({"en": ENGLISH | {"situation": "DISTANCE NM at SPEED kt take KEY."}}, ("en.situation", "own-name-here")),
        ({"en": ENGLISH | {"why": ["YOURS.", "KEY."]}}, ("en.why", "own-name-here")),
    ],
)
def test_what_does_not_fit_together_is_named_with_its_field(changes: dict[str, Any], fault: tuple[str, str]) -> None:
    assert found(**changes) == [fault]


@pytest.mark.parametrize("text", ["name", "remedy"])
def test_a_mistake_is_called_the_same_whatever_the_numbers(text: str) -> None:
    first = ENGLISH["wrong"][0] | {text: "Takes YOURS"}
    assert found(en=ENGLISH | {"wrong": [first, *ENGLISH["wrong"][1:]]}) == [(f"en.wrong.0.{text}", "own-name-here")]


def doubts(**changes: Any) -> list[tuple[bool, str, Any]]:
    return [(serious, each.code, each.named["value"]) for serious, each in body(**changes).doubts()]


def test_the_answer_must_follow_from_what_the_question_tells() -> None:
    hidden = ENGLISH | {"situation": "You fly DISTANCE NM in WZG."}
    assert doubts(en=hidden, fr=None) == [(True, "own-hidden", "SPEED")]
    half = {"name": "HALF", "formula": "SPEED / 2"}
    of_half = {"formula": "DISTANCE / HALF * 30"}
    assert doubts(numbers=[DISTANCE, SPEED, half], answer=of_half) == []
    assert doubts(numbers=[DISTANCE, SPEED, half], answer=of_half, en=hidden, fr=None) == [(True, "own-hidden", "HALF")]


def test_numbers_may_be_made_so_that_the_answer_comes_out_even() -> None:
    minutes = {"name": "MINUTES", "low": 10, "high": 60, "step": 1}
    made = {"name": "DISTANCE", "formula": "SPEED × MINUTES ÷ 60", "shown": "1"}
    assert doubts(numbers=[minutes, SPEED, made]) == []


def test_odd_names_are_told() -> None:
    wind = {"name": "WIND", "low": 5, "high": 30, "step": 1}
    assert doubts(numbers=[DISTANCE, SPEED, wind]) == [(False, "own-unused", "WIND")]
    typo = ENGLISH | {"why": ["From DISTENCE and SPEED in NM.", "KEY."]}
    assert doubts(en=typo) == [(False, "own-mistyped", "DISTENCE")]
    unlike = FRENCH | {"situation": "Vous parcourez 30 NM à SPEED kt."}
    assert doubts(fr=unlike) == [(True, "own-stems-unlike", "DISTANCE")]
    assert doubts() == []


def test_a_question_of_words_has_neither() -> None:
    words = {"title": "T", "situation": "S.", "question": "Q?", "key": "K", "why": ["W."]}
    wrong = [mistake("N", "D.", "R.") | {"text": "SPEED"}, mistake("N", "D.", "R.") | {"text": "MINUTES"}]
    read = own_body({"topic": "track", "grade": "easy", "source": "S", "en": words | {"wrong": wrong}})
    assert not isinstance(read, ReckonedBody)
    assert ([*read.faults()], [*read.doubts()]) == ([], [])


def test_texts_print_numbers_where_their_names_stand() -> None:
    family = body().as_family("own-1", 3)
    assert family.scenes[0].text.en == (
        "You fly {{ own_distance | whole }} NM to Osier at a groundspeed of {{ own_speed | whole }} kt in WZG."
    )
    assert family.misconceptions[0].did.fr.endswith("donne {{ own_yours | whole }} min.")
    assert family.asks[0].rounding is not None
    assert family.asks[0].rounding.en == "Round to a whole number; within 1 counts."
    assert [each.id for each in family.misconceptions] == ["v3-1", "v3-2", "v3-3", "v3-4"]


@pytest.mark.parametrize(("count", "need"), [(2, 2), (4, 2), (5, 3), (6, 3)])
def test_a_choice_leaves_some_mistakes_out_so_that_the_key_may_stand_anywhere(count: int, need: int) -> None:
    words = {"wrong": (ENGLISH["wrong"] * 2)[:count]}
    several = body(wrong=(BODY["wrong"] * 2)[:count], en=ENGLISH | words, fr=None)
    assert several.as_family("own-1", 1).asks[0].need == need


def test_what_it_is_for_is_said_without_numbers() -> None:
    assert body().as_family("own-1", 1).skill.en == ENGLISH["question"]
    named = ENGLISH | {"question": "How long do DISTANCE NM take?"}
    assert body(en=named).as_family("own-1", 1).skill.en == ENGLISH["title"]


def test_a_remark_names_nothing_unless_told() -> None:
    assert not Remark("en", "own-empty").named
