"""Difficulty measured at night: in force for the answers to come, while what was answered stays as it was judged."""

from datetime import datetime, timedelta
from typing import Any

import pytest

from app.services import difficulty_count
from app.services.actor import Actor
from app.services.difficulty import list_difficulties
from app.services.difficulty_count import measure_all, measure_school
from app.services.drills import DrillWish, get_drill, start_drill
from app.services.learning import find_state, rebuild_all
from app.services.practice import Sent, answer
from app.services.quality import family_quality
from app.services.withdrawals import bring_back, withdraw
from app.storage.queries import learners
from app.storage.queries.learners import AnswerRow
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.services.people import CONVERSIONS, NOW, Cast, cast_of, drawn, right, visitor, wrong

FAMILY = CONVERSIONS[0]
NIGHT = NOW + timedelta(days=2)
SLOW_MS = 60_000


@pytest.fixture
def cast(uow: UnitOfWork) -> Cast:
    return cast_of(uow)


def practise(uow: UnitOfWork, actor: Actor, family: str, marks: str, start: datetime = NOW) -> None:
    """Answer one kind of question: + right, - by a misconception."""
    drill_id = start_drill(uow, actor, library(), DrillWish(families=(family,), length=len(marks)), 5, start)
    _, places = get_drill(uow, actor, drill_id)
    for number, (mark, place) in enumerate(zip(marks, places, strict=True)):
        item = drawn(place.family, place.seed, place.form, actor)
        sent = right(item) if mark == "+" else wrong(item)
        answer(uow, actor, library(), place.id, Sent(sent.fields, SLOW_MS), start + timedelta(minutes=number))


def plain(uow: UnitOfWork, actor: Actor, family: str = FAMILY) -> float:
    with uow.reader() as connection:
        return list_difficulties(connection, actor.school_id, library())[family].plain


def evidences(uow: UnitOfWork, actor: Actor) -> list[float]:
    with uow.reader() as connection:
        rows = learners.list_answers(connection, actor.school_id, actor.own_visit)
    return [row.evidence["difficulty"] for row in rows if row.evidence]


def test_what_everybody_misses_gets_harder_and_what_nobody_misses_easier(uow: UnitOfWork, cast: Cast) -> None:
    graded = plain(uow, cast.alice), plain(uow, cast.alice, CONVERSIONS[1])
    for actor in (cast.alice, *(visitor(uow) for _ in range(3))):
        practise(uow, actor, CONVERSIONS[1], "++++++")
        practise(uow, actor, FAMILY, "------")
    assert measure_all(uow, library(), NIGHT) == 4
    for actor in (cast.alice, visitor(uow)):
        assert plain(uow, actor) > graded[0]
        assert plain(uow, actor, CONVERSIONS[1]) < graded[1]
    assert plain(uow, visitor(uow)) > plain(uow, cast.alice)  # three learners say more than one
    assert plain(uow, cast.charlie) == graded[0]  # nobody of that school has answered


def test_only_the_latest_learners_are_read_once_there_are_answers_enough(
    uow: UnitOfWork, cast: Cast, monkeypatch: pytest.MonkeyPatch
) -> None:
    practise(uow, cast.alice, FAMILY, "------")
    practise(uow, cast.bob, FAMILY, "++++++", NOW + timedelta(weeks=2))
    graded, read = plain(uow, cast.alice), []
    list_answers = learners.list_answers

    def listed(*of: Any) -> tuple[AnswerRow, ...]:
        read.append(of[2])
        return list_answers(*of)

    monkeypatch.setattr(learners, "list_answers", listed)
    monkeypatch.setattr(difficulty_count, "MOST_POOLED", 6)
    assert measure_school(uow, library(), cast.alice.school_id, NIGHT + timedelta(weeks=3)) == 1
    assert read == [cast.bob.own_visit]
    assert plain(uow, cast.alice) < graded  # Bob's alone: Alice's would have made it harder


def test_answers_are_weighed_with_the_difficulty_in_force_and_made_anew_bit_for_bit(
    uow: UnitOfWork, cast: Cast
) -> None:
    practise(uow, cast.alice, FAMILY, "----")
    before = evidences(uow, cast.alice)
    measure_all(uow, library(), NIGHT)
    assert evidences(uow, cast.alice) == before
    practise(uow, cast.alice, FAMILY, "----", NIGHT)
    shift = plain(uow, cast.alice) - before[0]
    assert shift > 0
    after = evidences(uow, cast.alice)[4:]
    assert min(after) > max(before)
    measure_all(uow, library(), NIGHT + timedelta(days=1))
    with uow.reader() as connection:
        kept = find_state(connection, cast.alice.school_id, cast.alice.own_visit)
    rebuild_all(uow)
    with uow.reader() as connection:
        assert find_state(connection, cast.alice.school_id, cast.alice.own_visit) == kept


def test_withdrawn_kind_goes_by_its_grade_until_it_is_asked_again(uow: UnitOfWork, cast: Cast) -> None:
    graded = plain(uow, cast.alice)
    practise(uow, cast.alice, FAMILY, "----")
    withdraw(uow, cast.selma, library(), FAMILY, "Unclear.", NOW)
    assert measure_school(uow, library(), cast.alice.school_id, NIGHT) == 0
    assert plain(uow, cast.alice) == graded
    bring_back(uow, cast.selma, library(), FAMILY, NIGHT)
    assert measure_school(uow, library(), cast.alice.school_id, NIGHT) == 1
    assert plain(uow, cast.alice) > graded


def test_answers_too_fast_to_have_been_read_measure_nothing(uow: UnitOfWork, cast: Cast) -> None:
    drill_id = start_drill(uow, cast.alice, library(), DrillWish(families=(FAMILY,), length=1), 5, NOW)
    _, (place,) = get_drill(uow, cast.alice, drill_id)
    sent = wrong(drawn(FAMILY, place.seed, place.form, cast.alice))
    answer(uow, cast.alice, library(), place.id, Sent(sent.fields, 200), NOW)
    assert measure_school(uow, library(), cast.alice.school_id, NIGHT) == 0


def test_quality_page_sets_the_grade_beside_what_was_measured(uow: UnitOfWork, cast: Cast) -> None:
    assert family_quality(uow, cast.selma, library(), FAMILY).difficulty.measured is None
    for _ in range(3):
        practise(uow, cast.alice, FAMILY, "------")
    measure_school(uow, library(), cast.alice.school_id, NIGHT)
    line = family_quality(uow, cast.selma, library(), FAMILY).difficulty
    assert line.measured is not None
    assert line.low < line.measured.difficulty["plain"] < line.high
    assert (line.grade, line.measured.answers, line.measured.learners) == (library().family(FAMILY).grade, 18, 1)
