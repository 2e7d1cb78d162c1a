"""What answers add up to, family by family and set by set: read by the nightly command, and kept for the pages."""

from dataclasses import asdict
from datetime import datetime
from typing import Any, NamedTuple
from uuid import UUID

from sqlalchemy import Connection, bindparam, case, delete, func, select

from app.storage.base import table_of
from app.storage.models import (
    Assignment,
    Attempt,
    DrillItem,
    FamilyQuality,
    QualityRun,
    School,
    SetQuality,
    Sitting,
    TopicSet,
    WeekTally,
)
from app.storage.upsert import Upsert

QUALITY, RUN, OF_SET = table_of(FamilyQuality), table_of(QualityRun), table_of(SetQuality)
ATTEMPT, TALLY, ITEM, SCHOOL = table_of(Attempt), table_of(WeekTally), table_of(DrillItem), table_of(School)
SITTING, ASSIGNMENT, SET = table_of(Sitting), table_of(Assignment), table_of(TopicSet)
SUMS = ("answers", "correct", "timed", "took_ms")
BATCH = 2000


class SumsRow(NamedTuple):
    """A family's answers in a school, counted from the tallies; `rest_*` as the table says."""

    family: str
    answers: int
    correct: int
    timed: int
    took_ms: int
    rest_answers: int
    rest_correct: int
    rest_sum: float
    rest_squares: float
    rest_products: float


class CountedAttempt(NamedTuple):
    """What is counted of one attempt, and what it is drawn from."""

    id: UUID
    family: str
    seed: int
    form: str
    conventions: dict[str, Any]
    shown: dict[str, Any]
    answer: dict[str, Any]
    correct: bool
    misconceptions: list[str]
    took_ms: int | None
    evidence: dict[str, Any] | None


class SetMarkRow(NamedTuple):
    """One answer of a first sitting of a set with the same numbers for all."""

    topic_set_id: UUID
    drill_id: UUID
    position: int
    family: str
    correct: bool | None
    set_aside_at: datetime | None


_IN_SCHOOL = TALLY.c.school_id == bindparam("school_id")
_CELLS = (
    select(TALLY.c.visit_id, TALLY.c.family, *(func.sum(TALLY.c[name]).label(name) for name in SUMS))
    .where(_IN_SCHOOL)
    .group_by(TALLY.c.visit_id, TALLY.c.family)
    .subquery()
)
_TOTALS = (
    select(TALLY.c.visit_id, func.sum(TALLY.c.answers).label("answers"), func.sum(TALLY.c.correct).label("correct"))
    .where(_IN_SCHOOL)
    .group_by(TALLY.c.visit_id)
    .subquery()
)
_ELSEWHERE = _TOTALS.c.answers - _CELLS.c.answers
_REST = 1.0 * (_TOTALS.c.correct - _CELLS.c.correct) / func.nullif(_ELSEWHERE, 0)


def _where_rest(value: Any) -> Any:
    return func.coalesce(func.sum(case((_ELSEWHERE > 0, value), else_=0)), 0)


FAMILY_SUMS = (
    select(
        _CELLS.c.family,
        *(func.sum(_CELLS.c[name]) for name in SUMS),
        _where_rest(_CELLS.c.answers),
        _where_rest(_CELLS.c.correct),
        _where_rest(_CELLS.c.answers * _REST),
        _where_rest(_CELLS.c.answers * _REST * _REST),
        _where_rest(_CELLS.c.correct * _REST),
    )
    .select_from(_CELLS.join(_TOTALS, _TOTALS.c.visit_id == _CELLS.c.visit_id))
    .group_by(_CELLS.c.family)
)
_AFTER = (
    select(*(ATTEMPT.c[name] for name in CountedAttempt._fields))
    .where(
        ATTEMPT.c.school_id == bindparam("school_id"),
        ATTEMPT.c.id > bindparam("after"),
        ATTEMPT.c.set_aside_at.is_(None),
    )
    .order_by(ATTEMPT.c.id)
    .limit(BATCH)
)
NEXT_ATTEMPTS = _AFTER.where(ATTEMPT.c.answered_at <= bindparam("until"))
COUNTED_ATTEMPTS = _AFTER.where(ATTEMPT.c.id <= bindparam("last"), ATTEMPT.c.family == bindparam("family"))
ALL_SCHOOLS = select(SCHOOL.c.id).order_by(SCHOOL.c.id)
LAST = select(RUN.c.last_attempt_id).where(RUN.c.school_id == bindparam("school_id"))
LATEST_RUN = select(RUN.c.ran_at).where(RUN.c.school_id == bindparam("school_id"))
LIST = select(QUALITY).where(QUALITY.c.school_id == bindparam("school_id")).order_by(QUALITY.c.family)
FIND = LIST.where(QUALITY.c.family == bindparam("family"))
KEEP = Upsert(QUALITY)
FORGET = delete(QUALITY).where(QUALITY.c.school_id == bindparam("of_school"))
FORGET_SETS = delete(OF_SET).where(OF_SET.c.school_id == bindparam("of_school"))
KEEP_RUN = Upsert(RUN)
KEEP_SET = Upsert(OF_SET)
SET_MARKS = (
    select(
        ASSIGNMENT.c.topic_set_id,
        SITTING.c.drill_id,
        ITEM.c.position,
        ITEM.c.family,
        ATTEMPT.c.correct,
        ATTEMPT.c.set_aside_at,
    )
    .select_from(
        SITTING.join(
            ASSIGNMENT, (ASSIGNMENT.c.school_id == SITTING.c.school_id) & (ASSIGNMENT.c.id == SITTING.c.assignment_id)
        )
        .join(SET, (SET.c.school_id == ASSIGNMENT.c.school_id) & (SET.c.id == ASSIGNMENT.c.topic_set_id))
        .join(ITEM, (ITEM.c.school_id == SITTING.c.school_id) & (ITEM.c.drill_id == SITTING.c.drill_id))
        .outerjoin(ATTEMPT, (ATTEMPT.c.school_id == ITEM.c.school_id) & (ATTEMPT.c.drill_item_id == ITEM.c.id))
    )
    .where(SITTING.c.school_id == bindparam("school_id"), SITTING.c.number == 1, SET.c.numbers == "same")
    .order_by(ASSIGNMENT.c.topic_set_id, SITTING.c.drill_id, ITEM.c.position)
)
LIST_SETS = (
    select(OF_SET, SET.c.title)
    .select_from(OF_SET.join(SET, (SET.c.school_id == OF_SET.c.school_id) & (SET.c.id == OF_SET.c.topic_set_id)))
    .where(OF_SET.c.school_id == bindparam("school_id"))
    .order_by(SET.c.title, OF_SET.c.topic_set_id)
)
NOTHING_YET = UUID(int=0)


