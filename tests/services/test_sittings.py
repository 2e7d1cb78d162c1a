"""Sitting an assigned set: starting, resuming, being late, running out of time, and when results may be seen."""

from datetime import UTC, datetime, timedelta
from uuid import UUID

import pytest

from app.services.actor import Actor
from app.services.assignments import extend_for, withdraw
from app.services.drills import drill_again, find_open_drill, get_drill
from app.services.errors import Conflict, NotFound
from app.services.practice import question
from app.services.progress import Mark
from app.services.review import summary, verdict
from app.services.sittings import DueView, find_due, hand_in, list_due, start_sitting
from app.services.standing import Stage
from app.services.topic_sets import SetSettings, change_settings, list_sets
from app.storage.queries.classes import add_student
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.services.people import NOW, Cast, cast_of, make_class, visitor
from tests.services.sitting import assigned, sit

DUE = datetime(2026, 9, 4, 21, 0, tzinfo=UTC)
SOON = NOW + timedelta(hours=1)
AFTER = DUE + timedelta(hours=1)


class Evening:
    """Ingrid's class with Alice and Bob, and a set given to it."""

    def __init__(self, uow: UnitOfWork, cast: Cast) -> None:
        self.uow, self.cast = uow, cast
        self.class_id = make_class(uow, "Evening", cast.ingrid, cast.alice, cast.bob)

    def give(self, settings: SetSettings | None = None, *, due: bool = True) -> UUID:
        return assigned(self.uow, self.cast.ingrid, settings or SetSettings("Turns"), self.class_id, due=due)

    def start(self, assignment_id: UUID, now: datetime = NOW) -> UUID:
        return start_sitting(self.uow, self.cast.alice, library(), assignment_id, now)

    def sit(self, drill_id: UUID, marks: str, now: datetime = NOW) -> None:
        sit(self.uow, self.cast.alice, drill_id, marks, now)

    def due(self, assignment_id: UUID, now: datetime = NOW) -> DueView:
        return due_of(self.uow, self.cast.alice, assignment_id, now)


def due_of(uow: UnitOfWork, student: Actor, assignment_id: UUID, now: datetime) -> DueView:
    found = find_due(uow, student, assignment_id, now)
    assert found is not None
    return found


@pytest.fixture
def evening(uow: UnitOfWork) -> Evening:
    return Evening(uow, cast_of(uow))


def test_what_is_due_is_listed_until_it_is_done(evening: Evening) -> None:
    given = evening.give()
    due = evening.due(given)
    assert (due.title, due.standing.due_at, due.standing.stage) == ("Turns", DUE, Stage.NOT_STARTED)
    drill_id = evening.start(given)
    evening.sit(drill_id, "+-")
    assert evening.due(given).standing.stage is Stage.IN_PROGRESS
    assert evening.due(given).goes_on == drill_id
    assert evening.start(given, SOON) == drill_id, "another device goes on with the same sitting"
    evening.sit(drill_id, "++", SOON)
    done = evening.due(given, SOON)
    assert (done.standing.stage, done.standing.late, done.goes_on, done.may_start) == (Stage.DONE, False, None, False)
    assert [(each.percent, each.answered, each.ended_at) for each in done.sat] == [(75.0, 4, SOON)]


def test_nobody_else_reaches_it(evening: Evening) -> None:
    given, cast = evening.give(), evening.cast
    drill_id = evening.start(given)
    for stranger in (cast.charlie, cast.dora, cast.ingrid):
        with pytest.raises(NotFound):
            start_sitting(evening.uow, stranger, library(), given, NOW)
    with pytest.raises(NotFound):
        start_sitting(evening.uow, visitor(evening.uow), library(), given, NOW)
    for stranger in (cast.bob, cast.charlie, cast.ingrid, visitor(evening.uow)):
        with pytest.raises(NotFound):
            question(evening.uow, stranger, library(), drill_id, NOW)
        with pytest.raises(NotFound):
            hand_in(evening.uow, stranger, drill_id, NOW)
    assert list_due(evening.uow, cast.charlie, NOW) == []


def test_everybody_gets_the_same_numbers_or_their_own(evening: Evening) -> None:
    uow, (alice, bob) = evening.uow, (evening.cast.alice, evening.cast.bob)

    def seeds(given: UUID) -> list[list[int]]:
        drills = [(who, start_sitting(uow, who, library(), given, NOW)) for who in (alice, bob)]
        return [[place.seed for place in get_drill(uow, who, drill)[1]] for who, drill in drills]

    same, own = seeds(evening.give()), seeds(evening.give(SetSettings("Own", numbers="own")))
    assert same[0] == same[1]
    assert not set(own[0]) & set(own[1])
    assert not set(own[0]) & set(same[0])


