"""Classes of a school: the class itself, who teaches it, who is in it."""

from dataclasses import asdict
from datetime import datetime
from typing import NamedTuple
from uuid import UUID

from sqlalchemy import BindParameter, Connection, bindparam, insert, select

from app.storage.base import table_of
from app.storage.models import ClassInstructor, Enrolment, Person, SchoolClass

CLASS, TEACHES = table_of(SchoolClass), table_of(ClassInstructor)
ENROLMENT, PERSON = table_of(Enrolment), table_of(Person)


class StudentRow(NamedTuple):
    """A student as a class lists them; `visit_id` is where what they answer is kept."""

    person_id: UUID
    visit_id: UUID
    name: str
    login: str
    joined_at: datetime
    seen_at: datetime | None


_OF_SCHOOL: BindParameter[UUID] = bindparam("school_id")
_OF_CLASS: BindParameter[UUID] = bindparam("class_id")
FIND = select(CLASS).where(CLASS.c.school_id == _OF_SCHOOL, CLASS.c.id == _OF_CLASS)
ADD = insert(CLASS)
ADD_INSTRUCTOR, ADD_STUDENT = insert(TEACHES), insert(ENROLMENT)
TEACHING = select(TEACHES.c.class_id).where(
    TEACHES.c.school_id == _OF_SCHOOL, TEACHES.c.person_id == bindparam("person_id")
)
ATTENDING = select(ENROLMENT.c.class_id).where(
    ENROLMENT.c.school_id == _OF_SCHOOL, ENROLMENT.c.person_id == bindparam("person_id"), ENROLMENT.c.left_at.is_(None)
)
STUDENTS = (
    select(
        ENROLMENT.c.person_id,
        *(PERSON.c[name] for name in ("visit_id", "name", "login", "seen_at")),
        ENROLMENT.c.joined_at,
    )
    .select_from(
        ENROLMENT.join(PERSON, (PERSON.c.school_id == ENROLMENT.c.school_id) & (PERSON.c.id == ENROLMENT.c.person_id))
    )
    .where(
        ENROLMENT.c.school_id == _OF_SCHOOL,
        ENROLMENT.c.class_id == _OF_CLASS,
        ENROLMENT.c.left_at.is_(None),
        PERSON.c.left_at.is_(None),
    )
    .order_by(PERSON.c.name, PERSON.c.login)
)


def find_class(connection: Connection, school_id: UUID, class_id: UUID) -> SchoolClass | None:
    """Return a class of a school."""
    row = connection.execute(FIND, {"school_id": school_id, "class_id": class_id}).mappings().first()
    return SchoolClass(**row) if row else None


def add_class(connection: Connection, school_class: SchoolClass) -> None:
    """Keep a new class."""
    connection.execute(ADD, asdict(school_class))


def add_instructor(connection: Connection, school_id: UUID, class_id: UUID, person_id: UUID, now: datetime) -> None:
    """Let an instructor teach a class they do not teach yet."""
    row = {"school_id": school_id, "class_id": class_id, "person_id": person_id, "added_at": now}
    connection.execute(ADD_INSTRUCTOR, row)


def add_student(connection: Connection, school_id: UUID, class_id: UUID, person_id: UUID, now: datetime) -> None:
    """Put a student into a class they were never in."""
    row = {"school_id": school_id, "class_id": class_id, "person_id": person_id, "joined_at": now}
    connection.execute(ADD_STUDENT, row)


def list_taught(connection: Connection, school_id: UUID, person_id: UUID) -> frozenset[UUID]:
    """Return the classes an instructor teaches."""
    return frozenset(connection.scalars(TEACHING, {"school_id": school_id, "person_id": person_id}))


def list_attended(connection: Connection, school_id: UUID, person_id: UUID) -> frozenset[UUID]:
    """Return the classes a student is in."""
    return frozenset(connection.scalars(ATTENDING, {"school_id": school_id, "person_id": person_id}))


def list_students(connection: Connection, school_id: UUID, class_id: UUID) -> tuple[StudentRow, ...]:
    """Return who is in a class now, by name."""
    rows = connection.execute(STUDENTS, {"school_id": school_id, "class_id": class_id}).mappings()
    return tuple(StudentRow(**row) for row in rows)
