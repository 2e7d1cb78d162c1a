"""Who teaches a class and who is in it: joining, leaving, coming back."""

from datetime import datetime
from typing import NamedTuple
from uuid import UUID

from sqlalchemy import Connection, bindparam, case, delete, select, update

from app.storage.models import Person
from app.storage.queries.classes import ENROLMENT, PERSON, TEACHES
from app.storage.upsert import Upsert


class TeacherRow(NamedTuple):
    """Somebody who teaches a class, or could."""

    person_id: UUID
    name: str


_TEACHER = (PERSON.c.school_id == TEACHES.c.school_id) & (PERSON.c.id == TEACHES.c.person_id)
TEACHERS = (
    select(PERSON.c.id.label("person_id"), PERSON.c.name)
    .select_from(TEACHES.join(PERSON, _TEACHER))
    .where(
        TEACHES.c.school_id == bindparam("school_id"),
        TEACHES.c.class_id == bindparam("class_id"),
        PERSON.c.left_at.is_(None),
    )
    .order_by(PERSON.c.name, PERSON.c.id)
)
ALL_TEACHERS = (
    select(PERSON.c.id.label("person_id"), PERSON.c.name)
    .where(PERSON.c.school_id == bindparam("school_id"), PERSON.c.role == "instructor", PERSON.c.left_at.is_(None))
    .order_by(PERSON.c.name, PERSON.c.id)
)
TEACH = Upsert(TEACHES, lambda _new: {"added_at": TEACHES.c.added_at})
STOP_TEACHING = delete(TEACHES).where(
    TEACHES.c.school_id == bindparam("of_school_id"),
    TEACHES.c.class_id == bindparam("of_class_id"),
    TEACHES.c.person_id == bindparam("of_person_id"),
)
# Whoever comes back has joined anew; somebody who never left stays as they are.
ENROL = Upsert(
    ENROLMENT,
    lambda new: {
        "joined_at": case((ENROLMENT.c.left_at.is_(None), ENROLMENT.c.joined_at), else_=new.joined_at),
        "left_at": None,
    },
)
LEAVE = (
    update(ENROLMENT)
    .where(
        ENROLMENT.c.school_id == bindparam("of_school_id"),
        ENROLMENT.c.class_id == bindparam("of_class_id"),
        ENROLMENT.c.person_id == bindparam("of_person_id"),
        ENROLMENT.c.left_at.is_(None),
    )
    .values(left_at=bindparam("now"))
)
STUDENTS_OF = (
    select(PERSON)
    .where(
        PERSON.c.school_id == bindparam("school_id"),
        PERSON.c.left_at.is_(None),
        select(ENROLMENT.c.person_id)
        .select_from(
            ENROLMENT.join(
                TEACHES, (TEACHES.c.school_id == ENROLMENT.c.school_id) & (TEACHES.c.class_id == ENROLMENT.c.class_id)
            )
        )
        .where(
            ENROLMENT.c.school_id == PERSON.c.school_id,
            ENROLMENT.c.person_id == PERSON.c.id,
            ENROLMENT.c.left_at.is_(None),
            TEACHES.c.person_id == bindparam("teacher_id"),
        )
        .exists(),
    )
    .order_by(PERSON.c.name, PERSON.c.login)
)


def list_teachers(connection: Connection, school_id: UUID, class_id: UUID) -> tuple[TeacherRow, ...]:
    """Return who teaches a class, by name; nobody who has left."""
    rows = connection.execute(TEACHERS, {"school_id": school_id, "class_id": class_id}).mappings()
    return tuple(TeacherRow(**row) for row in rows)


def list_all_teachers(connection: Connection, school_id: UUID) -> tuple[TeacherRow, ...]:
    """Return the instructors of a school, by name; nobody who has left."""
    return tuple(TeacherRow(**row) for row in connection.execute(ALL_TEACHERS, {"school_id": school_id}).mappings())


def list_students_of(connection: Connection, school_id: UUID, teacher_id: UUID) -> tuple[Person, ...]:
    """Return the students of an instructor's classes, by name; nobody who has left."""
    rows = connection.execute(STUDENTS_OF, {"school_id": school_id, "teacher_id": teacher_id}).mappings()
    return tuple(Person(**row) for row in rows)


def teach(connection: Connection, school_id: UUID, class_id: UUID, person_id: UUID, now: datetime) -> None:
    """Let an instructor teach a class, whether or not they do already."""
    TEACH.run(connection, {"school_id": school_id, "class_id": class_id, "person_id": person_id, "added_at": now})


def stop_teaching(connection: Connection, school_id: UUID, class_id: UUID, person_id: UUID) -> None:
    """Let an instructor teach a class no more."""
    connection.execute(STOP_TEACHING, _of(school_id, class_id, person_id))


def enrol(connection: Connection, school_id: UUID, class_id: UUID, person_id: UUID, now: datetime) -> None:
    """Put a student into a class, whether or not they are or were in it."""
    row = {"school_id": school_id, "class_id": class_id, "person_id": person_id, "joined_at": now, "left_at": None}
    ENROL.run(connection, row)


def leave(connection: Connection, school_id: UUID, class_id: UUID, person_id: UUID, now: datetime) -> bool:
    """Take a student out of a class; False where they were not in it."""
    return connection.execute(LEAVE, _of(school_id, class_id, person_id) | {"now": now}).rowcount == 1


def _of(school_id: UUID, class_id: UUID, person_id: UUID) -> dict[str, object]:
    return {"of_school_id": school_id, "of_class_id": class_id, "of_person_id": person_id}
