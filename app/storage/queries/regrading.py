"""Attempts to be marked again, and the marks they had."""

from collections.abc import Sequence
from dataclasses import asdict
from datetime import datetime
from typing import Any, NamedTuple
from uuid import UUID

from sqlalchemy import Connection, bindparam, insert, select, update

from app.storage.base import table_of
from app.storage.models import Attempt, RegradedAttempt
from app.storage.queries.past_answers import Past

ATTEMPT, REGRADED = table_of(Attempt), table_of(RegradedAttempt)


class GradedRow(NamedTuple):
    """An attempt with what it is drawn from, its reply and its mark."""

    id: UUID
    visit_id: UUID
    family: str
    seed: int
    form: str
    ask: str
    parameters: dict[str, Any]
    conventions: dict[str, Any]
    answer: dict[str, Any]
    correct: bool
    share: float
    misconceptions: list[str]


class MarkRow(NamedTuple):
    """An attempt's mark."""

    id: UUID
    visit_id: UUID
    family: str
    correct: bool
    share: float
    misconceptions: list[str]


class UntoldRow(NamedTuple):
    """An answer that was marked again and whose learner has not read of it: both marks, and what was done."""

    drill_item_id: UUID
    family: str
    deed: str
    old_correct: bool
    old_share: float
    new_correct: bool
    new_share: float


_GRADED = tuple(ATTEMPT.c[name] for name in GradedRow._fields)
ADD = insert(REGRADED)
_ONE = (ATTEMPT.c.school_id == bindparam("in_school"), ATTEMPT.c.id == bindparam("of_attempt"))
PUT = update(ATTEMPT).where(*_ONE).values(set_aside_at=bindparam("moment"))
MARK = (
    update(ATTEMPT)
    .where(*_ONE, ATTEMPT.c.correct == bindparam("old_correct"), ATTEMPT.c.share == bindparam("old_share"))
    .values(
        correct=bindparam("new_correct"),
        share=bindparam("new_share"),
        misconceptions=bindparam("new_misconceptions"),
        first_misconception=bindparam("first"),
    )
)
_OF_VISIT = (REGRADED.c.school_id == bindparam("in_school"), REGRADED.c.visit_id == bindparam("of_visit"))
UNTOLD = (
    select(ATTEMPT.c.drill_item_id, *(REGRADED.c[name] for name in UntoldRow._fields[1:]))
    .select_from(
        REGRADED.join(ATTEMPT, (ATTEMPT.c.school_id == REGRADED.c.school_id) & (ATTEMPT.c.id == REGRADED.c.attempt_id))
    )
    .where(*_OF_VISIT, REGRADED.c.told_at.is_(None))
    .order_by(ATTEMPT.c.answered_at, REGRADED.c.id)
)
TELL = update(REGRADED).where(*_OF_VISIT, REGRADED.c.told_at.is_(None))


def list_graded(connection: Connection, school_id: UUID, visit_id: UUID, past: Past) -> tuple[GradedRow, ...]:
    """Return a visit's answers to a family, in the order in which it gave them."""
    of_visit = select(*_GRADED).where(*past.where(school_id), ATTEMPT.c.visit_id == visit_id)
    rows = connection.execute(of_visit.order_by(ATTEMPT.c.answered_at, ATTEMPT.c.id))
    return tuple(GradedRow(*row) for row in rows)


def list_marks(connection: Connection, school_id: UUID, visit_id: UUID, past: Past) -> tuple[MarkRow, ...]:
    """Return the marks of a visit's answers to a family."""
    of_visit = select(*(ATTEMPT.c[name] for name in MarkRow._fields)).where(*past.where(school_id))
    rows = connection.execute(of_visit.where(ATTEMPT.c.visit_id == visit_id).order_by(ATTEMPT.c.id))
    return tuple(MarkRow(*row) for row in rows)


def keep_set_aside(connection: Connection, rows: Sequence[RegradedAttempt], set_aside_at: datetime | None) -> None:
    """Set attempts aside, or (None) let them count again, and note what was done to each."""
    if not rows:
        return
    of = [{"in_school": row.school_id, "of_attempt": row.attempt_id, "moment": set_aside_at} for row in rows]
    connection.execute(PUT, of)
    connection.execute(ADD, [asdict(row) for row in rows])


def keep_regraded(connection: Connection, rows: Sequence[RegradedAttempt]) -> int:
    """Give attempts their later marks and keep both; one that does not have the earlier mark any more is left.

    Returns how many got their later mark.
    """
    marked = [row for row in rows if _mark(connection, row)]
    if marked:
        connection.execute(ADD, [asdict(row) for row in marked])
    return len(marked)


def _mark(connection: Connection, row: RegradedAttempt) -> bool:
    first = row.new_misconceptions[0] if row.new_misconceptions else None
    of = {"in_school": row.school_id, "of_attempt": row.attempt_id, "first": first}
    names = ("old_correct", "old_share", "new_correct", "new_share", "new_misconceptions")
    return connection.execute(MARK, of | {name: getattr(row, name) for name in names}).rowcount == 1


def list_untold(connection: Connection, school_id: UUID, visit_id: UUID) -> tuple[UntoldRow, ...]:
    """Return what was marked again and its learner has not read of, in the order in which it was answered."""
    rows = connection.execute(UNTOLD, {"in_school": school_id, "of_visit": visit_id})
    return tuple(UntoldRow(*row) for row in rows)


def tell(connection: Connection, school_id: UUID, visit_id: UUID, now: datetime) -> None:
    """Note that a learner has read what was marked again."""
    connection.execute(TELL.values(told_at=now), {"in_school": school_id, "of_visit": visit_id})
