"""Classes as lists show them, and changing a class at the version at hand."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any, NamedTuple
from uuid import UUID

from sqlalchemy import Connection, bindparam, func, select, update

from app.storage.models import SchoolClass
from app.storage.queries.classes import CLASS, ENROLMENT, PERSON, TEACHES


class ClassChanged(Exception):
    """Somebody has changed the class since the version at hand."""


class ListedClassRow(NamedTuple):
    """A class with how many students are in it now."""

    id: UUID
    name: str
    archived_at: datetime | None
    students: int


_COUNT = (
    select(func.count())
    .select_from(
        ENROLMENT.join(PERSON, (PERSON.c.school_id == ENROLMENT.c.school_id) & (PERSON.c.id == ENROLMENT.c.person_id))
    )
    .where(
        ENROLMENT.c.school_id == CLASS.c.school_id,
        ENROLMENT.c.class_id == CLASS.c.id,
        ENROLMENT.c.left_at.is_(None),
        PERSON.c.left_at.is_(None),
    )
    .scalar_subquery()
)
ALL = (
    select(CLASS.c.id, CLASS.c.name, CLASS.c.archived_at, _COUNT.label("students"))
    .where(CLASS.c.school_id == bindparam("school_id"))
    .order_by(CLASS.c.name, CLASS.c.id)
)
_MINE = (TEACHES.c.school_id == CLASS.c.school_id) & (TEACHES.c.class_id == CLASS.c.id)
TAUGHT = ALL.join(TEACHES, _MINE).where(TEACHES.c.person_id == bindparam("person_id"))
_MEMBER = (ENROLMENT.c.school_id == CLASS.c.school_id) & (ENROLMENT.c.class_id == CLASS.c.id)
ATTENDED = ALL.join(ENROLMENT, _MEMBER).where(
    ENROLMENT.c.person_id == bindparam("person_id"), ENROLMENT.c.left_at.is_(None)
)
FIND_BY_JOIN_CODE = select(CLASS).where(
    CLASS.c.school_id == bindparam("school_id"), CLASS.c.join_code == bindparam("join_code")
)
CHANGE = update(CLASS).where(
    CLASS.c.school_id == bindparam("of_school_id"),
    CLASS.c.id == bindparam("of_id"),
    CLASS.c.version == bindparam("known_version"),
)


def list_classes(connection: Connection, school_id: UUID) -> tuple[ListedClassRow, ...]:
    """Return all classes of a school by name."""
    return _listed(connection, ALL, {"school_id": school_id})


def list_classes_taught(connection: Connection, school_id: UUID, person_id: UUID) -> tuple[ListedClassRow, ...]:
    """Return the classes an instructor teaches."""
    return _listed(connection, TAUGHT, {"school_id": school_id, "person_id": person_id})


def list_classes_attended(connection: Connection, school_id: UUID, person_id: UUID) -> tuple[ListedClassRow, ...]:
    """Return the classes a student is in."""
    return _listed(connection, ATTENDED, {"school_id": school_id, "person_id": person_id})


def find_class_by_join_code(connection: Connection, school_id: UUID, join_code: str) -> SchoolClass | None:
    """Return the class of a school that is joined with this code, whether or not it still holds."""
    row = connection.execute(FIND_BY_JOIN_CODE, {"school_id": school_id, "join_code": join_code}).mappings().first()
    return SchoolClass(**row) if row else None


def change_class(connection: Connection, known: SchoolClass, changes: Mapping[str, Any]) -> None:
    """Change a class that still has the version at hand; raises ClassChanged, then nothing is changed."""
    where = {"of_school_id": known.school_id, "of_id": known.id, "known_version": known.version}
    if connection.execute(CHANGE.values(**changes, version=known.version + 1), where).rowcount != 1:
        raise ClassChanged(known.id)


def _listed(connection: Connection, statement: Any, found: Mapping[str, Any]) -> tuple[ListedClassRow, ...]:
    return tuple(ListedClassRow(**row) for row in connection.execute(statement, found).mappings())
