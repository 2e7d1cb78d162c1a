"""Counting answers by week as they come, and counting them again from the attempts."""

from datetime import date, datetime, timedelta
from typing import NamedTuple
from uuid import UUID

from sqlalchemy import Connection, bindparam, delete, func, insert, select

from app.storage.base import table_of
from app.storage.models import Attempt, WeekTally
from app.storage.queries.attempts import AttemptRow
from app.storage.upsert import Upsert

TALLY, ATTEMPT = table_of(WeekTally), table_of(Attempt)
COUNTS = ("answers", "correct", "timed", "took_ms")

TOTAL = select(*(func.coalesce(func.sum(TALLY.c[name]), 0) for name in COUNTS)).where(
    TALLY.c.school_id == bindparam("school_id"), TALLY.c.visit_id == bindparam("visit_id")
)
COUNT = Upsert(
    TALLY,
    lambda more: {name: TALLY.c[name] + more[name] for name in COUNTS} | {"changed_at": more.changed_at},
)
ADD = insert(TALLY)
FORGET = delete(TALLY).where(TALLY.c.school_id == bindparam("school_id"), TALLY.c.visit_id == bindparam("visit_id"))
ANSWERS_OF_VISIT = select(*(ATTEMPT.c[name] for name in ("family", "correct", "took_ms", "answered_at"))).where(
    ATTEMPT.c.school_id == bindparam("school_id"),
    ATTEMPT.c.visit_id == bindparam("visit_id"),
    ATTEMPT.c.set_aside_at.is_(None),
)


class Totals(NamedTuple):
    """Answers of a visit in all; `timed` of them came with a time, `took_ms` in sum."""

    answers: int = 0
    correct: int = 0
    timed: int = 0
    took_ms: int = 0


def total(connection: Connection, school_id: UUID, visit_id: UUID) -> Totals:
    """Return what a visit answered in all."""
    row = connection.execute(TOTAL, {"school_id": school_id, "visit_id": visit_id}).one()
    return Totals(*map(int, row))


def week_of(moment: datetime) -> date:
    """Return the Monday of the week of a moment, in UTC."""
    return moment.date() - timedelta(days=moment.weekday())


def count_attempt(connection: Connection, attempt: AttemptRow) -> None:
    """Count one more answer, in the answer's own transaction."""
    of = {"school_id": attempt.school_id, "visit_id": attempt.visit_id, "family": attempt.family}
    of |= {"week": week_of(attempt.answered_at), "changed_at": attempt.answered_at}
    COUNT.run(connection, of | _counts(attempt.correct, attempt.took_ms))


def count_again(connection: Connection, school_id: UUID, visit_id: UUID, now: datetime) -> None:
    """Count all answers of a visit that count anew, after they were copied, marked again or set aside."""
    of = {"school_id": school_id, "visit_id": visit_id}
    connection.execute(FORGET, of)
    sums: dict[tuple[str, date], dict[str, int]] = {}
    for family, correct, took_ms, answered_at in connection.execute(ANSWERS_OF_VISIT, of).all():
        so_far = sums.setdefault((family, week_of(answered_at)), dict.fromkeys(COUNTS, 0))
        for name, value in _counts(correct, took_ms).items():
            so_far[name] += value
    rows = [of | {"family": family, "week": week, "changed_at": now} | more for (family, week), more in sums.items()]
    if rows:
        connection.execute(ADD, rows)


def _counts(correct: bool, took_ms: int | None) -> dict[str, int]:  # noqa: FBT001 - the answer itself
    return {"answers": 1, "correct": int(correct), "timed": int(took_ms is not None), "took_ms": took_ms or 0}
