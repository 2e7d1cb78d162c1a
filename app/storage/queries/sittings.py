"""Sittings: the drills in which students work on what was assigned to them, and how far they are."""

from dataclasses import asdict
from datetime import datetime
from typing import Any, NamedTuple
from uuid import UUID

from sqlalchemy import BindParameter, Connection, bindparam, case, func, insert, or_, select, update
from sqlalchemy.exc import IntegrityError

from app.storage.base import table_of
from app.storage.models import AssignedPerson, Assignment, Attempt, DrillItem, Enrolment, Extension, Sitting, TopicSet

SITTING, ASSIGNMENT, SET = table_of(Sitting), table_of(Assignment), table_of(TopicSet)
EXTENSION, ITEM, ATTEMPT = table_of(Extension), table_of(DrillItem), table_of(Attempt)
ENROLMENT, ASSIGNED = table_of(Enrolment), table_of(AssignedPerson)


class SittingExists(Exception):
    """There is a sitting with this number already."""


class SittingRow(NamedTuple):
    """A sitting with the rules that hold for it; `last_due` is the latest due time anybody has for the assignment."""

    id: UUID
    drill_id: UUID
    assignment_id: UUID
    person_id: UUID
    number: int
    started_at: datetime
    ends_at: datetime | None
    finished_at: datetime | None
    title: str
    language: str | None
    reveal: str
    due_at: datetime | None
    extended_to: datetime | None
    last_extension: datetime | None
    withdrawn_at: datetime | None


class CountedSitting(NamedTuple):
    """How far a sitting is; what was set aside is left out of length, answered and right."""

    id: UUID
    drill_id: UUID
    assignment_id: UUID
    person_id: UUID
    number: int
    started_at: datetime
    ends_at: datetime | None
    finished_at: datetime | None
    length: int
    answered: int
    right: int
    set_aside: int = 0


class AnsweredRow(NamedTuple):
    """One answer of a first sitting that counts: at which position, and what it showed."""

    person_id: UUID
    position: int
    family: str
    correct: bool
    misconceptions: list[str]


class DueRow(NamedTuple):
    """An assignment as its student sees it."""

    id: UUID
    topic_set_id: UUID
    title: str
    note: str
    minutes: int | None
    pass_percent: int | None
    attempts_allowed: int
    reveal: str
    due_at: datetime | None
    assigned_at: datetime
    withdrawn_at: datetime | None
    joined_at: datetime
    extended_to: datetime | None
    last_extension: datetime | None


_SCHOOL: BindParameter[UUID] = bindparam("school_id")
_PERSON: BindParameter[UUID] = bindparam("person_id")
_ASSIGNMENT_ID: BindParameter[UUID] = bindparam("assignment_id")
_OF_SITTING = tuple(
    SITTING.c[name]
    for name in ("id", "drill_id", "assignment_id", "person_id", "number", "started_at", "ends_at", "finished_at")
)
_LAST_EXTENSION = (
    select(func.max(EXTENSION.c.due_at))
    .where(EXTENSION.c.school_id == ASSIGNMENT.c.school_id, EXTENSION.c.assignment_id == ASSIGNMENT.c.id)
    .scalar_subquery()
)
_SET_OF_ASSIGNMENT = (SET.c.school_id == ASSIGNMENT.c.school_id) & (SET.c.id == ASSIGNMENT.c.topic_set_id)


def _own_extension(person: Any) -> Any:
    same = (EXTENSION.c.school_id == ASSIGNMENT.c.school_id, EXTENSION.c.assignment_id == ASSIGNMENT.c.id)
    return select(EXTENSION.c.due_at).where(*same, EXTENSION.c.person_id == person).scalar_subquery()


