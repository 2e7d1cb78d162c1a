"""Marking again: nothing by a look, both marks kept, figures and learner state made anew, other numbers left alone."""

from datetime import timedelta
from typing import Any

import pytest
from sqlalchemy import select, update

from app.grader.grade import Grade
from app.packs.library import Library
from app.services import regrading
from app.services.learning import find_state, rebuild
from app.services.quality_count import count_all
from app.services.regrade_notice import list_untold, tell
from app.services.regrading import apply, mark_again, plan
from app.storage.base import table_of
from app.storage.models import Attempt
from app.storage.queries import audit, quality, tallies
from app.storage.queries.past_answers import Past
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.services.people import CONVERSIONS, NOW, Cast, cast_of
from tests.services.test_learning import practise

FAMILY = CONVERSIONS[0]
PAST = Past(FAMILY)
SELMA = (None, "Selma")
ATTEMPT = table_of(Attempt)
LATER = NOW + timedelta(days=40)


@pytest.fixture
def cast(uow: UnitOfWork) -> Cast:
    """Alice and Bob have answered; the key of the first conversion was wrong then: what is right counted as wrong."""
    cast = cast_of(uow)
    practise(uow, cast.alice, "rrrrrw")
    practise(uow, cast.bob, "wwww")
    mark = {"correct": False, "share": 0.0, "misconceptions": []}
    with uow.writer() as connection:
        spoilt = update(ATTEMPT).where(ATTEMPT.c.family == FAMILY, ATTEMPT.c.correct).values(**mark)
        connection.execute(spoilt)
        for actor in (cast.alice, cast.bob):
            tallies.count_again(connection, actor.school_id, actor.own_visit, NOW)
            rebuild(connection, actor.school_id, actor.own_visit)
    return cast


def marks(uow: UnitOfWork) -> list[tuple[Any, ...]]:
    columns = (ATTEMPT.c.id, ATTEMPT.c.correct, ATTEMPT.c.share, ATTEMPT.c.misconceptions)
    with uow.reader() as connection:
        return [tuple(row) for row in connection.execute(select(*columns).order_by(ATTEMPT.c.id))]


def test_a_plan_changes_nothing_and_names_what_would(uow: UnitOfWork, cast: Cast) -> None:
    before = marks(uow)
    found = plan(uow, library(), cast.alice.school_id, PAST)
    assert (found.answers, found.to_right, found.to_wrong, found.otherwise, found.lost) == (5, 3, 0, 0, 0)
    assert (found.people, len(found.fingerprint)) == (1, 32)
    assert marks(uow) == before
    assert plan(uow, library(), cast.charlie.school_id, PAST).answers == 0


def test_applied_marks_figures_state_and_log_follow_and_both_marks_are_kept(uow: UnitOfWork, cast: Cast) -> None:
    of = (cast.alice.school_id, cast.alice.own_visit)
    count = len(marks(uow))
    apply(uow, library(), of[0], PAST, SELMA, LATER)
    assert len(marks(uow)) == count
    with uow.writer() as connection:
        assert tallies.total(connection, *of).correct == 5
        kept = find_state(connection, *of)
        rebuild(connection, *of)
        assert find_state(connection, *of) == kept
        (entry,) = audit.list_entries(connection, of[0], 1, None)
    assert (entry.action, entry.subject, entry.details["right now"]) == ("answers-regraded", FAMILY, 3)
    untold = list_untold(uow, cast.alice)
    assert [(row.old_correct, row.new_correct) for row in untold] == [(False, True)] * 3
    assert list_untold(uow, cast.bob) == ()
    tell(uow, cast.alice, LATER)
    assert list_untold(uow, cast.alice) == ()
    again = plan(uow, library(), of[0], PAST)
    assert (again.answers, again.changed) == (5, 0)


def test_other_numbers_cannot_be_marked_again(uow: UnitOfWork, cast: Cast) -> None:
    with uow.writer() as connection:
        connection.execute(update(ATTEMPT).where(ATTEMPT.c.family == FAMILY).values(parameters={"true_deg": 1}))
    found = plan(uow, library(), cast.alice.school_id, PAST)
    assert (found.answers, found.lost, found.changed) == (5, 5, 0)
    gone = Library({}, {}, library().shared, {})
    assert plan(uow, gone, cast.alice.school_id, PAST).lost == 5


def test_a_reply_that_is_no_option_any_more_cannot_be_marked_again(uow: UnitOfWork, cast: Cast) -> None:
    with uow.writer() as connection:
        other = update(ATTEMPT).where(ATTEMPT.c.form == "choice").values(answer={"value": 999.0, "text": ""})
        connection.execute(other)
    found = plan(uow, library(), cast.alice.school_id, PAST)
    with uow.reader() as connection:
        choices = connection.execute(select(ATTEMPT.c.id).where(ATTEMPT.c.form == "choice", ATTEMPT.c.family == FAMILY))
        assert found.lost == len(choices.all())


def test_a_key_made_worse_is_counted_as_such(uow: UnitOfWork, cast: Cast, monkeypatch: pytest.MonkeyPatch) -> None:
    apply(uow, library(), cast.alice.school_id, PAST, SELMA, LATER)
    monkeypatch.setattr(regrading, "grade", lambda *_: Grade(correct=False, share=0.5))
    found = plan(uow, library(), cast.alice.school_id, PAST)
    assert (found.to_right, found.to_wrong, found.otherwise) == (0, 3, 2)


def test_only_the_answers_asked_for_are_looked_at(uow: UnitOfWork, cast: Cast) -> None:
    def answers(past: Past) -> int:
        return plan(uow, library(), cast.alice.school_id, past).answers

    assert answers(Past(FAMILY, version=library().family(FAMILY).version)) == 5
    assert answers(Past(FAMILY, version=99)) == 0
    assert answers(Past(FAMILY, since=LATER)) == answers(Past(FAMILY, until=NOW)) == 0


def test_twice_at_once_keeps_both_marks_once(uow: UnitOfWork, cast: Cast, monkeypatch: pytest.MonkeyPatch) -> None:
    of = (uow, library(), cast.alice.school_id, PAST)
    seen = list(mark_again(*of))
    apply(*of, SELMA, LATER)
    monkeypatch.setattr(regrading, "mark_again", lambda *_: seen)
    apply(*of, SELMA, LATER)
    assert len(list_untold(uow, cast.alice)) == 3


def test_figures_of_the_question_are_those_of_a_count_from_nothing(uow: UnitOfWork, cast: Cast) -> None:
    count_all(uow, library(), LATER)
    apply(uow, library(), cast.alice.school_id, PAST, SELMA, LATER)
    with uow.writer() as connection:
        kept = quality.list_qualities(connection, cast.alice.school_id)
        for table in (quality.QUALITY, quality.RUN):
            connection.execute(table.delete())
    count_all(uow, library(), LATER)
    with uow.reader() as connection:
        assert quality.list_qualities(connection, cast.alice.school_id) == kept
    assert next(row for row in kept if row.family == FAMILY).correct == 3
