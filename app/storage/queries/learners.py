"""The learner model's state of a visit: read, and kept with each answer."""

from collections.abc import Iterable, Sequence
from datetime import datetime
from itertools import starmap
from typing import Any, NamedTuple
from uuid import UUID

from sqlalchemy import Connection, bindparam, delete, select, update

from app.storage.base import table_of
from app.storage.models import Attempt, Learner, LearnerSkill
from app.storage.prepared import Prepared
from app.storage.upsert import Upsert

LEARNER, SKILL, ATTEMPT = table_of(Learner), table_of(LearnerSkill), table_of(Attempt)


class LearnerRow(NamedTuple):
    """A visit's level as it is kept."""

    school_id: UUID
    visit_id: UUID
    mean: float
    variance: float
    changed_at: datetime


class SkillRow(NamedTuple):
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


class KnownRow(NamedTuple):
    """A visit's level with its skill in one family; None is not known yet."""

    level: LearnerRow | None = None
    skill: SkillRow | None = None


class AnswerRow(NamedTuple):
    """What the learner model reads of a kept answer; without evidence (None) the answer says nothing to it."""

    family: str
    correct: bool
    misconceptions: list[str]
    evidence: dict[str, Any] | None
    answered_at: datetime
    drill_item_id: UUID | None = None


_OF_VISIT = ("school_id", "visit_id")
FIND_LEARNER = Prepared(select(LEARNER).where(*(LEARNER.c[name] == bindparam(name) for name in _OF_VISIT)))
_SAME_VISIT = (SKILL.c.school_id == LEARNER.c.school_id) & (SKILL.c.visit_id == LEARNER.c.visit_id)
_OF_LEVEL, _OF_SKILL = LearnerRow._fields[2:], SkillRow._fields[2:]
_SKILL_FROM = len(_OF_LEVEL)
KNOWN_COLUMNS = (*(LEARNER.c[name] for name in _OF_LEVEL), *(SKILL.c[name] for name in _OF_SKILL))
FIND_KNOWN = Prepared(
    select(*KNOWN_COLUMNS)
    .select_from(LEARNER.outerjoin(SKILL, _SAME_VISIT & (SKILL.c.family == bindparam("family"))))
    .where(*(LEARNER.c[name] == bindparam(name) for name in _OF_VISIT))
)
LIST_SKILLS = Prepared(
    select(SKILL).where(*(SKILL.c[name] == bindparam(name) for name in _OF_VISIT)).order_by(SKILL.c.family)
)
KEEP_LEARNER = Upsert(LEARNER, lambda new: {name: new[name] for name in _OF_LEVEL})
MOVE_LEARNER = Prepared(
    update(LEARNER)
    .where(
        LEARNER.c.school_id == bindparam("of_school_id"),
        LEARNER.c.visit_id == bindparam("of_visit_id"),
        LEARNER.c.mean == bindparam("before_mean"),
        LEARNER.c.changed_at == bindparam("before_changed_at"),
    )
    .values({name: bindparam(name) for name in _OF_LEVEL})
)
KEEP_SKILL = Upsert(SKILL, lambda new: {name: new[name] for name in SkillRow._fields[3:]})
FORGET = [delete(table).where(*(table.c[name] == bindparam(name) for name in _OF_VISIT)) for table in (LEARNER, SKILL)]
ANSWERS = (
    select(*(ATTEMPT.c[name] for name in AnswerRow._fields))
    .where(*(ATTEMPT.c[name] == bindparam(name) for name in _OF_VISIT), ATTEMPT.c.set_aside_at.is_(None))
    .order_by(ATTEMPT.c.answered_at, ATTEMPT.c.id)
)
VISITS_WITH_ANSWERS = (
    select(ATTEMPT.c.school_id, ATTEMPT.c.visit_id).distinct().order_by(ATTEMPT.c.school_id, ATTEMPT.c.visit_id)
)


def find_learner(connection: Connection, school_id: UUID, visit_id: UUID) -> LearnerRow | None:
    """Return a visit's level."""
    row = FIND_LEARNER.first(connection, {"school_id": school_id, "visit_id": visit_id})
    return LearnerRow(*row) if row else None


def find_known(connection: Connection, school_id: UUID, visit_id: UUID, family: str) -> KnownRow:
    """Return a visit's level and its skill in a family, in one statement."""
    row = FIND_KNOWN.first(connection, {"school_id": school_id, "visit_id": visit_id, "family": family})
    return as_known((school_id, visit_id), row) if row else KnownRow()


def as_known(of: tuple[UUID, UUID], values: Sequence[Any]) -> KnownRow:
    """Return what the values of KNOWN_COLUMNS say of a visit."""
    level, skill = values[:_SKILL_FROM], values[_SKILL_FROM:]
    if level[0] is None:
        return KnownRow()
    return KnownRow(LearnerRow(*of, *level), SkillRow(*of, *skill) if skill[0] is not None else None)


def list_skills(connection: Connection, school_id: UUID, visit_id: UUID) -> tuple[SkillRow, ...]:
    """Return every skill of a visit, by family."""
    rows = LIST_SKILLS.rows(connection, {"school_id": school_id, "visit_id": visit_id})
    return tuple(starmap(SkillRow, rows))


def keep_state(connection: Connection, learner: LearnerRow, skills: Iterable[SkillRow]) -> None:
    """Keep a visit's level and some of its skills."""
    KEEP_LEARNER.run(connection, learner._asdict())
    _keep_skills(connection, skills)


def move_state(connection: Connection, before: LearnerRow, learner: LearnerRow, skills: Iterable[SkillRow]) -> bool:
    """Keep them where the level still is what it was before; False, and nothing done, where it has moved since."""
    row = {name: getattr(learner, name) for name in _OF_LEVEL}
    row |= {"of_school_id": learner.school_id, "of_visit_id": learner.visit_id}
    row |= {"before_mean": before.mean, "before_changed_at": before.changed_at}
    if MOVE_LEARNER.run(connection, row) != 1:
        return False
    _keep_skills(connection, skills)
    return True


def _keep_skills(connection: Connection, skills: Iterable[SkillRow]) -> None:
    for skill in skills:
        KEEP_SKILL.run(connection, skill._asdict())


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
