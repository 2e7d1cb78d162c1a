"""A school's own questions: what is being written, what is asked, and counting each change of what is asked."""

from collections.abc import Mapping, Sequence
from dataclasses import asdict
from datetime import datetime
from typing import Any, NamedTuple
from uuid import UUID

from sqlalchemy import Connection, bindparam, func, insert, select, update
from sqlalchemy.exc import IntegrityError

from app.storage.base import table_of
from app.storage.models import OwnQuestion, OwnVersion, Person, School

QUESTION, VERSION, SCHOOL, PERSON = table_of(OwnQuestion), table_of(OwnVersion), table_of(School), table_of(Person)


class OwnChanged(Exception):
    """Somebody has changed or released the version at hand meanwhile."""


class AskedRow(NamedTuple):
    """The version of a question that is asked, or was until the question was retired."""

    question_id: UUID
    version: int
    body: Mapping[str, Any]
    retired: bool


_OF_SCHOOL = VERSION.c.school_id == bindparam("school_id")
_RELEASED = (
    select(VERSION.c.question_id, func.max(VERSION.c.version).label("version"))
    .where(_OF_SCHOOL, VERSION.c.released_at.is_not(None))
    .group_by(VERSION.c.question_id)
    .subquery("released")
)
LIST_ASKED = (
    select(VERSION.c.question_id, VERSION.c.version, VERSION.c.body, QUESTION.c.retired_at.is_not(None))
    .select_from(
        VERSION.join(
            _RELEASED, (VERSION.c.question_id == _RELEASED.c.question_id) & (VERSION.c.version == _RELEASED.c.version)
        ).join(QUESTION, (QUESTION.c.school_id == VERSION.c.school_id) & (QUESTION.c.id == VERSION.c.question_id))
    )
    .where(_OF_SCHOOL)
    .order_by(VERSION.c.question_id)
)
LIST_QUESTIONS = select(QUESTION).where(QUESTION.c.school_id == bindparam("school_id")).order_by(QUESTION.c.id)
LIST_VERSIONS = select(VERSION).where(_OF_SCHOOL).order_by(VERSION.c.question_id, VERSION.c.version)
FIND = select(QUESTION).where(QUESTION.c.school_id == bindparam("school_id"), QUESTION.c.id == bindparam("question_id"))
LIST_OF = (
    select(VERSION).where(_OF_SCHOOL, VERSION.c.question_id == bindparam("question_id")).order_by(VERSION.c.version)
)
NAMES = select(PERSON.c.id, PERSON.c.name).where(PERSON.c.school_id == bindparam("school_id"))
ADD, ADD_VERSION = insert(QUESTION), insert(VERSION)
CHANGE_VERSION = update(VERSION).where(
    VERSION.c.school_id == bindparam("of_school_id"),
    VERSION.c.question_id == bindparam("of_question_id"),
    VERSION.c.version == bindparam("of_version"),
    VERSION.c.edits == bindparam("known_edits"),
    VERSION.c.released_at.is_(None),
)
RETIRE = (
    update(QUESTION)
    .where(QUESTION.c.school_id == bindparam("of_school_id"), QUESTION.c.id == bindparam("of_id"))
    .values(retired_at=bindparam("retired_at"))
)
COUNT = update(SCHOOL).where(SCHOOL.c.id == bindparam("of_id")).values(own_revision=SCHOOL.c.own_revision + 1)
COUNT_OTHERS = select(func.count()).where(
    PERSON.c.school_id == bindparam("school_id"),
    PERSON.c.id != bindparam("person_id"),
    PERSON.c.role != "student",
    PERSON.c.left_at.is_(None),
)
REVISION = select(SCHOOL.c.own_revision).where(SCHOOL.c.id == bindparam("school_id"))


def list_asked(connection: Connection, school_id: UUID) -> tuple[AskedRow, ...]:
    """Return what a school asks of its own: of each question the latest released version, retired ones too."""
    return tuple(AskedRow(*row) for row in connection.execute(LIST_ASKED, {"school_id": school_id}))


def list_all(connection: Connection, school_id: UUID) -> tuple[tuple[OwnQuestion, Sequence[OwnVersion]], ...]:
    """Return every question of a school with its versions, the oldest first."""
    found = {"school_id": school_id}
    versions: dict[UUID, list[OwnVersion]] = {}
    for row in connection.execute(LIST_VERSIONS, found).mappings():
        versions.setdefault(row["question_id"], []).append(OwnVersion(**row))
    questions = [OwnQuestion(**row) for row in connection.execute(LIST_QUESTIONS, found).mappings()]
    return tuple((each, versions[each.id]) for each in questions)


def find(connection: Connection, school_id: UUID, question_id: UUID) -> OwnQuestion | None:
    """Return a question of a school."""
    row = connection.execute(FIND, {"school_id": school_id, "question_id": question_id}).mappings().first()
    return OwnQuestion(**row) if row else None


def list_versions(connection: Connection, school_id: UUID, question_id: UUID) -> tuple[OwnVersion, ...]:
    """Return the versions of a question, the oldest first."""
    found = {"school_id": school_id, "question_id": question_id}
    return tuple(OwnVersion(**row) for row in connection.execute(LIST_OF, found).mappings())


def names(connection: Connection, school_id: UUID) -> Mapping[UUID, str]:
    """Return what the people of a school are called, those who have left too."""
    rows = connection.execute(NAMES, {"school_id": school_id})
    return {row.id: row.name for row in rows}


def add_question(connection: Connection, question: OwnQuestion) -> None:
    """Keep a new question; its first version comes besides."""
    connection.execute(ADD, asdict(question))


def add_version(connection: Connection, version: OwnVersion) -> None:
    """Keep a new version; raises OwnChanged where somebody else has begun the same."""
    try:
        connection.execute(ADD_VERSION, asdict(version))
    except IntegrityError as error:
        raise OwnChanged(version.question_id) from error


def change_version(connection: Connection, known: OwnVersion, changes: Mapping[str, Any]) -> None:
    """Change a version that is as it was read and not released; raises OwnChanged."""
    of = {"of_school_id": known.school_id, "of_question_id": known.question_id, "of_version": known.version}
    done = connection.execute(CHANGE_VERSION.values(changes), of | {"known_edits": known.edits})
    if done.rowcount == 0:
        raise OwnChanged(known.question_id)


def retire(connection: Connection, school_id: UUID, question_id: UUID, retired_at: datetime | None) -> None:
    """Ask a question no more, or (None) again."""
    connection.execute(RETIRE, {"of_school_id": school_id, "of_id": question_id, "retired_at": retired_at})


def count_change(connection: Connection, school_id: UUID) -> None:
    """Note that what a school asks of its own has changed."""
    connection.execute(COUNT, {"of_id": school_id})


def find_revision(connection: Connection, school_id: UUID) -> int:
    """Return how often that has been noted; 0 for a school there is not."""
    return connection.scalar(REVISION, {"school_id": school_id}) or 0


def others_who_teach(connection: Connection, school_id: UUID, person_id: UUID) -> int:
    """Return how many others of a school teach, or run it, and have not left."""
    return connection.scalar(COUNT_OTHERS, {"school_id": school_id, "person_id": person_id}) or 0
