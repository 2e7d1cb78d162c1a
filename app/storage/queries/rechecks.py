"""Topic sets made from a weak spot: what was known then of each student, and what each answered since."""

from collections.abc import Sequence
from dataclasses import asdict
from datetime import datetime
from typing import Any, NamedTuple
from uuid import UUID

from sqlalchemy import Connection, and_, bindparam, case, delete, func, insert, select

from app.storage.base import table_of
from app.storage.models import Attempt, LearnerSkill, Person, Recheck, RecheckPerson, TopicSet

RECHECK, OF_PERSON, SET = table_of(Recheck), table_of(RecheckPerson), table_of(TopicSet)
PERSON, SKILL, ATTEMPT = table_of(Person), table_of(LearnerSkill), table_of(Attempt)


class ThenRow(NamedTuple):
    """What was known of a student when the set was made."""

    person_id: UUID
    chance: float | None
    answers: int
    correct: int


class StudentRow(NamedTuple):
    """A student of a set made from a weak spot: then, what they answered since, and the chances of the model now."""

    topic_set_id: UUID
    person_id: UUID
    name: str
    chance: float | None
    answers: int
    correct: int
    answers_since: int
    correct_since: int
    misconceptions: dict[str, float]


ADD, ADD_PERSON = insert(RECHECK), insert(OF_PERSON)
LIST = (
    select(RECHECK, SET.c.title)
    .select_from(
        RECHECK.join(SET, (SET.c.school_id == RECHECK.c.school_id) & (SET.c.id == RECHECK.c.topic_set_id)),
    )
    .where(RECHECK.c.school_id == bindparam("school_id"))
    .order_by(RECHECK.c.made_at.desc(), RECHECK.c.topic_set_id)
)
OF_CLASS = LIST.where(RECHECK.c.class_id == bindparam("class_id"))
OF_SET = LIST.where(RECHECK.c.topic_set_id == bindparam("topic_set_id"))
_SINCE = and_(
    ATTEMPT.c.school_id == PERSON.c.school_id,
    ATTEMPT.c.visit_id == PERSON.c.visit_id,
    ATTEMPT.c.answered_at > RECHECK.c.made_at,
    ATTEMPT.c.set_aside_at.is_(None),
    ATTEMPT.c.family == RECHECK.c.family,
    ATTEMPT.c.set_aside_at.is_(None),
)
_OF_SKILL = and_(
    SKILL.c.school_id == PERSON.c.school_id,
    SKILL.c.visit_id == PERSON.c.visit_id,
    SKILL.c.family == RECHECK.c.family,
)
_THEN = tuple(OF_PERSON.c[name] for name in ThenRow._fields)
STUDENTS = (
    select(
        OF_PERSON.c.topic_set_id,
        *_THEN,
        PERSON.c.name,
        select(func.count()).where(_SINCE).correlate(PERSON, RECHECK).scalar_subquery().label("answers_since"),
        select(func.coalesce(func.sum(case((ATTEMPT.c.correct, 1), else_=0)), 0))
        .where(_SINCE)
        .correlate(PERSON, RECHECK)
        .scalar_subquery()
        .label("correct_since"),
        SKILL.c.misconceptions,
    )
    .select_from(
        OF_PERSON.join(
            RECHECK,
            (RECHECK.c.school_id == OF_PERSON.c.school_id) & (RECHECK.c.topic_set_id == OF_PERSON.c.topic_set_id),
        )
        .join(PERSON, (PERSON.c.school_id == OF_PERSON.c.school_id) & (PERSON.c.id == OF_PERSON.c.person_id))
        .outerjoin(SKILL, _OF_SKILL)
    )
    .where(
        OF_PERSON.c.school_id == bindparam("school_id"),
        OF_PERSON.c.topic_set_id.in_(bindparam("topic_set_ids", expanding=True)),
        PERSON.c.left_at.is_(None),
    )
    .order_by(PERSON.c.name, PERSON.c.id)
)
REMOVE = delete(RECHECK).where(RECHECK.c.school_id == bindparam("school_id"), RECHECK.c.made_at < bindparam("before"))


def add_recheck(connection: Connection, recheck: Recheck, people: Sequence[ThenRow]) -> None:
    """Keep where a set came from, with what was known of each of its students."""
    connection.execute(ADD, asdict(recheck))
    of = {"school_id": recheck.school_id, "topic_set_id": recheck.topic_set_id}
    connection.execute(ADD_PERSON, [of | each._asdict() for each in people])


def list_of_class(connection: Connection, school_id: UUID, class_id: UUID) -> list[tuple[Recheck, str]]:
    """Return the sets made from weak spots of a class, each with its title, the latest first."""
    return _rows(connection.execute(OF_CLASS, {"school_id": school_id, "class_id": class_id}))


def find_of_set(connection: Connection, school_id: UUID, topic_set_id: UUID) -> tuple[Recheck, str] | None:
    """Return where a set came from, with its title; None when it was made from no weak spot."""
    rows = _rows(connection.execute(OF_SET, {"school_id": school_id, "topic_set_id": topic_set_id}))
    return rows[0] if rows else None


def list_students(connection: Connection, school_id: UUID, topic_set_ids: Sequence[UUID]) -> list[StudentRow]:
    """Return the students of some sets made from weak spots, who have not left the school, by name."""
    rows = connection.execute(STUDENTS, {"school_id": school_id, "topic_set_ids": list(topic_set_ids)}).mappings()
    return [StudentRow(**{**row, "misconceptions": row["misconceptions"] or {}}) for row in rows]


def remove_before(connection: Connection, school_id: UUID, before: datetime) -> None:
    """Forget where sets came from that were made before a moment; the sets themselves stay."""
    connection.execute(REMOVE, {"school_id": school_id, "before": before})


def _rows(found: Any) -> list[tuple[Recheck, str]]:
    return [(Recheck(*row[:-1]), row[-1]) for row in found]
