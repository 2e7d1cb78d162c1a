"""Giving a topic set to classes and students, extending it for one of them, and taking it back."""

from collections.abc import Sequence
from datetime import datetime
from typing import NamedTuple
from uuid import UUID
from zoneinfo import ZoneInfo

from sqlalchemy import Connection

from app.services import audit
from app.services.actor import Actor, Role
from app.services.class_access import taught_class
from app.services.due_times import future_moment
from app.services.errors import Conflict, Invalid, NotAllowed, NotFound
from app.services.messages import say
from app.services.reveal import AFTER_DUE
from app.services.set_access import TEACHING, keep_changes, school_set
from app.storage.ids import new_id
from app.storage.models import Assignment, SchoolClass, TopicSet
from app.storage.queries import assignments, class_lists, classes
from app.storage.queries.assignments import AssignedRow, MemberRow
from app.storage.queries.class_lists import ListedClassRow
from app.storage.queries.classes import StudentRow
from app.storage.unit_of_work import UnitOfWork

LATEST = 40


class AssignWish(NamedTuple):
    """To whom, and when it is due: a local day and time of a zone; no day, no due time."""

    classes: tuple[UUID, ...] = ()
    people: tuple[UUID, ...] = ()
    due_day: str = ""
    due_time: str = ""
    time_zone: str = ""


class Assignable(NamedTuple):
    """Whom an actor may give sets to: the classes they teach, each with its students."""

    classes: tuple[tuple[ListedClassRow, tuple[StudentRow, ...]], ...]


def list_assignable(uow: UnitOfWork, actor: Actor) -> Assignable:
    """Return the classes the actor teaches (the school's administrator: all of the school), with their students."""
    with uow.reader() as connection:
        rows = _classes_of(connection, actor)
        return Assignable(tuple((row, classes.list_students(connection, actor.school_id, row.id)) for row in rows))


def list_running(uow: UnitOfWork, actor: Actor) -> Sequence[AssignedRow]:
    """Return what the actor's classes and students were given last and still have."""
    with uow.reader() as connection:
        taught = {row.id for row in _classes_of(connection, actor)}
        given = assignments.list_latest(connection, actor.school_id, LATEST)
    return [row for row in given if row.class_id in taught or (row.class_id is None and _gave(actor, row))]


def assign_set(uow: UnitOfWork, actor: Actor, set_id: UUID, wish: AssignWish, now: datetime) -> Sequence[UUID]:
    """Give a set to classes and students, all or none; its items are locked from then on.

    NotFound or NotAllowed for a class or student that is not the actor's to teach; Invalid for a due time that cannot
    be, or for nobody; Conflict for a class that has it already.
    """
    zone = wish.time_zone or actor.time_zone
    due_at = future_moment(wish.due_day, wish.due_time, zone, actor.language, now) if wish.due_day.strip() else None
    if not wish.classes and not wish.people:
        raise Invalid(say("nobody-to-assign", actor.language), "classes")
    with uow.writer() as connection:
        row = school_set(connection, actor, set_id)
        if row.reveal == AFTER_DUE and due_at is None:
            raise Invalid(say("due-wanted", actor.language), "due_day")
        groups = [(class_id, ()) for class_id in _new_classes(connection, actor, row, wish.classes)]
        if wish.people:
            _check_people(connection, actor, wish.people)
            groups.append((None, tuple(dict.fromkeys(wish.people))))  # type: ignore[arg-type] # no class, some people
        made = []
        for class_id, people in groups:
            made.append(new_id(now))
            assignment = Assignment(actor.school_id, made[-1], set_id, class_id, due_at, zone, actor.own_person, now)
            assignments.add_assignment(connection, assignment, people)
        if row.locked_at is None:
            keep_changes(connection, actor, row, {"locked_at": now})
        audit.note(connection, actor, "set-assigned", row.title, now, due_at=due_at.isoformat() if due_at else None)
    return made


def list_assignments(uow: UnitOfWork, actor: Actor, set_id: UUID) -> Sequence[AssignedRow]:
    """Return to whom a set of the actor's school was given."""
    with uow.reader() as connection:
        school_set(connection, actor, set_id)
        return assignments.list_of_set(connection, actor.school_id, set_id)


