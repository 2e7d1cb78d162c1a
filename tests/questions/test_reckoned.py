"""Own questions with numbers: drawn, graded and explained like any other, the same for ever, and fair or refused."""

from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.grader.explain import explain
from app.grader.grade import grade
from app.grader.reply import parse_reply
from app.packs.library import Library
from app.packs.own import own_body
from app.packs.spec import Form
from app.questions.checks.run import check_family
from app.questions.draw import NoDraw, draw
from app.questions.golden import golden_draws
from app.questions.model import Item
from app.questions.present import present_item
from app.questions.trials import NEAR, RIGHT, Refusal, alike, try_out
from app.questions.wording import word_item
from app.services.own_library import with_families
from tests.questions.engine import home, library
from tests.questions.own_reckoned import BODY, ENGLISH, changed

DISTANCE, SPEED = BODY["numbers"]
GOLDEN = [
    ("105\xa0NM ", "53", ["26\xa0min", "46\xa0min", "53\xa0min"]),
    ("110\xa0NM ", "73", []),
    ("50\xa0NM t", "23", ["12\xa0min", "23\xa0min", "38\xa0min"]),
    ("45\xa0NM t", "27", ["27\xa0min", "45\xa0min", "133\xa0min"]),
    ("20\xa0NM t", "12", []),
]


def packs(**changes: Any) -> Library:
    return with_families(library(), [own_body(changed(**changes)).as_family("own-1", 1)])


def item(seed: int, form: Form, **changes: Any) -> Item:
    return draw(packs(**changes), "own-1", seed, home(), form)


def test_the_key_is_the_time_of_the_leg() -> None:
    """Distance over speed: common practice, no source; worked here in whole seconds."""
    for seed in range(1, 40):
        drawn = item(seed, "typed")
        seconds = drawn.parameters["own_distance"] * 3600 // drawn.parameters["own_speed"]
        assert abs(drawn.key * 60 - seconds) <= 31


def test_draws_are_the_same_for_ever() -> None:
    found = golden_draws(packs(), "own-1")
    assert [(each["stem"][8:15], each["key"], each["options"]) for each in found] == GOLDEN


def test_the_same_numbers_in_either_language() -> None:
    drawn = item(
        3,
        "choice",
        numbers=[DISTANCE | {"step": 0.5, "shown": "1"}, SPEED],
        answer={"formula": "DISTANCE / SPEED", "nearest": "0.01", "unit": "nm"},
    )
    of = packs(
        numbers=[DISTANCE | {"step": 0.5, "shown": "1"}, SPEED],
        answer={"formula": "DISTANCE / SPEED", "nearest": "0.01", "unit": "nm"},
    )
    english, french = (word_item(of, drawn, language) for language in ("en", "fr"))
    for shown, other in zip(english.options, french.options, strict=True):
        assert shown.text.replace(".", ",") == other.text
        assert "," in other.text
    assert f"{drawn.parameters['own_distance']:.1f}".replace(".", ",") in french.scene


def test_a_typed_mistake_is_named_and_told_with_its_own_numbers() -> None:
    of, drawn = packs(), item(2, "typed")
    value = dict(drawn.wrong_values())["v1-2"].value
    reply = parse_reply(of, drawn, {"value": [str(value)]}, "en")
    told = explain(of, drawn, reply, grade(of, drawn, reply), "en")
    distance, speed = drawn.parameters["own_distance"], drawn.parameters["own_speed"]
    assert [each.did for each in told.findings] == [f"{distance} ÷ {speed} × 100 makes {value}."]
    assert told.working[1].text == f"{distance} ÷ {speed} × 60 = {drawn.key}\u00a0min."


@given(st.integers(1, 10_000))
def test_every_wrong_answer_lies_off_the_key(seed: int) -> None:
    drawn = item(seed, "choice")
    values = [option.value for option in drawn.options]
    assert len(values) == 3
    assert values == sorted(values)
    assert all(abs(a - b) > 2 for a, b in pairwise(values))
    assert all(abs(wrong.value - drawn.key) > 1 for _, wrong in drawn.wrong_values())


