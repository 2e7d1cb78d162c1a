"""What the students of a class answered, counted, and what the learner model knows of each: for its pages."""

import json
from datetime import date, datetime
from typing import Any, NamedTuple
from uuid import UUID

from sqlalchemy import Connection, Select, Text, bindparam, case, cast, func, select, type_coerce

from app.learner.evidence import Skill
from app.storage.base import table_of
from app.storage.models import Assignment, Attempt, DrillItem, Enrolment, LearnerSkill, Person, Sitting, WeekTally
from app.storage.queries.learners import LEARNER, LearnerRow
from app.storage.types import RepeatedUuid

TALLY, SKILL, ATTEMPT, ITEM = table_of(WeekTally), table_of(LearnerSkill), table_of(Attempt), table_of(DrillItem)
ENROLMENT, PERSON = table_of(Enrolment), table_of(Person)
SITTING, ASSIGNMENT = table_of(Sitting), table_of(Assignment)
MOST_MISSED = 300


class CountRow(NamedTuple):
    """Answers of one student to one family: all of a period, and those of its latest week."""

    visit_id: UUID
    family: str
    answers: int
    correct: int
    recent_answers: int
    recent_correct: int


class KnownRow(NamedTuple):
    """What the learner model knows of one student in one family, as far as a class's pages need it."""

    visit_id: UUID
    family: str
    skill: Skill
    met: frozenset[str]


class MissedRow(NamedTuple):
    """A wrong answer of a student, as it was shown and given."""

    name: str
    visit_id: UUID
    family: str
    seed: int
    form: str
    conventions: dict[str, Any]
    shown: dict[str, Any]
    answer: dict[str, Any]
    misconceptions: list[str]
    answered_at: datetime


# Asked for by a list, not by a join: without statistics SQLite would walk through all of the school's rows.
_MEMBERS = (
    select(PERSON.c.visit_id)
    .select_from(
        ENROLMENT.join(PERSON, (PERSON.c.school_id == ENROLMENT.c.school_id) & (PERSON.c.id == ENROLMENT.c.person_id))
    )
    .where(
        ENROLMENT.c.school_id == bindparam("school_id"),
        ENROLMENT.c.class_id == bindparam("class_id"),
        ENROLMENT.c.left_at.is_(None),
        PERSON.c.left_at.is_(None),
    )
)


def _visit_of(table: Any) -> Any:
    return type_coerce(table.c.visit_id, RepeatedUuid).label("visit_id")


def _of_members(table: Any) -> Any:
    return (table.c.school_id == bindparam("school_id")) & table.c.visit_id.in_(_MEMBERS)


_RECENT = TALLY.c.week >= bindparam("recent")
COUNTS = (
    select(
        _visit_of(TALLY),
        TALLY.c.family,
        func.sum(TALLY.c.answers).label("answers"),
        func.sum(TALLY.c.correct).label("correct"),
        func.sum(case((_RECENT, TALLY.c.answers), else_=0)).label("recent_answers"),
        func.sum(case((_RECENT, TALLY.c.correct), else_=0)).label("recent_correct"),
    )
    .where(_of_members(TALLY), TALLY.c.week >= bindparam("since"))
    .group_by(TALLY.c.visit_id, TALLY.c.family)
)
_OF_ITEM = (ATTEMPT.c.school_id == ITEM.c.school_id) & (ATTEMPT.c.drill_item_id == ITEM.c.id)
_OF_SITTING = (SITTING.c.school_id == ITEM.c.school_id) & (SITTING.c.drill_id == ITEM.c.drill_id)
_OF_SET = (ASSIGNMENT.c.school_id == SITTING.c.school_id) & (ASSIGNMENT.c.id == SITTING.c.assignment_id)
_RIGHT = case((ATTEMPT.c.correct, 1), else_=0)
COUNTS_OF_SET = (
    select(
        _visit_of(ATTEMPT),
        ATTEMPT.c.family,
        func.count().label("answers"),
        func.sum(_RIGHT).label("correct"),
        func.sum(0 * _RIGHT).label("recent_answers"),
        func.sum(0 * _RIGHT).label("recent_correct"),
    )
    .select_from(ATTEMPT.join(ITEM, _OF_ITEM).join(SITTING, _OF_SITTING).join(ASSIGNMENT, _OF_SET))
    .where(
        _of_members(ATTEMPT), ASSIGNMENT.c.topic_set_id == bindparam("topic_set_id"), ATTEMPT.c.set_aside_at.is_(None)
    )
    .group_by(ATTEMPT.c.visit_id, ATTEMPT.c.family)
)
WEEKS = (
    select(TALLY.c.week, func.sum(TALLY.c.answers))
    .where(_of_members(TALLY), TALLY.c.week >= bindparam("since"))
    .group_by(TALLY.c.week)
)
LEVELS = select(LEARNER).where(_of_members(LEARNER))
_NONE: frozenset[str] = frozenset()
_NOTHING = "{}"  # what most students met in most families: not worth reading as JSON
KNOWN = select(
    _visit_of(SKILL),
    *(SKILL.c[name] for name in ("family", "mean", "answers", "correct", "last_at")),
    *(cast(SKILL.c[name], Text) for name in ("misconceptions", "met")),
).where(_of_members(SKILL))
MISSED = (
    select(PERSON.c.name, *(ATTEMPT.c[name] for name in MissedRow._fields[1:]))
    .select_from(
        ATTEMPT.join(PERSON, (PERSON.c.school_id == ATTEMPT.c.school_id) & (PERSON.c.visit_id == ATTEMPT.c.visit_id))
    )
    .where(
        _of_members(ATTEMPT),
        ATTEMPT.c.family == bindparam("family"),
        ATTEMPT.c.correct.is_(False),
        ATTEMPT.c.set_aside_at.is_(None),
    )
    .order_by(ATTEMPT.c.answered_at.desc(), ATTEMPT.c.id.desc())
    .limit(MOST_MISSED)
)