def test_second_attempt_has_fresh_numbers_and_a_third_is_refused(evening: Evening) -> None:
    given = evening.give(SetSettings("Turns", attempts_allowed=2))
    first = evening.start(given)
    hand_in(evening.uow, evening.cast.alice, first, NOW)
    assert evening.due(given).may_start
    second = evening.start(given)
    places = [{place.seed for place in get_drill(evening.uow, evening.cast.alice, each)[1]} for each in (first, second)]
    assert not places[0] & places[1]
    hand_in(evening.uow, evening.cast.alice, second, NOW)
    with pytest.raises(Conflict, match="Attempts allowed for this set: 2"):
        evening.start(given)


def test_late_is_flagged_and_counts(evening: Evening) -> None:
    given = evening.give()
    assert evening.due(given, AFTER).standing.late
    evening.sit(evening.start(given, AFTER), "++++", AFTER)
    due = evening.due(given, AFTER)
    assert (due.standing.late, due.sat[0].percent) == (True, 100.0)


def test_extension_and_joining_late_are_not_late(evening: Evening) -> None:
    given, cast = evening.give(), evening.cast
    extend_for(evening.uow, cast.ingrid, given, (cast.alice.own_person, "2026-09-05", "12:00"), NOW)
    assert not evening.due(given, AFTER).standing.late
    assert evening.due(given, DUE + timedelta(days=2)).standing.late
    with evening.uow.writer() as connection:
        add_student(connection, cast.selma.school_id, evening.class_id, cast.selma.own_person, AFTER)
    late_comer = due_of(evening.uow, cast.selma, given, AFTER + timedelta(days=9))
    assert (late_comer.standing.joined_late, late_comer.standing.late) == (True, False)


def test_time_limit_is_the_servers(evening: Evening) -> None:
    given = evening.give(SetSettings("Turns", minutes=10))
    drill_id = evening.start(given)
    evening.sit(drill_id, "+", NOW + timedelta(minutes=9, seconds=59))
    with pytest.raises(Conflict, match="time of this set is up"):
        evening.sit(drill_id, "+", NOW + timedelta(minutes=10))
    due = evening.due(given, NOW + timedelta(minutes=10))
    assert (due.standing.stage, due.sat[0].percent, due.sat[0].answered) == (Stage.DONE, 25.0, 1)
    assert due.sat[0].ended_at == NOW + timedelta(minutes=10)


def test_handed_in_takes_no_more_answers(evening: Evening) -> None:
    given = evening.give()
    drill_id = evening.start(given)
    evening.sit(drill_id, "+")
    hand_in(evening.uow, evening.cast.alice, drill_id, SOON)
    hand_in(evening.uow, evening.cast.alice, drill_id, AFTER)
    with pytest.raises(Conflict, match="has been handed in"):
        evening.sit(drill_id, "+", SOON)
    assert evening.due(given).sat[0].ended_at == SOON


@pytest.mark.parametrize("reveal", ["at-end", "after-due"])
def test_nothing_tells_what_was_right_before_it_may(evening: Evening, reveal: str) -> None:
    given = evening.give(SetSettings("Turns", reveal=reveal))
    drill_id = evening.start(given)
    evening.sit(drill_id, "+-")
    _refuses_to_tell(evening, drill_id, SOON)
    evening.sit(drill_id, "+-", SOON)
    if reveal == "after-due":
        _refuses_to_tell(evening, drill_id, DUE - timedelta(seconds=1))
        assert evening.due(given, SOON).sat[0].percent is None
    _tells(evening, drill_id, DUE)
    assert evening.due(given, DUE).sat[0].percent == 50.0


def _refuses_to_tell(evening: Evening, drill_id: UUID, now: datetime) -> None:
    uow, alice = evening.uow, evening.cast.alice
    view = summary(uow, alice, library(), drill_id, now)
    assert (view.held, view.right, view.topics, view.misconceptions, view.missed) == (True, 0, (), (), ())
    assert {item.mark for item in view.items} <= {Mark.ANSWERED, Mark.TO_COME}
    assert set(view.progress.marks) <= {Mark.ANSWERED, Mark.TO_COME, Mark.HERE}
    shown = question(uow, alice, library(), drill_id, NOW)
    assert set(shown.progress.marks) <= {Mark.ANSWERED, Mark.TO_COME, Mark.HERE}
    answered = get_drill(uow, alice, drill_id)[1][0]
    with pytest.raises(Conflict, match="Your answer is kept"):
        verdict(uow, alice, library(), answered.id, now)
    with pytest.raises(Conflict, match="Your answer is kept"):
        drill_again(uow, alice, library(), drill_id, 3, now)


