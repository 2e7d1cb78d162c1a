"""Setting answers aside: they are shown and count nowhere; both marks are kept; counted again, all is as before."""

from dataclasses import replace
from datetime import timedelta

import pytest
from sqlalchemy import update

from app.services.actor import Actor
from app.services.class_picture import Period, class_picture
from app.services.errors import Conflict, Invalid, NotAllowed
from app.services.following import follow
from app.services.learning import find_state, rebuild
from app.services.past_answers import Asked, do, look
from app.services.quality_count import count_all
from app.services.record import own_data, record
from app.services.regrade_notice import list_untold
from app.services.review import summary, verdict
from app.services.sittings import list_due, start_sitting
from app.services.topic_sets import SetSettings
from app.services.withdrawals import withdraw
from app.storage.base import table_of
from app.storage.models import Attempt
from app.storage.queries import audit, quality, tallies
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.services.people import CONVERSIONS, NOW, Cast, cast_of, make_class
from tests.services.sitting import assigned, sit
from tests.services.test_learning import practise

FAMILY, OTHER = CONVERSIONS
LATER = NOW + timedelta(days=40)
ASIDE, BACK = Asked(FAMILY, deed="set-aside"), Asked(FAMILY, deed="counted")
ATTEMPT = table_of(Attempt)


@pytest.fixture
def cast(uow: UnitOfWork) -> Cast:
    """Alice and Bob have answered both conversions, three times and twice each; the school has withdrawn the first."""
    cast = cast_of(uow)
    practise(uow, cast.alice, "rrrrrw")
    practise(uow, cast.bob, "wwww")
    withdraw(uow, cast.selma, library(), FAMILY, "The key is wrong.", NOW)
    return cast


def move(uow: UnitOfWork, cast: Cast, asked: Asked) -> None:
    do(uow, cast.selma, library(), asked, look(uow, cast.selma, library(), asked).found.fingerprint, LATER)


def answers(uow: UnitOfWork, actor: Actor) -> int:
    with uow.reader() as connection:
        return tallies.total(connection, actor.school_id, actor.own_visit).answers


def test_a_look_changes_nothing_and_says_whom_it_touches(uow: UnitOfWork, cast: Cast) -> None:
    seen = look(uow, cast.selma, library(), ASIDE)
    assert (seen.found.answers, seen.found.people, seen.touched.names) == (5, 2, ["Alice", "Bob"])
    assert (answers(uow, cast.alice), answers(uow, cast.bob)) == (6, 4)


def test_set_aside_it_counts_in_no_figure_and_is_told_and_noted(uow: UnitOfWork, cast: Cast) -> None:
    move(uow, cast, ASIDE)
    assert (answers(uow, cast.alice), answers(uow, cast.bob)) == (3, 2)
    of = (cast.alice.school_id, cast.alice.own_visit)
    with uow.writer() as connection:
        kept = find_state(connection, *of)
        rebuild(connection, *of)
        assert find_state(connection, *of) == kept
        (entry,) = audit.list_entries(connection, of[0], 1, None)
    assert set(kept.skills) == {OTHER}
    assert record(uow, cast.alice, library(), LATER).answers == 3
    assert [each["set_aside"] for each in own_data(uow, cast.alice, LATER)["answers"]].count(True) == 3
    assert [(row.deed, row.old_correct == row.new_correct) for row in list_untold(uow, cast.alice)] == [
        ("set-aside", True)
    ] * 3
    assert (entry.action, entry.subject, entry.details) == ("answers-set-aside", FAMILY, {"answers": 5, "people": 2})
    assert look(uow, cast.selma, library(), ASIDE).found.answers == 0


def test_counted_again_all_is_as_before(uow: UnitOfWork, cast: Cast) -> None:
    count_all(uow, library(), LATER)
    of = (cast.alice.school_id, cast.alice.own_visit)
    with uow.reader() as connection:
        before = find_state(connection, *of), quality.list_qualities(connection, of[0])
    move(uow, cast, ASIDE)
    with uow.reader() as connection:
        assert [row.family for row in quality.list_qualities(connection, of[0])] == [OTHER]
    move(uow, cast, BACK)
    with uow.reader() as connection:
        assert (find_state(connection, *of), quality.list_qualities(connection, of[0])) == before
    assert (answers(uow, cast.alice), answers(uow, cast.bob)) == (6, 4)