def list_counts(connection: Connection, school_id: UUID, class_id: UUID, since: date, recent: date) -> list[CountRow]:
    """Return what each student of a class answered of each family since a week's Monday."""
    return _counts(connection, COUNTS, school_id, class_id, since=since, recent=recent)


def list_counts_of_set(connection: Connection, school_id: UUID, class_id: UUID, topic_set_id: UUID) -> list[CountRow]:
    """Return what each student of a class answered of each family in the sittings of one topic set."""
    return _counts(connection, COUNTS_OF_SET, school_id, class_id, topic_set_id=topic_set_id)


def weekly_answers(connection: Connection, school_id: UUID, class_id: UUID, since: date) -> dict[date, int]:
    """Return the answers of a class by week, by its Monday, since one of them; a week without any is left out."""
    rows = connection.execute(WEEKS, {"school_id": school_id, "class_id": class_id, "since": since})
    return {week: int(answers) for week, answers in rows}


def list_levels(connection: Connection, school_id: UUID, class_id: UUID) -> list[LearnerRow]:
    """Return the level of each student of a class who answered anything."""
    rows = connection.execute(LEVELS, {"school_id": school_id, "class_id": class_id}).mappings()
    return [LearnerRow(**row) for row in rows]


def list_known(connection: Connection, school_id: UUID, class_id: UUID) -> list[KnownRow]:
    """Return what is known of every student of a class in every family they answered."""
    rows = connection.execute(KNOWN, {"school_id": school_id, "class_id": class_id}).all()
    chances = json.loads(f"[{','.join(row[6] for row in rows)}]")  # at one go: rows are many
    known = []
    for (visit_id, family, mean, answers, correct, last_at, _, met), each in zip(rows, chances, strict=True):
        skill = Skill(mean=mean, answers=answers, right=correct, last_at=last_at, misconceptions=each)
        known.append(KnownRow(visit_id, family, skill, _names_in(met)))
    return known


def _names_in(met: str) -> frozenset[str]:
    return _NONE if met == _NOTHING else frozenset(json.loads(met))


def list_missed(connection: Connection, school_id: UUID, class_id: UUID, family: str) -> list[MissedRow]:
    """Return the latest wrong answers of a class to a family."""
    rows = connection.execute(MISSED, {"school_id": school_id, "class_id": class_id, "family": family}).mappings()
    return [MissedRow(**row) for row in rows]


def _counts(connection: Connection, query: Select[Any], school_id: UUID, class_id: UUID, **more: Any) -> list[CountRow]:
    rows = connection.execute(query, {"school_id": school_id, "class_id": class_id, **more})
    return [CountRow(*row) for row in rows]
