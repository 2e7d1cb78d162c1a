"""Topic sets given to classes and students. Whoever asks names the school: nothing of another one is ever found."""

from collections.abc import Sequence
from dataclasses import asdict
from datetime import datetime
from typing import NamedTuple
from uuid import UUID

from sqlalchemy import BindParameter, Connection, ScalarSelect, bindparam, func, insert, select, update

from app.storage.base import table_of
from app.storage.models import AssignedPerson, Assignment, Enrolment, Extension, Person, SchoolClass, TopicSet
from app.storage.upsert import Upsert

ASSIGNMENT, SET, CLASS = table_of(Assignment), table_of(TopicSet), table_of(SchoolClass)
ASSIGNED, EXTENSION = table_of(AssignedPerson), table_of(Extension)
ENROLMENT, PERSON = table_of(Enrolment), table_of(Person)


class AssignedRow(NamedTuple):
    """An assignment as a list shows it; without a class it is for `people` students."""

    id: UUID
    topic_set_id: UUID
    title: str
    class_id: UUID | None
    class_name: str | None
    people: int
    due_at: datetime | None
    assigned_by: UUID
    assigned_at: datetime
    withdrawn_at: datetime | None


class MemberRow(NamedTuple):
    """A student an assignment is for, since when, and with their own due time where they have one."""

    person_id: UUID
    name: str
    login: str
    seen_at: datetime | None
    joined_at: datetime
    extended_to: datetime | None


_SCHOOL: BindParameter[UUID] = bindparam("school_id")
_ID: BindParameter[UUID] = bindparam("assignment_id")
FIND = select(ASSIGNMENT).where(ASSIGNMENT.c.school_id == _SCHOOL, ASSIGNMENT.c.id == _ID)
LATEST_DUE = select(func.max(EXTENSION.c.due_at)).where(
    EXTENSION.c.school_id == _SCHOOL, EXTENSION.c.assignment_id == _ID
)


def _people_of() -> ScalarSelect[int]:
    same = (ASSIGNED.c.school_id == ASSIGNMENT.c.school_id, ASSIGNED.c.assignment_id == ASSIGNMENT.c.id)
    return select(func.count()).where(*same).scalar_subquery()


_LISTED = (
    select(
        *(ASSIGNMENT.c[name] for name in ("id", "topic_set_id", "class_id", "due_at")),
        *(ASSIGNMENT.c[name] for name in ("assigned_by", "assigned_at", "withdrawn_at")),
        SET.c.title,
        CLASS.c.name.label("class_name"),
        _people_of().label("people"),
    )
    .select_from(
        ASSIGNMENT.join(
            SET, (SET.c.school_id == ASSIGNMENT.c.school_id) & (SET.c.id == ASSIGNMENT.c.topic_set_id)
        ).outerjoin(CLASS, (CLASS.c.school_id == ASSIGNMENT.c.school_id) & (CLASS.c.id == ASSIGNMENT.c.class_id))
    )
    .where(ASSIGNMENT.c.school_id == _SCHOOL)
    .order_by(ASSIGNMENT.c.assigned_at.desc(), ASSIGNMENT.c.id)
)
OF_SET = _LISTED.where(ASSIGNMENT.c.topic_set_id == bindparam("set_id"))
LATEST = _LISTED.where(ASSIGNMENT.c.withdrawn_at.is_(None)).limit(bindparam("most"))
OF_CLASS = _LISTED.where(ASSIGNMENT.c.class_id == bindparam("class_id"))

