"""The student's side of assigned sets: what is due, starting, handing in, and what became of it."""

from collections.abc import Sequence
from datetime import datetime, timedelta
from typing import NamedTuple
from uuid import UUID

from app.packs.library import Library
from app.questions.conventions import Conventions
from app.services.actor import Actor
from app.services.errors import Conflict, NotFound
from app.services.messages import say
from app.services.reveal import SET, is_over, load_sitting, may_see
from app.services.set_wishes import SetWish
from app.services.standing import Stage, Standing, ended_at, percent_of, standing
from app.services.variants import own_numbers
from app.storage.ids import new_id
from app.storage.models import Sitting, TopicSet
from app.storage.queries import drills, sittings, topic_sets
from app.storage.queries.drills import DrillRow, PlaceRow
from app.storage.queries.sittings import CountedSitting, DueRow, SittingExists, SittingRow
from app.storage.queries.topic_sets import PassMarkRow, SetItemRow
from app.storage.unit_of_work import UnitOfWork


class PassMarks(NamedTuple):
    """The pass mark that held when a sitting ended, and the one that holds now."""

    then: int | None
    now: int | None
    changed_at: datetime | None


class SatView(NamedTuple):
    """One sitting as its student sees it; `percent` is None as long as results may not be seen."""

    drill_id: UUID
    number: int
    started_at: datetime
    ended_at: datetime | None
    answered: int
    length: int
    percent: float | None
    marks: PassMarks


class DueView(NamedTuple):
    """An assignment as its student sees it: `goes_on` is the drill to resume, if any; else one may start another."""

    id: UUID
    title: str
    note: str
    minutes: int | None
    attempts_allowed: int
    standing: Standing
    sat: tuple[SatView, ...]
    goes_on: UUID | None
    may_start: bool
    withdrawn: bool


def list_due(uow: UnitOfWork, actor: Actor, now: datetime) -> Sequence[DueView]:
    """Return what was assigned to the actor: what is to be done first, the soonest due before the others."""
    with uow.reader() as connection:
        assigned = sittings.list_due(connection, actor.school_id, actor.own_person)
        sat = sittings.list_of_person(connection, actor.school_id, actor.own_person)
        views = []
        for row in assigned:
            own = [each for each in sat if each.assignment_id == row.id]
            marks = topic_sets.list_pass_marks(connection, actor.school_id, row.topic_set_id) if own else ()
            views.append(_due_view(row, own, marks, now))
    shown = [view for view in views if view.sat or not view.withdrawn]
    return sorted(shown, key=lambda view: (view.standing.stage is Stage.DONE, _due_key(view)))


def find_due(uow: UnitOfWork, actor: Actor, assignment_id: UUID, now: datetime) -> DueView | None:
    """Return one assignment of the actor; None for anybody else's, and for one of a class they have left."""
    return next((view for view in list_due(uow, actor, now) if view.id == assignment_id), None)


def start_sitting(uow: UnitOfWork, actor: Actor, library: Library, assignment_id: UUID, now: datetime) -> UUID:
    """Start an assigned set and return its drill, or the drill that goes on where one does.

    NotFound for what is not assigned to the actor, Conflict when it was withdrawn or no attempt is left.
    """
    with uow.reader() as connection:
        due = sittings.find_due(connection, actor.school_id, actor.own_person, assignment_id)
        if due is None:
            raise NotFound(assignment_id)
        sat = _sat(sittings.list_of_person(connection, actor.school_id, actor.own_person), assignment_id)
        topic_set = topic_sets.find_set(connection, actor.school_id, due.topic_set_id)
        items = topic_sets.list_items(connection, actor.school_id, due.topic_set_id)
    running = next((each.drill_id for each in sat if ended_at(each, now) is None), None)
    if running is not None:
        return running
    if due.withdrawn_at is not None or topic_set is None:
        raise Conflict(say("set-withdrawn", actor.language))
    if len(sat) >= due.attempts_allowed:
        raise Conflict(say("no-attempt-left", actor.language, value=due.attempts_allowed))
    number = len(sat) + 1
    chosen = _numbers_for(library, topic_set, items, (actor.own_person, number))
    return _keep(uow, actor, (topic_set, chosen), (due, number), now)


def hand_in(uow: UnitOfWork, actor: Actor, drill_id: UUID, now: datetime) -> None:
    """End a sitting of the actor before its last question is answered; a second time changes nothing."""
    with uow.writer() as connection:
        drill = drills.find_drill(connection, actor.school_id, actor.own_visit, drill_id)
        sitting = load_sitting(connection, actor.school_id, drill_id, drill.purpose) if drill else None
        if sitting is None:
            raise NotFound(drill_id)
        if not is_over(sitting, now):
            sittings.finish(connection, actor.school_id, sitting.id, now)


