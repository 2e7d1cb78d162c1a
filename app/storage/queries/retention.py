"""Counting and taking away records that are kept no longer; what was answered stays counted, without a name."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import Connection, Select, bindparam, delete, func, select

from app.storage.base import table_of
from app.storage.models import Drill, ErasedTally, Person, Report, TrainingEntry, Visit, WeekTally
from app.storage.queries import rechecks
from app.storage.upsert import Upsert

DRILL, PERSON, REPORT, VISIT = table_of(Drill), table_of(Person), table_of(Report), table_of(Visit)
ENTRY = table_of(TrainingEntry)
TALLY, ERASED = table_of(WeekTally), table_of(ErasedTally)
COUNTS = ("answers", "correct", "timed", "took_ms")
# By kind: the table, and the moment by which a record is old.
KINDS = {
    "answers": (DRILL, DRILL.c.started_at),
    "left-people": (PERSON, PERSON.c.left_at),
    "reports": (REPORT, REPORT.c.created_at),
    "notes": (ENTRY, ENTRY.c.made_at),
}


@dataclass(frozen=True, slots=True)
class Going:
    """How many records would go, and the moment of the oldest."""

    count: int
    oldest: datetime | None


def _old(kind: str) -> tuple[Any, ...]:
    table, moment = KINDS[kind]
    of_kind = (ENTRY.c.kind == "note",) if table is ENTRY else ()
    return (table.c.school_id == bindparam("school_id"), moment < bindparam("before"), *of_kind)


COUNT: dict[str, Select[Any, Any]] = {
    kind: select(func.count(), func.min(moment)).select_from(table).where(*_old(kind))
    for kind, (table, moment) in KINDS.items()
}
# Old drills of people only: of the visits nobody is signed in to, the visit itself goes.
REMOVE = {kind: delete(KINDS[kind][0]).where(*_old(kind)) for kind in ("answers", "reports", "notes")}
LEFT = select(PERSON.c.visit_id).where(*_old("left-people"))
ENDED = select(VISIT.c.id).where(
    VISIT.c.school_id == bindparam("school_id"),
    (VISIT.c.ends_at < bindparam("before")) | (VISIT.c.idle_until < bindparam("before")),
)
SUMS = select(TALLY.c.family, TALLY.c.week, *(TALLY.c[name] for name in COUNTS)).where(
    TALLY.c.school_id == bindparam("school_id"), TALLY.c.visit_id == bindparam("visit_id")
)
KEEP_SUMS = Upsert(
    ERASED, lambda more: {name: ERASED.c[name] + more[name] for name in COUNTS} | {"changed_at": more.changed_at}
)
REMOVE_VISIT = delete(VISIT).where(VISIT.c.school_id == bindparam("school_id"), VISIT.c.id == bindparam("visit_id"))


def count_going(connection: Connection, school_id: UUID, kind: str, before: datetime) -> Going:
    """Return how many records of a kind are older than a moment."""
    count, oldest = connection.execute(COUNT[kind], {"school_id": school_id, "before": before}).one()
    return Going(count, oldest)


def remove(connection: Connection, school_id: UUID, kind: str, before: datetime, now: datetime) -> int:
    """Take away the records of a kind that are older than a moment; returns how many."""
    of = {"school_id": school_id, "before": before}
    if kind == "left-people":
        visits = list(connection.scalars(LEFT, of))
        for visit_id in visits:
            remove_visit(connection, school_id, visit_id, now)
        return len(visits)
    if kind == "answers":
        rechecks.remove_before(connection, school_id, before)
    return connection.execute(REMOVE[kind], of).rowcount


def remove_visits(connection: Connection, school_id: UUID, before: datetime, now: datetime) -> int:
    """Take away the visits of a school that ended before a moment; returns how many."""
    visits = list(connection.scalars(ENDED, {"school_id": school_id, "before": before}))
    for visit_id in visits:
        remove_visit(connection, school_id, visit_id, now)
    return len(visits)


def remove_visit(connection: Connection, school_id: UUID, visit_id: UUID, now: datetime) -> None:
    """Take away a visit with all that belongs to it, its person too; only the counts of its answers stay."""
    of = {"school_id": school_id, "visit_id": visit_id}
    for row in connection.execute(SUMS, of).mappings().all():
        KEEP_SUMS.run(connection, {"school_id": school_id, "changed_at": now, **row})
    connection.execute(REMOVE_VISIT, of)
