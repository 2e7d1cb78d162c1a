"""Own questions with numbers: kept or refused with the reason, released by a second person, asked like any other."""

import re
from typing import Any
from uuid import UUID

import pytest

from app.packs.own import own_body
from app.services.actor import Actor
from app.services.drills import DrillWish, start_drill
from app.services.errors import Conflict
from app.services.own_checks import Unreadable, read_body
from app.services.own_files import read_own, save_own
from app.services.own_library import family_id
from app.services.own_questions import OwnView, edition, get_own, release, rewrite_own, write_own
from app.services.practice import Sent, answer, question
from app.services.review import verdict
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.questions.own_reckoned import BODY, ENGLISH, FRENCH, changed
from tests.services.people import NOW, Cast, cast_of
from tests.services.test_own_questions import asked_by

DISTANCE, SPEED = BODY["numbers"]
NEAR = [DISTANCE | {"low": 90, "high": 130}, SPEED | {"low": 90}]


@pytest.fixture
def cast(uow: UnitOfWork) -> Cast:
    return cast_of(uow)


def viewed(uow: UnitOfWork, actor: Actor, own: UUID) -> OwnView:
    return get_own(uow, actor, library(), own)


def draft(uow: UnitOfWork, cast: Cast, **changes: Any) -> UUID:
    return write_own(uow, cast.ingrid, read_body(changed(**changes), library(), "en"), NOW)


def released(uow: UnitOfWork, cast: Cast, **changes: Any) -> UUID:
    own = draft(uow, cast, **changes)
    release(uow, cast.selma, library(), own, edition(viewed(uow, cast.selma, own).newest), NOW)
    return own


def test_a_student_types_a_mistake_and_is_told_what_it_did(uow: UnitOfWork, cast: Cast) -> None:
    name = family_id(released(uow, cast, typed_only=True))
    packs = asked_by(uow, cast.alice)
    drill = start_drill(uow, cast.alice, packs, DrillWish(families=(name,), length=1), 7, NOW)
    shown = question(uow, cast.alice, packs, drill, NOW)
    distance, speed = map(int, re.findall(r"\d+", shown.item.worded.scene))
    assert not answer(
        uow, cast.alice, packs, shown.item_id, Sent({"value": [str(distance / speed * 100)]}), NOW
    ).correct
    told = verdict(uow, cast.alice, packs, shown.item_id, NOW)
    assert told.explained is not None
    explanation = told.explained.explanation
    assert [each.id for each in explanation.findings] == ["v1-2"]
    assert explanation.findings[0].did == f"{distance} ÷ {speed} × 100 makes {int(distance / speed * 100 + 0.5)}."
    assert explanation.key == f"{int(distance / speed * 60 + 0.5)}\u00a0min"


def test_what_was_answered_before_a_change_keeps_its_mark(uow: UnitOfWork, cast: Cast) -> None:
    own = released(uow, cast)
    packs = asked_by(uow, cast.alice)
    drill = start_drill(uow, cast.alice, packs, DrillWish(families=(family_id(own),), length=1), 7, NOW)
    item_id = question(uow, cast.alice, packs, drill, NOW).item_id
    answer(uow, cast.alice, packs, item_id, Sent({"choice": ["0"], "value": ["1"]}), NOW)
    before = verdict(uow, cast.alice, packs, item_id, NOW)
    other = read_body(changed(answer={"formula": "DISTANCE / SPEED * 90", "unit": "min"}), library(), "en")
    rewrite_own(uow, cast.ingrid, own, edition(viewed(uow, cast.ingrid, own).newest), other, NOW)
    release(uow, cast.selma, library(), own, edition(viewed(uow, cast.selma, own).newest), NOW)
    after = verdict(uow, cast.alice, asked_by(uow, cast.alice), item_id, NOW)
    assert after.explained is None
    assert after.shown["scene"] == before.shown["scene"]
    assert after.correct == before.correct


def test_the_page_shows_twenty_draws_with_what_is_wrong_with_some(uow: UnitOfWork, cast: Cast) -> None:
    view = viewed(uow, cast.selma, draft(uow, cast, wrong=["SPEED", "DISTANCE"] * 2, numbers=NEAR))
    assert len(view.preview) == 20
    for row in view.preview:
        distance, speed = map(int, row.numbers)
        assert int(row.key) == int(distance / speed * 60 + 0.5)
        assert row.wrong == (row.numbers[1], row.numbers[0]) * 2
    assert any(row.refusal for row in view.preview)
    assert not all(row.refusal for row in view.preview)


