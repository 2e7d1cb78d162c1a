"""Classes: making, naming and archiving them, and the code with which students join."""

import secrets
from datetime import datetime, timedelta
from typing import Any, NamedTuple
from uuid import UUID

from sqlalchemy import Connection

from app.services.actor import Actor, Role
from app.services.audit import note
from app.services.class_access import taught_class
from app.services.errors import Conflict, Invalid
from app.services.messages import say
from app.services.passwords import CODE_LETTERS
from app.services.schools import checked_name
from app.storage.ids import new_id
from app.storage.models import SchoolClass
from app.storage.queries import class_lists, classes, memberships, schools
from app.storage.queries.class_lists import ClassChanged, ListedClassRow
from app.storage.queries.classes import StudentRow
from app.storage.queries.memberships import TeacherRow
from app.storage.unit_of_work import UnitOfWork

JOIN_CODE_LENGTH = 8
JOINING_DAYS = (1, 7, 30, 120)


class ClassView(NamedTuple):
    """A class with its people; `others` are instructors of the school who could teach it too."""

    row: SchoolClass
    school_code: str
    students: tuple[StudentRow, ...]
    teachers: tuple[TeacherRow, ...]
    others: tuple[TeacherRow, ...]
    joinable: bool


def list_classes(uow: UnitOfWork, actor: Actor) -> tuple[ListedClassRow, ...]:
    """Return the classes an instructor teaches, or all of the school for its administrator."""
    with uow.reader() as connection:
        if actor.role is Role.SCHOOL:
            return class_lists.list_classes(connection, actor.school_id)
        return class_lists.list_classes_taught(connection, actor.school_id, actor.own_person)


def make_class(uow: UnitOfWork, actor: Actor, name: str, now: datetime) -> UUID:
    """Make a class, taught by the instructor who makes it; Invalid for what is no name."""
    row = SchoolClass(actor.school_id, new_id(now), checked_name(name, actor.language, "name"), now)
    with uow.writer() as connection:
        classes.add_class(connection, row)
        if actor.role is Role.INSTRUCTOR:
            memberships.teach(connection, actor.school_id, row.id, actor.own_person, now)
        note(connection, actor, "class-made", row.name, now)
    return row.id


def get_class(uow: UnitOfWork, actor: Actor, class_id: UUID, now: datetime) -> ClassView:
    """Return a class the actor looks after, with its people."""
    with uow.reader() as connection:
        row = taught_class(connection, actor, class_id)
        school = schools.find_school(connection, actor.school_id)
        teachers = memberships.list_teachers(connection, actor.school_id, class_id)
        everybody = memberships.list_all_teachers(connection, actor.school_id)
        students = classes.list_students(connection, actor.school_id, class_id)
    known = {each.person_id for each in teachers}
    others = tuple(each for each in everybody if each.person_id not in known)
    code = school.code if school else ""
    return ClassView(row, code, students, teachers, others, may_be_joined(row, now))


def rename_class(uow: UnitOfWork, actor: Actor, class_id: UUID, version: int, name: str, now: datetime) -> None:
    """Give a class another name."""
    new_name = checked_name(name, actor.language, "name")
    with uow.writer() as connection:
        known = _at_version(connection, actor, class_id, version)
        _change(connection, actor, known, name=new_name)
        note(connection, actor, "class-renamed", new_name, now, before=known.name)


def archive_class(uow: UnitOfWork, actor: Actor, class_id: UUID, version: int, now: datetime) -> None:
    """Put a class away, which ends joining, or bring it back when it was put away; nothing of it is lost."""
    with uow.writer() as connection:
        known = _at_version(connection, actor, class_id, version)
        back = known.archived_at is not None
        _change(connection, actor, known, archived_at=None if back else now, join_code=None, joining_ends_at=None)
        note(connection, actor, "class-brought-back" if back else "class-archived", known.name, now)


def open_joining(uow: UnitOfWork, actor: Actor, class_id: UUID, version: int, days: int, now: datetime) -> None:
    """Let students join by a new code for some days; the code before it opens nothing any more."""
    if days not in JOINING_DAYS:
        accepted = ", ".join(map(str, JOINING_DAYS))
        raise Invalid(say("joining-days", actor.language, value=days, accepted=accepted), "days")
    code = "".join(secrets.choice(CODE_LETTERS) for _ in range(JOIN_CODE_LENGTH))
    with uow.writer() as connection:
        known = _at_version(connection, actor, class_id, version)
        if known.archived_at is not None:
            raise Conflict(say("class-archived", actor.language, name=known.name))
        _change(connection, actor, known, join_code=code, joining_ends_at=now + timedelta(days=days))
        note(connection, actor, "joining-opened", known.name, now, days=days)


def close_joining(uow: UnitOfWork, actor: Actor, class_id: UUID, version: int, now: datetime) -> None:
    """Let nobody join any more."""
    with uow.writer() as connection:
        known = _at_version(connection, actor, class_id, version)
        _change(connection, actor, known, join_code=None, joining_ends_at=None)
        note(connection, actor, "joining-closed", known.name, now)


def may_be_joined(row: SchoolClass, now: datetime) -> bool:
    """Whether the class's code lets students join at this moment."""
    open_until = row.joining_ends_at
    return row.join_code is not None and row.archived_at is None and open_until is not None and now < open_until


def _at_version(connection: Connection, actor: Actor, class_id: UUID, version: int) -> SchoolClass:
    known = taught_class(connection, actor, class_id)
    if known.version != version:
        raise Conflict(say("class-changed", actor.language, name=known.name))
    return known


def _change(connection: Connection, actor: Actor, known: SchoolClass, **changes: Any) -> None:
    try:
        class_lists.change_class(connection, known, changes)
    except ClassChanged as error:
        raise Conflict(say("class-changed", actor.language, name=known.name)) from error