def list_all_schools(connection: Connection) -> tuple[UUID, ...]:
    """Return every school, the visitors' included."""
    return tuple(connection.scalars(ALL_SCHOOLS))


def find_last_counted(connection: Connection, school_id: UUID) -> UUID:
    """Return the last attempt of a school that has been counted."""
    return connection.scalar(LAST, {"school_id": school_id}) or NOTHING_YET


def find_run(connection: Connection, school_id: UUID) -> datetime | None:
    """Return when a school's answers were counted last."""
    return connection.scalar(LATEST_RUN, {"school_id": school_id})


def list_next_attempts(
    connection: Connection, school_id: UUID, after: UUID, until: datetime
) -> tuple[CountedAttempt, ...]:
    """Return the next attempts of a school after one of them, at most BATCH."""
    of = {"school_id": school_id, "after": after, "until": until}
    return tuple(CountedAttempt(**row) for row in connection.execute(NEXT_ATTEMPTS, of).mappings())


def list_counted_attempts(
    connection: Connection, school_id: UUID, family: str, between: tuple[UUID, UUID]
) -> tuple[CountedAttempt, ...]:
    """Return the next attempts at a family after one of them and up to another, at most BATCH."""
    of = {"school_id": school_id, "family": family, "after": between[0], "last": between[1]}
    return tuple(CountedAttempt(**row) for row in connection.execute(COUNTED_ATTEMPTS, of).mappings())


def sum_families(connection: Connection, school_id: UUID) -> tuple[SumsRow, ...]:
    """Return what every family's answers add up to."""
    rows = connection.execute(FAMILY_SUMS, {"school_id": school_id})
    return tuple(SumsRow(row[0], *map(int, row[1:7]), *map(float, row[7:])) for row in rows)


def list_qualities(connection: Connection, school_id: UUID) -> tuple[FamilyQuality, ...]:
    """Return the kept figures of every family of a school."""
    return tuple(FamilyQuality(**row) for row in connection.execute(LIST, {"school_id": school_id}).mappings())


def find_quality(connection: Connection, school_id: UUID, family: str) -> FamilyQuality | None:
    """Return the kept figures of one family."""
    row = connection.execute(FIND, {"school_id": school_id, "family": family}).mappings().first()
    return FamilyQuality(**row) if row else None


def forget_qualities(connection: Connection, school_id: UUID) -> None:
    """Take away the kept figures of a school's families and sets: all are kept again in the same transaction."""
    for statement in (FORGET, FORGET_SETS):
        connection.execute(statement, {"of_school": school_id})


def keep_quality(connection: Connection, row: FamilyQuality) -> None:
    """Keep a family's figures."""
    KEEP.run(connection, asdict(row))


def keep_run(connection: Connection, school_id: UUID, last_attempt_id: UUID, now: datetime) -> None:
    """Keep up to which attempt a school has been counted."""
    KEEP_RUN.run(connection, {"school_id": school_id, "last_attempt_id": last_attempt_id, "ran_at": now})


def list_set_marks(connection: Connection, school_id: UUID) -> tuple[SetMarkRow, ...]:
    """Return the answers of every first sitting with the same numbers for all."""
    return tuple(SetMarkRow(*row) for row in connection.execute(SET_MARKS, {"school_id": school_id}))


def keep_set_quality(connection: Connection, row: SetQuality) -> None:
    """Keep a set's figures."""
    KEEP_SET.run(connection, asdict(row))


def list_set_qualities(connection: Connection, school_id: UUID) -> tuple[tuple[SetQuality, str], ...]:
    """Return the kept figures of every set of a school, with its title."""
    rows = connection.execute(LIST_SETS, {"school_id": school_id})
    return tuple((SetQuality(*row[:-1]), row[-1]) for row in rows)