_MEMBER = (PERSON.c.id.label("person_id"), *(PERSON.c[name] for name in ("name", "login", "seen_at")))
_EXTENDED = (
    (EXTENSION.c.school_id == PERSON.c.school_id)
    & (EXTENSION.c.person_id == PERSON.c.id)
    & (EXTENSION.c.assignment_id == _ID)
)
CLASS_MEMBERS = (
    select(*_MEMBER, ENROLMENT.c.joined_at, EXTENSION.c.due_at.label("extended_to"))
    .select_from(
        ENROLMENT.join(
            PERSON, (PERSON.c.school_id == ENROLMENT.c.school_id) & (PERSON.c.id == ENROLMENT.c.person_id)
        ).outerjoin(EXTENSION, _EXTENDED)
    )
    .where(
        ENROLMENT.c.school_id == _SCHOOL,
        ENROLMENT.c.class_id == bindparam("class_id"),
        ENROLMENT.c.left_at.is_(None),
        PERSON.c.left_at.is_(None),
    )
    .order_by(PERSON.c.name, PERSON.c.login)
)
NAMED_MEMBERS = (
    select(*_MEMBER, ASSIGNED.c.assigned_at.label("joined_at"), EXTENSION.c.due_at.label("extended_to"))
    .select_from(
        ASSIGNED.join(
            PERSON, (PERSON.c.school_id == ASSIGNED.c.school_id) & (PERSON.c.id == ASSIGNED.c.person_id)
        ).outerjoin(EXTENSION, _EXTENDED)
    )
    .where(ASSIGNED.c.school_id == _SCHOOL, ASSIGNED.c.assignment_id == _ID, PERSON.c.left_at.is_(None))
    .order_by(PERSON.c.name, PERSON.c.login)
)
ADD, ADD_PERSON = insert(ASSIGNMENT), insert(ASSIGNED)
WITHDRAW = update(ASSIGNMENT).where(
    ASSIGNMENT.c.school_id == bindparam("in_school"), ASSIGNMENT.c.id == _ID, ASSIGNMENT.c.withdrawn_at.is_(None)
)
EXTEND = Upsert(EXTENSION)


def find_assignment(connection: Connection, school_id: UUID, assignment_id: UUID) -> Assignment | None:
    """Return an assignment of a school, withdrawn or not."""
    row = connection.execute(FIND, {"school_id": school_id, "assignment_id": assignment_id}).mappings().first()
    return Assignment(**row) if row else None


def list_of_set(connection: Connection, school_id: UUID, set_id: UUID) -> tuple[AssignedRow, ...]:
    """Return to whom a set was given, the latest first."""
    rows = connection.execute(OF_SET, {"school_id": school_id, "set_id": set_id}).mappings()
    return tuple(AssignedRow(**row) for row in rows)


def list_of_class(connection: Connection, school_id: UUID, class_id: UUID) -> tuple[AssignedRow, ...]:
    """Return what was given to a class, the latest first."""
    rows = connection.execute(OF_CLASS, {"school_id": school_id, "class_id": class_id}).mappings()
    return tuple(AssignedRow(**row) for row in rows)


def list_latest(connection: Connection, school_id: UUID, most: int) -> tuple[AssignedRow, ...]:
    """Return what was given out last in a school and not taken back."""
    rows = connection.execute(LATEST, {"school_id": school_id, "most": most}).mappings()
    return tuple(AssignedRow(**row) for row in rows)


def list_members(connection: Connection, assignment: Assignment) -> tuple[MemberRow, ...]:
    """Return the students an assignment is for, by name: who is in its class now, or those it names."""
    found = {"school_id": assignment.school_id, "assignment_id": assignment.id}
    if assignment.class_id is None:
        rows = connection.execute(NAMED_MEMBERS, found).mappings()
    else:
        rows = connection.execute(CLASS_MEMBERS, found | {"class_id": assignment.class_id}).mappings()
    return tuple(MemberRow(**row) for row in rows)


def add_assignment(connection: Connection, assignment: Assignment, people: Sequence[UUID]) -> None:
    """Keep an assignment to its class, or to these people."""
    connection.execute(ADD, asdict(assignment))
    of = {"school_id": assignment.school_id, "assignment_id": assignment.id, "assigned_at": assignment.assigned_at}
    if people:
        connection.execute(ADD_PERSON, [of | {"person_id": person_id} for person_id in people])


def withdraw(connection: Connection, assignment: Assignment, now: datetime) -> None:
    """Take an assignment back, once."""
    where = {"in_school": assignment.school_id, "assignment_id": assignment.id}
    connection.execute(WITHDRAW.values(withdrawn_at=now), where)


def extend(
    connection: Connection, assignment: Assignment, who: tuple[UUID, UUID], until: datetime, now: datetime
) -> None:
    """Give one student, (whom, granted by), a due time of their own, in place of an earlier one."""
    person_id, granted_by = who
    row = {"school_id": assignment.school_id, "assignment_id": assignment.id, "person_id": person_id}
    EXTEND.run(connection, row | {"due_at": until, "granted_by": granted_by, "granted_at": now})