def pass_marks_at(marks: Sequence[PassMarkRow], moment: datetime) -> PassMarks:
    """Return the pass mark of a moment and the present one."""
    before = [mark for mark in marks if mark.set_at <= moment] or list(marks[:1])
    then, latest = before[-1], marks[-1]
    return PassMarks(then.percent, latest.percent, latest.set_at if latest.percent != then.percent else None)


def _due_view(row: DueRow, sat: Sequence[CountedSitting], marks: Sequence[PassMarkRow], now: datetime) -> DueView:
    running = next((each.drill_id for each in sat if ended_at(each, now) is None), None)
    left = len(sat) < row.attempts_allowed
    return DueView(
        id=row.id,
        title=row.title,
        note=row.note,
        minutes=row.minutes,
        attempts_allowed=row.attempts_allowed,
        standing=standing((row.due_at, row.extended_to), row.joined_at, sat, now)._replace(percent=None),
        sat=tuple(_sat_view(row, each, marks, now) for each in sat),
        goes_on=running if row.withdrawn_at is None else None,
        may_start=running is None and left and row.withdrawn_at is None,
        withdrawn=row.withdrawn_at is not None,
    )


def _sat_view(row: DueRow, sat: CountedSitting, marks: Sequence[PassMarkRow], now: datetime) -> SatView:
    ended = ended_at(sat, now)
    seen = ended is not None and may_see(_terms(row, sat), now)
    return SatView(
        drill_id=sat.drill_id,
        number=sat.number,
        started_at=sat.started_at,
        ended_at=ended,
        answered=sat.answered,
        length=sat.length,
        percent=percent_of(sat) if seen else None,
        marks=pass_marks_at(marks, ended or now),
    )


def _due_key(view: DueView) -> tuple[bool, float]:
    due_at = view.standing.due_at
    return due_at is None, due_at.timestamp() if due_at else 0.0


def _sat(all_sat: Sequence[CountedSitting], assignment_id: UUID) -> list[CountedSitting]:
    return [each for each in all_sat if each.assignment_id == assignment_id]


def _numbers_for(
    library: Library, topic_set: TopicSet, items: Sequence[SetItemRow], who: tuple[UUID, int]
) -> Sequence[SetItemRow]:
    """Return the items as they are where everybody has the same, else with numbers of this student and attempt."""
    person_id, number = who
    if topic_set.numbers == "same" and number == 1:
        return items
    conventions = Conventions.from_json(topic_set.conventions)
    wish = SetWish.from_json(topic_set.wish)
    return own_numbers(library, items, wish, conventions, f"{person_id} {number}")


def _keep(
    uow: UnitOfWork,
    actor: Actor,
    chosen: tuple[TopicSet, Sequence[SetItemRow]],
    which: tuple[DueRow, int],
    now: datetime,
) -> UUID:
    (topic_set, items), (due, number) = chosen, which
    drill = DrillRow(
        school_id=actor.school_id,
        id=new_id(now),
        visit_id=actor.own_visit,
        topic=None,
        seed=topic_set.seed,
        conventions=topic_set.conventions,
        started_at=now,
        purpose=SET,
    )
    ends_at = now + timedelta(minutes=due.minutes) if due.minutes else None
    sitting = Sitting(actor.school_id, new_id(now), due.id, actor.own_person, number, drill.id, now, ends_at)
    try:
        with uow.writer() as connection:
            drills.add_drill(connection, drill, [_place(item, now) for item in items])
            sittings.add_sitting(connection, sitting)
    except SittingExists:  # started twice at once: the first one goes on
        with uow.reader() as connection:
            sat = _sat(sittings.list_of_person(connection, actor.school_id, actor.own_person), due.id)
        return next(each.drill_id for each in sat if each.number == number)
    return drill.id


def _place(item: SetItemRow, now: datetime) -> PlaceRow:
    return PlaceRow(
        new_id(now), item.position, item.family, item.family_version, item.pack, item.pack_version, item.seed, item.form
    )


def _terms(row: DueRow, sat: CountedSitting) -> SittingRow:
    return SittingRow(
        id=sat.id,
        drill_id=sat.drill_id,
        assignment_id=row.id,
        person_id=sat.person_id,
        number=sat.number,
        started_at=sat.started_at,
        ends_at=sat.ends_at,
        finished_at=sat.finished_at,
        title=row.title,
        language=None,
        reveal=row.reveal,
        due_at=row.due_at,
        extended_to=row.extended_to,
        last_extension=row.last_extension,
        withdrawn_at=row.withdrawn_at,
    )