BY_DRILL = (
    select(
        *_OF_SITTING,
        *(SET.c[name] for name in ("title", "language", "reveal")),
        ASSIGNMENT.c.due_at,
        ASSIGNMENT.c.withdrawn_at,
        _own_extension(SITTING.c.person_id).label("extended_to"),
        _LAST_EXTENSION.label("last_extension"),
    )
    .select_from(
        SITTING.join(
            ASSIGNMENT,
            (ASSIGNMENT.c.school_id == SITTING.c.school_id) & (ASSIGNMENT.c.id == SITTING.c.assignment_id),
        ).join(SET, _SET_OF_ASSIGNMENT)
    )
    .where(SITTING.c.school_id == _SCHOOL, SITTING.c.drill_id == bindparam("drill_id"))
)
_ITEMS = (ITEM.c.school_id == SITTING.c.school_id) & (ITEM.c.drill_id == SITTING.c.drill_id)
_ANSWERS = (ATTEMPT.c.school_id == ITEM.c.school_id) & (ATTEMPT.c.drill_item_id == ITEM.c.id)
_COUNTS = ATTEMPT.c.set_aside_at.is_(None)
_SET_ASIDE = func.count(ATTEMPT.c.set_aside_at)
_COUNTED = (
    select(
        *_OF_SITTING,
        (func.count(ITEM.c.id) - _SET_ASIDE).label("length"),
        (func.count(ATTEMPT.c.id) - _SET_ASIDE).label("answered"),
        func.sum(case((ATTEMPT.c.correct.is_(True) & _COUNTS, 1), else_=0)).label("right"),
        _SET_ASIDE.label("set_aside"),
    )
    .select_from(SITTING.join(ITEM, _ITEMS).outerjoin(ATTEMPT, _ANSWERS))
    .where(SITTING.c.school_id == _SCHOOL)
    .group_by(*_OF_SITTING)
    .order_by(SITTING.c.person_id, SITTING.c.number)
)
OF_ASSIGNMENT = _COUNTED.where(SITTING.c.assignment_id == _ASSIGNMENT_ID)
OF_PERSON = _COUNTED.where(SITTING.c.person_id == _PERSON)
ANSWERS = (
    select(SITTING.c.person_id, ITEM.c.position, *(ATTEMPT.c[name] for name in ("family", "correct", "misconceptions")))
    .select_from(SITTING.join(ITEM, _ITEMS).join(ATTEMPT, _ANSWERS))
    .where(SITTING.c.school_id == _SCHOOL, SITTING.c.assignment_id == _ASSIGNMENT_ID, SITTING.c.number == 1, _COUNTS)
    .order_by(ITEM.c.position)
)
_IN_CLASS = (
    (ENROLMENT.c.school_id == ASSIGNMENT.c.school_id)
    & (ENROLMENT.c.class_id == ASSIGNMENT.c.class_id)
    & (ENROLMENT.c.person_id == _PERSON)
    & ENROLMENT.c.left_at.is_(None)
)
_BY_NAME = (
    (ASSIGNED.c.school_id == ASSIGNMENT.c.school_id)
    & (ASSIGNED.c.assignment_id == ASSIGNMENT.c.id)
    & (ASSIGNED.c.person_id == _PERSON)
)
DUE = (
    select(
        *(ASSIGNMENT.c[name] for name in ("id", "topic_set_id", "due_at", "assigned_at", "withdrawn_at")),
        *(SET.c[name] for name in ("title", "note", "minutes", "pass_percent", "attempts_allowed", "reveal")),
        func.coalesce(ENROLMENT.c.joined_at, ASSIGNED.c.assigned_at).label("joined_at"),
        _own_extension(_PERSON).label("extended_to"),
        _LAST_EXTENSION.label("last_extension"),
    )
    .select_from(ASSIGNMENT.join(SET, _SET_OF_ASSIGNMENT).outerjoin(ENROLMENT, _IN_CLASS).outerjoin(ASSIGNED, _BY_NAME))
    .where(
        ASSIGNMENT.c.school_id == _SCHOOL,
        or_(ENROLMENT.c.person_id.is_not(None), ASSIGNED.c.person_id.is_not(None)),
    )
    .order_by(ASSIGNMENT.c.assigned_at.desc(), ASSIGNMENT.c.id)
)
DUE_ONE = DUE.where(ASSIGNMENT.c.id == _ASSIGNMENT_ID)
ADD = insert(SITTING)
_OPEN = update(SITTING).where(
    SITTING.c.school_id == bindparam("in_school"),
    SITTING.c.id == bindparam("sitting_id"),
    SITTING.c.finished_at.is_(None),
)
_UNANSWERED = select(ITEM.c.id).select_from(ITEM.outerjoin(ATTEMPT, _ANSWERS)).where(_ITEMS, ATTEMPT.c.id.is_(None))
FINISH_WHEN_ANSWERED = _OPEN.where(~_UNANSWERED.correlate(SITTING).exists())


def find_sitting(connection: Connection, school_id: UUID, drill_id: UUID) -> SittingRow | None:
    """Return the sitting that a drill is; None for one that is for practice."""
    row = connection.execute(BY_DRILL, {"school_id": school_id, "drill_id": drill_id}).mappings().first()
    return SittingRow(**row) if row else None


def list_of_assignment(connection: Connection, school_id: UUID, assignment_id: UUID) -> tuple[CountedSitting, ...]:
    """Return all sittings of an assignment, a student's together and in order."""
    rows = connection.execute(OF_ASSIGNMENT, {"school_id": school_id, "assignment_id": assignment_id}).mappings()
    return tuple(CountedSitting(**row) for row in rows)


def list_of_person(connection: Connection, school_id: UUID, person_id: UUID) -> tuple[CountedSitting, ...]:
    """Return all sittings of a student."""
    rows = connection.execute(OF_PERSON, {"school_id": school_id, "person_id": person_id}).mappings()
    return tuple(CountedSitting(**row) for row in rows)


def list_answers(connection: Connection, school_id: UUID, assignment_id: UUID) -> tuple[AnsweredRow, ...]:
    """Return what was answered in everybody's first sitting, by position."""
    rows = connection.execute(ANSWERS, {"school_id": school_id, "assignment_id": assignment_id}).mappings()
    return tuple(AnsweredRow(**row) for row in rows)


def list_due(connection: Connection, school_id: UUID, person_id: UUID) -> tuple[DueRow, ...]:
    """Return what was assigned to a student, by name or with a class they are in."""
    rows = connection.execute(DUE, {"school_id": school_id, "person_id": person_id}).mappings()
    return tuple(DueRow(**row) for row in rows)


def find_due(connection: Connection, school_id: UUID, person_id: UUID, assignment_id: UUID) -> DueRow | None:
    """Return one of a student's assignments."""
    found = {"school_id": school_id, "person_id": person_id, "assignment_id": assignment_id}
    row = connection.execute(DUE_ONE, found).mappings().first()
    return DueRow(**row) if row else None


def add_sitting(connection: Connection, sitting: Sitting) -> None:
    """Keep a sitting whose drill is kept already; raises SittingExists."""
    try:
        connection.execute(ADD, asdict(sitting))
    except IntegrityError as error:
        raise SittingExists(sitting.number) from error


def finish(connection: Connection, school_id: UUID, sitting_id: UUID, now: datetime) -> None:
    """Note when a sitting was handed in, once."""
    connection.execute(_OPEN.values(finished_at=now), {"in_school": school_id, "sitting_id": sitting_id})


def finish_when_answered(connection: Connection, school_id: UUID, sitting_id: UUID, now: datetime) -> None:
    """Note when a sitting was finished, if its last question has been answered."""
    found = {"in_school": school_id, "sitting_id": sitting_id}
    connection.execute(FINISH_WHEN_ANSWERED.values(finished_at=now), found)