def findings(uow: UnitOfWork, cast: Cast, **changes: Any) -> list[tuple[bool, str]]:
    return [(each.serious, each.text) for each in viewed(uow, cast.selma, draft(uow, cast, **changes)).findings]


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"wrong": ["KEY + 1", "SPEED", "DISTANCE", "KEY + 9"]}, "wrong answer 1 would be marked right"),
        ({"wrong": ["KEY + 9", "KEY + 10", "KEY + 11", "KEY + 9"]}, "wrong answer 1 and wrong answer 2 lie too near"),
        ({"wrong": ["KEY + 9", "KEY + 10", "KEY + 11", "KEY + 9"]}, "No draw of these numbers makes a fair question."),
        ({"answer": {"formula": "1 / (SPEED − SPEED)"}}, "the right answer divides by zero"),
        ({"answer": {"formula": "SPEED ^ 4"}}, "the right answer becomes too large"),
        ({"answer": {"formula": "SPEED"}}, "the question tells the right answer"),
        (
            {"wrong": ["SPEED", "KEY + 20", "KEY + 20", "KEY − 5"]},
            "One value always comes of wrong answer 2 and wrong answer 3",
        ),
        (
            {"en": ENGLISH | {"situation": "You fly DISTANCE NM."}, "fr": None},
            "needs SPEED, which the question does not",
        ),
        ({"wrong": ["KEY + 10", "KEY + 20", "KEY + 30", "KEY + 40"]}, "stands unevenly (40 · 0 · 0 times"),
        ({"fr": FRENCH | {"situation": "DISTANCE NM dans WZG."}}, "do not tell the same numbers: SPEED"),
    ],
)
def test_what_keeps_it_from_being_asked_is_said(
    uow: UnitOfWork, cast: Cast, changes: dict[str, Any], said: str
) -> None:
    own = draft(uow, cast, **changes)
    view = viewed(uow, cast.selma, own)
    found = view.findings
    assert any(said in each.text for each in found), found
    assert found[0].serious
    with pytest.raises(Conflict):
        release(uow, cast.selma, library(), own, edition(view.newest), NOW)


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"wrong": ["KEY + 10", "KEY + 20", "KEY − 5", "KEY + 30"]}, "stands unevenly"),
        ({"numbers": [DISTANCE, SPEED | {"step": 30}]}, "of the draws differ"),
        ({"numbers": [DISTANCE, SPEED, DISTANCE | {"name": "WIND"}]}, "WIND is neither told nor used"),
        ({"en": ENGLISH | {"why": ["a", "DISTANCE ÷ SPEED × 50 = KEY."]}}, "does not add up as it is printed"),
    ],
)
def test_what_is_odd_is_said_and_does_not_keep_it_back(
    uow: UnitOfWork, cast: Cast, changes: dict[str, Any], said: str
) -> None:
    found = findings(uow, cast, **changes)
    assert any(said in text for _, text in found), found
    assert not any(serious for serious, _ in found), found


def test_a_sum_that_adds_up_is_not_told(uow: UnitOfWork, cast: Cast) -> None:
    assert not any("add up" in text for _, text in findings(uow, cast))


@pytest.mark.parametrize(
    ("data", "problems"),
    [
        (changed(answer={"formula": "DISTANCE ÷"}), {"answer.formula": "“÷”"}),
        (changed(answer={"formula": "DISTENCE ÷ SPEED"}), {"answer.formula": "“DISTENCE”"}),
        (changed(answer={"formula": "SPEED", "unit": "furlongs"}), {"answer.unit": "furlongs"}),
        (changed(answer={"formula": "SPEED", "tolerance": "-1"}), {"answer.tolerance": "-1"}),
        (changed(numbers=[]), {"numbers": "1"}),
        (changed(numbers=[DISTANCE, SPEED | {"low": "quick"}]), {"numbers.1.low": "quick"}),
        (changed(numbers=[DISTANCE, {"name": "SPEED"}]), {"numbers.1": ""}),
        (changed(wrong=["SPEED", "3 $", "DISTANCE", "1"]), {"wrong.1": "“$”"}),
        (
            changed(wrong=["SPEED"], en=ENGLISH | {"wrong": ENGLISH["wrong"][:1]}, fr=None),
            {"wrong": "2", "en.wrong": "2"},
        ),
        (changed(answer={"formula": "x" * 161}), {"answer.formula": "160"}),
        (changed(topic="weather", answer={"formula": "WIND"}), {"topic": "weather", "answer.formula": "WIND"}),
    ],
)
def test_what_cannot_be_kept_is_named_with_its_field_and_word(data: dict[str, Any], problems: dict[str, str]) -> None:
    for language in ("en", "fr"):
        with pytest.raises(Unreadable) as refusal:
            read_body(data, library(), language)
        assert refusal.value.problems.keys() == problems.keys()
        for field, word in problems.items():
            assert word.strip("“”") in refusal.value.problems[field]
            assert "{" not in refusal.value.problems[field]


def test_a_file_brings_it_back_as_it_was(uow: UnitOfWork, cast: Cast) -> None:
    own = draft(uow, cast)
    written = save_own(uow, cast.ingrid)
    (again,) = read_own(uow, cast.ingrid, library(), written.encode(), NOW)
    assert again != own
    assert viewed(uow, cast.ingrid, again).body == own_body(BODY)
