"""Giving a set out and following it."""

from datetime import UTC, datetime, timedelta
from uuid import UUID, uuid4

import pytest

from app.services.assignments import AssignWish, assign_set, extend_for, list_running, withdraw
from app.services.errors import Conflict, Invalid, NotAllowed, NotFound
from app.services.following import follow
from app.services.set_wishes import SetWish
from app.services.sittings import start_sitting
from app.services.standing import Stage
from app.services.topic_sets import SetSettings, change_settings, get_set, make_set
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.services.people import NOW, Cast, cast_of, make_class, visitor
from tests.services.sitting import assigned, sit

DUE = datetime(2026, 9, 4, 21, 0, tzinfo=UTC)


@pytest.fixture
def cast(uow: UnitOfWork) -> Cast:
    return cast_of(uow)


@pytest.fixture
def evening(uow: UnitOfWork, cast: Cast) -> UUID:
    return make_class(uow, "Evening", cast.ingrid, cast.alice, cast.bob)


def test_each_student_and_each_question(uow: UnitOfWork, cast: Cast, evening: UUID) -> None:
    given = assigned(uow, cast.ingrid, SetSettings("Turns"), evening)
    sit(uow, cast.alice, start_sitting(uow, cast.alice, library(), given, NOW), "+--+", NOW)
    sit(uow, cast.bob, start_sitting(uow, cast.bob, library(), given, NOW), "-", NOW)
    view = follow(uow, cast.ingrid, library(), given, NOW)
    alice, bob = view.students
    assert (alice.standing.stage, alice.standing.percent, alice.passed) == (Stage.DONE, 50.0, False)
    assert (bob.standing.stage, bob.answered, bob.standing.percent) == (Stage.IN_PROGRESS, 1, None)
    first, second = view.questions[:2]
    assert (first.right, first.answered) == (1, 2)
    assert (second.right, second.answered, second.mistaken) == (0, 1, 1)
    assert second.link.startswith(get_set(uow, cast.ingrid, library(), view.topic_set.id).places[1][0].family + "/")
    assert [line.member.name for line in view.undone] == ["Bob"]
    assert follow(uow, cast.ingrid, library(), given, DUE + timedelta(minutes=1)).count("late") == 1


def test_pass_mark_of_then_and_of_now(uow: UnitOfWork, cast: Cast, evening: UUID) -> None:
    given = assigned(uow, cast.ingrid, SetSettings("Turns"), evening)
    sit(uow, cast.alice, start_sitting(uow, cast.alice, library(), given, NOW), "+++-", NOW)
    set_id = follow(uow, cast.ingrid, library(), given, NOW).topic_set.id
    later = NOW + timedelta(days=1)
    change_settings(uow, cast.ingrid, set_id, 2, SetSettings("Turns", pass_percent=80), later)
    alice = follow(uow, cast.ingrid, library(), given, later).students[0]
    assert (alice.passed_then, alice.passed) == (True, False)


def test_who_may_follow(uow: UnitOfWork, cast: Cast, evening: UUID) -> None:
    given = assigned(uow, cast.ingrid, SetSettings("Turns"), evening)
    other = assigned(uow, cast.selma, SetSettings("Turns"), make_class(uow, "Other", cast.selma))
    named = assigned(uow, cast.selma, SetSettings("Turns"), people=(cast.alice.own_person,))
    assert follow(uow, cast.selma, library(), given, NOW)
    for assignment in (other, named):
        with pytest.raises(NotAllowed):
            follow(uow, cast.ingrid, library(), assignment, NOW)
    for stranger in (cast.alice, cast.bob, cast.charlie, cast.dora, visitor(uow)):
        with pytest.raises(NotFound):
            follow(uow, stranger, library(), given, NOW)
        with pytest.raises(NotFound):
            withdraw(uow, stranger, given, NOW)
    assert [row.id for row in list_running(uow, cast.ingrid)] == [given]
    assert {row.id for row in list_running(uow, cast.selma)} == {given, other, named}
    assert list_running(uow, cast.dora) == []


def test_assigning_is_all_or_nothing(uow: UnitOfWork, cast: Cast, evening: UUID) -> None:
    set_id = make_set(uow, cast.ingrid, library(), (SetWish(topics=("datum",)), SetSettings("T")), 1, NOW)
    selmas, dorases = make_class(uow, "Other", cast.selma), make_class(uow, "Far", cast.dora, cast.charlie)
    for wish, refusal in (
        (AssignWish((evening, selmas)), NotAllowed),
        (AssignWish((evening, dorases)), NotFound),
        (AssignWish((evening, uuid4())), NotFound),
        (AssignWish((evening,), (cast.charlie.own_person,)), NotFound),
        (AssignWish((evening,), due_day="2026-08-31"), Invalid),
        (AssignWish(), Invalid),
    ):
        with pytest.raises(refusal):
            assign_set(uow, cast.ingrid, set_id, wish, NOW)
    with pytest.raises(NotFound):
        assign_set(uow, cast.dora, set_id, AssignWish((dorases,)), NOW)
    assert list_running(uow, cast.ingrid) == []
    assert get_set(uow, cast.ingrid, library(), set_id).row.locked_at is None
    assign_set(uow, cast.ingrid, set_id, AssignWish((evening,)), NOW)
    assert get_set(uow, cast.ingrid, library(), set_id).row.locked_at == NOW
    with pytest.raises(Conflict, match="already assigned to Evening"):
        assign_set(uow, cast.ingrid, set_id, AssignWish((evening,)), NOW)


def test_answers_after_the_due_time_need_one(uow: UnitOfWork, cast: Cast, evening: UUID) -> None:
    with pytest.raises(Invalid, match="shown after the due time"):
        assigned(uow, cast.ingrid, SetSettings("T", reveal="after-due"), evening, due=False)


def test_extension_is_later_and_for_somebody_of_the_class(uow: UnitOfWork, cast: Cast, evening: UUID) -> None:
    given = assigned(uow, cast.ingrid, SetSettings("Turns"), evening)
    with pytest.raises(Invalid, match="not later than 2026-09-04 17:00"):
        extend_for(uow, cast.ingrid, given, (cast.bob.own_person, "2026-09-04", "16:00"), NOW)
    for nobody in (cast.charlie.own_person, cast.selma.own_person, uuid4()):
        with pytest.raises(NotFound):
            extend_for(uow, cast.ingrid, given, (nobody, "2026-09-08", "16:00"), NOW)
    endless = assigned(uow, cast.ingrid, SetSettings("Endless"), evening, due=False)
    with pytest.raises(Conflict, match="no due time"):
        extend_for(uow, cast.ingrid, endless, (cast.bob.own_person, "2026-09-08", "16:00"), NOW)