def test_headings_go_past_north() -> None:
    numbers = [
        {"name": "TRUE1", "low": 330, "high": 360, "step": 1, "shown": "heading"},
        {"name": "WEST", "low": 5, "high": 20, "step": 1},
    ]
    words = ENGLISH | {"situation": "You want TRUE1 true in WZG; variation is WEST west.", "question": "Which heading?"}
    answer = {"formula": "TRUE1 + WEST", "nearest": "heading", "unit": "degrees-magnetic", "tolerance": 1}
    wrong = ["TRUE1 − WEST", "TRUE1 + 2 × WEST", "heading(TRUE1 + 90)", "TRUE1 + 180"]
    of = packs(numbers=numbers, answer=answer, wrong=wrong, en=words, fr=None)
    past = 0
    for seed in range(1, 120):
        drawn = draw(of, "own-1", seed, home(), "choice")
        told, west = drawn.parameters["own_true1"], drawn.parameters["own_west"]
        assert drawn.key == (told + west - 1) % 360 + 1
        past += told + west > 360
        shown = word_item(of, drawn, "en")
        assert f"{told:03d} true" in shown.scene
        assert all(len(option.text) == 3 for option in shown.options)
    assert past


def test_a_reckoned_number_is_taken_as_it_is_shown() -> None:
    minutes = {"name": "MINUTES", "low": 10, "high": 60, "step": 1}
    made = {"name": "DISTANCE", "formula": "SPEED × MINUTES ÷ 60", "shown": "0"}
    of = packs(numbers=[minutes, SPEED, made], answer={"formula": "DISTANCE ÷ SPEED × 60", "nearest": "0.1"})
    for seed in range(1, 30):
        drawn = draw(of, "own-1", seed, home(), "typed")
        assert set(drawn.parameters) == {"own_distance", "own_speed"}
        assert drawn.parameters["own_distance"] == int(drawn.parameters["own_distance"])
        assert abs(drawn.key - drawn.parameters["own_distance"] / drawn.parameters["own_speed"] * 60) <= 0.05 + 1e-9


def test_no_formula_is_in_what_a_student_is_shown() -> None:
    for form in ("choice", "typed"):
        shown = word_item(packs(), item(1, form), "en")
        told = repr(shown.snapshot())
        assert "÷" not in told
        assert "DISTANCE" not in told
        assert "own_" not in told


def test_the_checks_have_nothing_serious_against_a_fair_one() -> None:
    report = check_family(packs(), "own-1", [home()], 80)
    assert [issue.rule for issue in report.issues if issue.severity == "error"] == []


@pytest.mark.parametrize(
    ("changes", "refusal"),
    [
        ({"wrong": ["SPEED / (DISTANCE − DISTANCE)", "1", "2", "3"]}, Refusal("zero", ("v1-1",))),
        ({"answer": {"formula": "sqrt(−SPEED)"}}, Refusal("domain", ("KEY",))),
        ({"answer": {"formula": "DISTANCE × SPEED × 10000"}}, Refusal("large", ("KEY",))),
        ({"answer": {"formula": "SPEED"}}, Refusal("told", ("SPEED",))),
        ({"answer": {"formula": "47"}, "en": ENGLISH | {"situation": "In 47 s DISTANCE, SPEED."}, "fr": None},
         Refusal("told", ("KEY",))),
        ({"wrong": ["1", "2", "KEY + 1", "SPEED / DISTANCE * 60"]}, Refusal(RIGHT, ("v1-3",))),
        ({"wrong": ["KEY + 10", "KEY + 11", "KEY + 11", "KEY + 10"]}, Refusal(NEAR, ("v1-1", "v1-2"))),
    ],
)  # fmt: skip
def test_what_makes_no_fair_question_is_refused_with_the_reason(changes: dict[str, Any], refusal: Refusal) -> None:
    of = packs(**changes)
    trials = try_out(of.family("own-1"), 20)
    assert {trial.refusal for trial in trials} == {refusal}
    with pytest.raises(NoDraw):
        draw(of, "own-1", 1, home(), "choice")
    rules = {issue.rule for issue in check_family(of, "own-1", [home()], 4).issues}
    assert "no-legal-draw" in rules


def test_a_question_that_is_only_typed_may_have_wrong_values_close_together() -> None:
    near = ["KEY + 10", "KEY + 11", "KEY + 11", "KEY + 10"]
    of = packs(wrong=near, typed_only=True)
    assert draw(of, "own-1", 1, home()).form == "typed"
    trials = try_out(of.family("own-1"), 20)
    assert {trial.refusal for trial in trials} == {None}
    assert list(alike(trials)) == [("v1-1", "v1-4"), ("v1-2", "v1-3")]


def test_trials_are_the_same_every_time() -> None:
    family = packs().family("own-1")
    assert try_out(family, 30) == try_out(family, 30)
    assert len({str(trial.numbers) for trial in try_out(family, 30)}) > 20


def test_whoever_works_it_again_gets_the_key_from_what_is_given() -> None:
    of = packs()
    for seed in range(1, 30):
        shown = present_item(of, draw(of, "own-1", seed, home()), "en")
        given = shown["parameters"]
        assert shown["answer"]["key"] == int(given["own_distance"] / given["own_speed"] * 60 + 0.5)
