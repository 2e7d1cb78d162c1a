"""The learner model's state of a visit: read, and kept with each answer."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import Connection, bindparam, delete, select

from app.storage.base import table_of
from app.storage.models import Attempt, Learner, LearnerSkill
from app.storage.upsert import Upsert

LEARNER, SKILL, ATTEMPT = table_of(Learner), table_of(LearnerSkill), table_of(Attempt)


@dataclass(frozen=True, slots=True)
class LearnerRow:
    """A visit's level as it is kept."""

    school_id: UUID
    visit_id: UUID
    mean: float
    variance: float
    changed_at: datetime


@dataclass(frozen=True, slots=True)
class SkillRow:
    """A visit's skill in one family as it is kept."""

    school_id: UUID
    visit_id: UUID
    family: str
    mean: float
    variance: float
    answers: int
    correct: int
    last_at: datetime
    typed_right: int
    typed_right_days: list[str]
    misconceptions: dict[str, float]
    met: dict[str, dict[str, Any]]
    mastered: bool
    best: float
    since_gain: int
    due_at: datetime | None
    reviewed_at: datetime | None
    stability: float | None
    memory_difficulty: float | None
    learning_step: int | None
    memory_state: int | None
    changed_at: datetime


@dataclass(frozen=True, slots=True)
class AnswerRow:
    """What the learner model reads of a kept answer; without evidence (None) the answer says nothing to it."""

    family: str
    correct: bool
    misconceptions: list[str]
    evidence: dict[str, Any] | None
    answered_at: datetime
    drill_item_id: UUID | None = None


_OF_VISIT = ("school_id", "visit_id")
FIND_LEARNER = select(LEARNER).where(*(LEARNER.c[name] == bindparam(name) for name in _OF_VISIT))
_SAME_VISIT = (SKILL.c.school_id == LEARNER.c.school_id) & (SKILL.c.visit_id == LEARNER.c.visit_id)
FIND_BOTH = (
    select(LEARNER, SKILL)
    .select_from(LEARNER.outerjoin(SKILL, _SAME_VISIT & (SKILL.c.family == bindparam("family"))))
    .where(*(LEARNER.c[name] == bindparam(name) for name in _OF_VISIT))
)
LIST_SKILLS = select(SKILL).where(*(SKILL.c[name] == bindparam(name) for name in _OF_VISIT)).order_by(SKILL.c.family)
KEEP_LEARNER = Upsert(LEARNER, lambda new: {name: new[name] for name in LearnerRow.__slots__[2:]})
KEEP_SKILL = Upsert(SKILL, lambda new: {name: new[name] for name in SkillRow.__slots__[3:]})
FORGET = [delete(table).where(*(table.c[name] == bindparam(name) for name in _OF_VISIT)) for table in (LEARNER, SKILL)]
ANSWERS = (
    select(*(ATTEMPT.c[name] for name in AnswerRow.__slots__))
    .where(*(ATTEMPT.c[name] == bindparam(name) for name in _OF_VISIT), ATTEMPT.c.set_aside_at.is_(None))
    .order_by(ATTEMPT.c.answered_at, ATTEMPT.c.id)
)
VISITS_WITH_ANSWERS = (
    select(ATTEMPT.c.school_id, ATTEMPT.c.visit_id).distinct().order_by(ATTEMPT.c.school_id, ATTEMPT.c.visit_id)
)


def find_learner(connection: Connection, school_id: UUID, visit_id: UUID) -> LearnerRow | None:
    """Return a visit's level."""
    row = connection.execute(FIND_LEARNER, {"school_id": school_id, "visit_id": visit_id}).mappings().first()
    return LearnerRow(**row) if row else None


def find_learner_and_skill(
    connection: Connection, school_id: UUID, visit_id: UUID, family: str
) -> tuple[LearnerRow | None, SkillRow | None]:
    """Return a visit's level and its skill in a family, in one statement."""
    row = connection.execute(FIND_BOTH, {"school_id": school_id, "visit_id": visit_id, "family": family}).first()
    if row is None:
        return None, None
    level, skill = row[: len(LearnerRow.__slots__)], row[len(LearnerRow.__slots__) :]
    return LearnerRow(*level), SkillRow(*skill) if skill[0] is not None else None


def list_skills(connection: Connection, school_id: UUID, visit_id: UUID) -> tuple[SkillRow, ...]:
    """Return every skill of a visit, by family."""
    rows = connection.execute(LIST_SKILLS, {"school_id": school_id, "visit_id": visit_id}).mappings()
    return tuple(SkillRow(**row) for row in rows)


def keep_state(connection: Connection, learner: LearnerRow, skills: Iterable[SkillRow]) -> None:
    """Keep a visit's level and some of its skills."""
    KEEP_LEARNER.run(connection, {name: getattr(learner, name) for name in LearnerRow.__slots__})
    for skill in skills:
        KEEP_SKILL.run(connection, {name: getattr(skill, name) for name in SkillRow.__slots__})


def forget_state(connection: Connection, school_id: UUID, visit_id: UUID) -> None:
    """Take away all that is known of a visit."""
    for statement in FORGET:
        connection.execute(statement, {"school_id": school_id, "visit_id": visit_id})


def list_answers(connection: Connection, school_id: UUID, visit_id: UUID) -> tuple[AnswerRow, ...]:
    """Return what a visit answered, in the order in which it did, without what was set aside."""
    rows = connection.execute(ANSWERS, {"school_id": school_id, "visit_id": visit_id})
    return tuple(AnswerRow(*row) for row in rows)


def list_visits_with_answers(connection: Connection) -> tuple[tuple[UUID, UUID], ...]:
    """Return (school, visit) of everybody who answered something."""
    return tuple((row.school_id, row.visit_id) for row in connection.execute(VISITS_WITH_ANSWERS))