def test_figures_of_questions_are_those_of_a_count_from_nothing(uow: UnitOfWork, cast: Cast) -> None:
    count_all(uow, library(), LATER)
    with uow.writer() as connection:  # two of the five count, as those of a later day do
        connection.execute(update(ATTEMPT).where(ATTEMPT.c.visit_id == cast.bob.own_visit).values(answered_at=LATER))
    move(uow, cast, ASIDE._replace(until="2026-09-20"))
    with uow.writer() as connection:
        kept = quality.list_qualities(connection, cast.alice.school_id)
        for table in (quality.QUALITY, quality.RUN):
            connection.execute(table.delete())
    count_all(uow, library(), LATER + timedelta(days=1))
    with uow.reader() as connection:
        anew = quality.list_qualities(connection, cast.alice.school_id)
    assert [replace(row, counted_at=LATER) for row in anew] == list(kept)
    assert {row.family: row.answers for row in kept} == {FAMILY: 2, OTHER: 5}


def test_scores_of_a_set_leave_it_out_and_the_student_sees_it_marked_so(uow: UnitOfWork) -> None:
    cast = cast_of(uow)
    class_id = make_class(uow, "Evening", cast.ingrid, cast.alice, cast.bob)
    assignment = assigned(uow, cast.ingrid, SetSettings(title="Turns"), class_id)
    drill_id = start_sitting(uow, cast.alice, library(), assignment, NOW)
    sit(uow, cast.alice, drill_id, "++--", NOW)
    sit(uow, cast.bob, start_sitting(uow, cast.bob, library(), assignment, NOW), "+-+-", NOW)
    withdraw(uow, cast.selma, library(), FAMILY, "The key is wrong.", LATER)
    seen = look(uow, cast.selma, library(), ASIDE)
    assert seen.touched.sets == [("Turns", seen.found.answers)]
    move(uow, cast, ASIDE)
    view = summary(uow, cast.alice, library(), drill_id, LATER)
    marks = [item.mark for item in view.items if item.family == FAMILY]
    assert set(marks) == {"set-aside"}
    (due,) = list_due(uow, cast.alice, LATER)
    counted = 4 - len(marks)
    assert (due.sat[0].length, due.sat[0].answered, view.length, view.answered) == (counted,) * 4
    assert due.sat[0].percent == pytest.approx(100 * view.right / counted)
    first = next(item for item in view.items if item.family == FAMILY)
    assert verdict(uow, cast.alice, library(), first.item_id, LATER).set_aside_at == LATER
    following = follow(uow, cast.ingrid, library(), assignment, LATER)
    assert {line.length for line in following.students} == {counted}
    assert sum(line.answered for line in following.questions) == 2 * counted
    picture = class_picture(uow, cast.ingrid, library(), class_id, Period(), LATER)
    assert [line.id for line in picture.families] == [OTHER]
    count_all(uow, library(), LATER)
    with uow.reader() as connection:
        ((of_set, _),) = quality.list_set_qualities(connection, cast.alice.school_id)
    assert (of_set.students, [item["family"] for item in of_set.items]) == (2, [OTHER] * counted)


def test_only_what_was_withdrawn_and_only_by_the_school(uow: UnitOfWork, cast: Cast) -> None:
    with pytest.raises(Conflict, match="Withdraw it first"):
        look(uow, cast.selma, library(), Asked(OTHER, deed="set-aside"))
    with pytest.raises(NotAllowed):
        look(uow, cast.ingrid, library(), ASIDE)
    with pytest.raises(Invalid, match="“erase” cannot be done"):
        look(uow, cast.selma, library(), Asked(FAMILY, deed="erase"))
    with pytest.raises(Conflict, match="Nothing was done"):
        do(uow, cast.selma, library(), ASIDE, "something else", LATER)
    assert answers(uow, cast.alice) == 6


def test_answers_to_a_later_version_stay(uow: UnitOfWork, cast: Cast) -> None:
    with uow.writer() as connection:
        corrected = update(ATTEMPT).where(ATTEMPT.c.visit_id == cast.bob.own_visit).values(family_version=99)
        connection.execute(corrected)
    assert look(uow, cast.selma, library(), ASIDE).found.answers == 3