def _tells(evening: Evening, drill_id: UUID, now: datetime) -> None:
    view = summary(evening.uow, evening.cast.alice, library(), drill_id, now)
    assert (view.held, view.right, view.answered) == (False, 2, 4)
    for place in get_drill(evening.uow, evening.cast.alice, drill_id)[1]:
        assert verdict(evening.uow, evening.cast.alice, library(), place.id, now).explained is not None
    assert drill_again(evening.uow, evening.cast.alice, library(), drill_id, 3, now)


def test_what_was_left_open_is_told_once_all_is_told(evening: Evening) -> None:
    given, alice = evening.give(SetSettings("Turns", reveal="after-due")), evening.cast.alice
    drill_id = evening.start(given)
    evening.sit(drill_id, "+")
    still_open = get_drill(evening.uow, alice, drill_id)[1][2]
    with pytest.raises(Conflict, match="has no answer yet"):
        verdict(evening.uow, alice, library(), still_open.id, NOW)
    hand_in(evening.uow, alice, drill_id, SOON)
    with pytest.raises(Conflict, match="Your answer is kept"):
        verdict(evening.uow, alice, library(), still_open.id, SOON)
    told = verdict(evening.uow, alice, library(), still_open.id, DUE)
    assert told.reply is None
    assert told.explained
    assert told.explained.explanation.working
    assert told.progress.next_position is None
    with pytest.raises(NotFound):
        verdict(evening.uow, evening.cast.bob, library(), still_open.id, DUE)


def test_after_due_waits_for_whoever_has_longer(evening: Evening) -> None:
    given, cast = evening.give(SetSettings("Turns", reveal="after-due")), evening.cast
    extend_for(evening.uow, cast.ingrid, given, (cast.bob.own_person, "2026-09-10", "12:00"), NOW)
    drill_id = evening.start(given)
    evening.sit(drill_id, "++++")
    _refuses_to_tell_yet = summary(evening.uow, cast.alice, library(), drill_id, AFTER)
    assert _refuses_to_tell_yet.held
    assert not summary(evening.uow, cast.alice, library(), drill_id, DUE + timedelta(days=6)).held


def test_at_once_tells_each_answer(evening: Evening) -> None:
    drill_id = evening.start(evening.give(SetSettings("Turns", reveal="at-once")))
    evening.sit(drill_id, "+")
    assert question(evening.uow, evening.cast.alice, library(), drill_id, NOW).progress.marks[0] is Mark.KEY
    answered = get_drill(evening.uow, evening.cast.alice, drill_id)[1][0]
    assert verdict(evening.uow, evening.cast.alice, library(), answered.id, NOW).correct


def test_withdrawn_set_takes_no_more_answers_and_keeps_those_it_has(evening: Evening) -> None:
    given = evening.give()
    drill_id = evening.start(given)
    evening.sit(drill_id, "+")
    withdraw(evening.uow, evening.cast.ingrid, given, SOON)
    with pytest.raises(Conflict, match="withdrawn"):
        evening.sit(drill_id, "+", SOON)
    assert (evening.due(given, SOON).withdrawn, evening.due(given, SOON).goes_on) == (True, None)
    assert list_due(evening.uow, evening.cast.bob, SOON) == []
    with pytest.raises(Conflict, match="withdrawn"):
        start_sitting(evening.uow, evening.cast.bob, library(), given, SOON)


def test_changed_pass_mark_shows_old_and_new(evening: Evening) -> None:
    given, ingrid = evening.give(), evening.cast.ingrid
    evening.sit(evening.start(given), "+++-")
    set_row = list_sets(evening.uow, ingrid)[0]
    change_settings(evening.uow, ingrid, set_row.id, 2, SetSettings("Turns", pass_percent=80), SOON)
    marks = evening.due(given, SOON).sat[0].marks
    assert (marks.then, marks.now, marks.changed_at) == (70, 80, SOON)


def test_set_has_its_own_language_and_its_own_home(evening: Evening) -> None:
    drill_id = evening.start(evening.give(SetSettings("Virages", language="fr")))
    view = question(evening.uow, evening.cast.alice, library(), drill_id, NOW)
    assert view.item.worded.language == "fr"
    assert view.item.place == evening.cast.ingrid.conventions.place


def test_open_sitting_is_not_offered_as_the_last_drill(evening: Evening) -> None:
    evening.start(evening.give())
    assert find_open_drill(evening.uow, evening.cast.alice, NOW) is None