def list_class_assignments(uow: UnitOfWork, actor: Actor, class_id: UUID) -> tuple[SchoolClass, Sequence[AssignedRow]]:
    """Return what was given to a class the actor teaches."""
    with uow.reader() as connection:
        found = taught_class(connection, actor, class_id)
        return found, assignments.list_of_class(connection, actor.school_id, class_id)


def own_assignment(connection: Connection, actor: Actor, assignment_id: UUID) -> Assignment:
    """Return an assignment to a class the actor teaches, or that the actor gave to students.

    NotFound for another school's and for whoever does not teach, NotAllowed for another instructor's.
    """
    found = assignments.find_assignment(connection, actor.school_id, assignment_id)
    if found is None or actor.role not in TEACHING:
        raise NotFound(assignment_id)
    if found.class_id is not None:
        taught_class(connection, actor, found.class_id)
    elif not _gave(actor, found):
        raise NotAllowed(assignment_id)
    return found


def extend_for(uow: UnitOfWork, actor: Actor, assignment_id: UUID, who: tuple[UUID, str, str], now: datetime) -> None:
    """Give one student, (id, day and time of the school), until later; NotFound when it is not for them.

    Invalid for a time that cannot be, has passed or is no later than the due time.
    """
    person_id, day, clock = who
    with uow.writer() as connection:
        assignment = own_assignment(connection, actor, assignment_id)
        member = _member(connection, assignment, person_id)
        if assignment.due_at is None:
            raise Conflict(say("nothing-to-extend", actor.language))
        until = future_moment(day, clock, actor.time_zone, actor.language, now)
        if until <= assignment.due_at:
            due = f"{assignment.due_at.astimezone(ZoneInfo(actor.time_zone)):%Y-%m-%d %H:%M}"
            raise Invalid(say("extension-earlier", actor.language, value=due), "due_day")
        assignments.extend(connection, assignment, (person_id, actor.own_person), until, now)
        audit.note(connection, actor, "set-extended", member.name, now, until=until.isoformat())


def withdraw(uow: UnitOfWork, actor: Actor, assignment_id: UUID, now: datetime) -> None:
    """Take an assignment back; what was answered stays, and a second time changes nothing."""
    with uow.writer() as connection:
        assignment = own_assignment(connection, actor, assignment_id)
        assignments.withdraw(connection, assignment, now)
        title = school_set(connection, actor, assignment.topic_set_id).title
        audit.note(connection, actor, "set-withdrawn", title, now)


def _new_classes(connection: Connection, actor: Actor, row: TopicSet, wanted: Sequence[UUID]) -> Sequence[UUID]:
    there = assignments.list_of_set(connection, actor.school_id, row.id)
    given = {each.class_id for each in there if each.withdrawn_at is None}
    chosen = tuple(dict.fromkeys(wanted))
    for class_id in chosen:
        found = taught_class(connection, actor, class_id)
        if class_id in given:
            raise Conflict(say("assigned-before", actor.language, value=found.name))
    return chosen


def _check_people(connection: Connection, actor: Actor, wanted: Sequence[UUID]) -> None:
    """Refuse whoever is in no class that the actor teaches."""
    known = {
        student.person_id
        for row in _classes_of(connection, actor)
        for student in classes.list_students(connection, actor.school_id, row.id)
    }
    for person_id in wanted:
        if person_id not in known:
            raise NotFound(person_id)


def _classes_of(connection: Connection, actor: Actor) -> Sequence[ListedClassRow]:
    if actor.role is Role.SCHOOL:
        rows = class_lists.list_classes(connection, actor.school_id)
    else:
        rows = class_lists.list_classes_taught(connection, actor.school_id, actor.own_person)
    return [row for row in rows if row.archived_at is None]


def _gave(actor: Actor, row: AssignedRow | Assignment) -> bool:
    return actor.role is Role.SCHOOL or row.assigned_by == actor.person_id


def _member(connection: Connection, assignment: Assignment, person_id: UUID) -> MemberRow:
    for member in assignments.list_members(connection, assignment):
        if member.person_id == person_id:
            return member
    raise NotFound(person_id)
