"""Who is in a class and who teaches it: adding, taking out, moving. History goes with the student."""

from datetime import datetime
from uuid import UUID

from sqlalchemy import Connection

from app.services.actor import Actor, Role
from app.services.audit import note
from app.services.class_access import taught_class
from app.services.errors import Conflict, Invalid, NotAllowed, NotFound
from app.services.messages import say
from app.storage.models import Person
from app.storage.queries import classes, memberships, people
from app.storage.unit_of_work import UnitOfWork


def add_teacher(uow: UnitOfWork, actor: Actor, class_id: UUID, person_id: UUID, now: datetime) -> None:
    """Let another instructor of the school teach a class too; NotFound for anybody who is no instructor there."""
    with uow.writer() as connection:
        known = taught_class(connection, actor, class_id)
        person = people.find_person(connection, actor.school_id, person_id)
        if person is None or person.left_at is not None or person.role != Role.INSTRUCTOR:
            raise NotFound(person_id)
        memberships.teach(connection, actor.school_id, class_id, person_id, now)
        note(connection, actor, "teacher-added", person.name, now, school_class=known.name)


def remove_teacher(uow: UnitOfWork, actor: Actor, class_id: UUID, person_id: UUID, now: datetime) -> None:
    """Let an instructor teach a class no more; Conflict for the last one: nobody would look after the class."""
    with uow.writer() as connection:
        known = taught_class(connection, actor, class_id)
        teachers = memberships.list_teachers(connection, actor.school_id, class_id)
        found = next((each for each in teachers if each.person_id == person_id), None)
        if found is None:
            raise NotFound(person_id)
        if len(teachers) == 1:
            raise Conflict(say("last-teacher", actor.language, name=found.name))
        memberships.stop_teaching(connection, actor.school_id, class_id, person_id)
        note(connection, actor, "teacher-removed", found.name, now, school_class=known.name)


def add_student(uow: UnitOfWork, actor: Actor, class_id: UUID, login: str, now: datetime) -> Person:
    """Put a student of the school, named by login, into a class too; Invalid when there is none of this login."""
    with uow.writer() as connection:
        known = taught_class(connection, actor, class_id)
        person = people.find_person_by_login(connection, actor.school_id, login.strip().lower())
        if person is None or person.left_at is not None or person.role != Role.STUDENT:
            raise Invalid(say("no-student", actor.language, value=login), "login")
        memberships.enrol(connection, actor.school_id, class_id, person.id, now)
        note(connection, actor, "student-added", person.name, now, school_class=known.name)
    return person


def remove_student(uow: UnitOfWork, actor: Actor, class_id: UUID, person_id: UUID, now: datetime) -> Person:
    """Take a student out of a class; account and answers stay. NotFound when they are not in it."""
    with uow.writer() as connection:
        known = taught_class(connection, actor, class_id)
        person = _leave(connection, actor, class_id, person_id, now)
        note(connection, actor, "student-removed", person.name, now, school_class=known.name)
    return person


def move_student(uow: UnitOfWork, actor: Actor, person_id: UUID, classes_: tuple[UUID, UUID], now: datetime) -> Person:
    """Move a student from one class of the school to another: for the school alone."""
    if actor.role is not Role.SCHOOL:
        raise NotAllowed(person_id)
    source, goal = classes_
    with uow.writer() as connection:
        old, new = taught_class(connection, actor, source), taught_class(connection, actor, goal)
        person = _leave(connection, actor, source, person_id, now)
        memberships.enrol(connection, actor.school_id, goal, person_id, now)
        note(connection, actor, "student-moved", person.name, now, source=old.name, goal=new.name)
    return person


def is_taught_by(connection: Connection, actor: Actor, person_id: UUID) -> bool:
    """Whether a student is in one of the classes an instructor teaches."""
    taught = classes.list_taught(connection, actor.school_id, actor.own_person)
    return bool(taught & classes.list_attended(connection, actor.school_id, person_id))


def _leave(connection: Connection, actor: Actor, class_id: UUID, person_id: UUID, now: datetime) -> Person:
    person = people.find_person(connection, actor.school_id, person_id)
    if person is None or not memberships.leave(connection, actor.school_id, class_id, person_id, now):
        raise NotFound(person_id)
    return person
