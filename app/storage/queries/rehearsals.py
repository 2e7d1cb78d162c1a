"""Rehearsals of a visit, and the answers kept while they run."""

from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import Connection, bindparam, insert, select, update

from app.storage.base import table_of
from app.storage.models import Rehearsal, RehearsalDraft
from app.storage.queries.drills import ATTEMPT, DRILL, ITEM
from app.storage.upsert import Upsert

REHEARSAL, DRAFT = table_of(Rehearsal), table_of(RehearsalDraft)


@dataclass(frozen=True, slots=True)
class RehearsalRow:
    """A rehearsal as it is kept."""

    school_id: UUID
    id: UUID
    drill_id: UUID
    profile: dict[str, Any]
    counts: dict[str, int]
    strict: bool
    started_at: datetime
    ends_at: datetime
    paused_at: datetime | None = None
    submitted_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class DraftRow:
    """What was filled in for an item so far; no fields: nothing yet."""

    school_id: UUID
    drill_item_id: UUID
    fields: dict[str, list[str]]
    flagged: bool
    changed_at: datetime


_OF_DRILL = (DRILL.c.school_id == REHEARSAL.c.school_id) & (DRILL.c.id == REHEARSAL.c.drill_id)
_OF_VISIT = (DRILL.c.school_id == bindparam("school_id"), DRILL.c.visit_id == bindparam("visit_id"))
_OWN = select(REHEARSAL).select_from(REHEARSAL.join(DRILL, _OF_DRILL)).where(*_OF_VISIT)
FIND = _OWN.where(REHEARSAL.c.id == bindparam("rehearsal_id"))
LIST = _OWN.order_by(REHEARSAL.c.started_at.desc())
UNMARKED = _OWN.where(REHEARSAL.c.submitted_at.is_(None)).order_by(REHEARSAL.c.started_at.desc())
ADD = insert(REHEARSAL)
DRAFTS = (
    select(DRAFT)
    .select_from(DRAFT.join(ITEM, (ITEM.c.school_id == DRAFT.c.school_id) & (ITEM.c.id == DRAFT.c.drill_item_id)))
    .where(ITEM.c.school_id == bindparam("school_id"), ITEM.c.drill_id == bindparam("drill_id"))
)
KEEP_DRAFT = Upsert(DRAFT, lambda new: {name: new[name] for name in ("fields", "flagged", "changed_at")})
SET_TIMES = (
    update(REHEARSAL)
    .where(REHEARSAL.c.school_id == bindparam("of_school"), REHEARSAL.c.id == bindparam("rehearsal_id"))
    .values(ends_at=bindparam("end"), paused_at=bindparam("pause"), submitted_at=bindparam("submission"))
)
LATER_ANSWER = (
    select(ATTEMPT.c.id)
    .where(
        ATTEMPT.c.school_id == bindparam("school_id"),
        ATTEMPT.c.visit_id == bindparam("visit_id"),
        ATTEMPT.c.answered_at >= bindparam("moment"),
    )
    .limit(1)
)


def find_rehearsal(connection: Connection, school_id: UUID, visit_id: UUID, rehearsal_id: UUID) -> RehearsalRow | None:
    """Return a visit's own rehearsal."""
    of = {"school_id": school_id, "visit_id": visit_id, "rehearsal_id": rehearsal_id}
    row = connection.execute(FIND, of).mappings().first()
    return RehearsalRow(**row) if row else None


def list_rehearsals(connection: Connection, school_id: UUID, visit_id: UUID) -> tuple[RehearsalRow, ...]:
    """Return a visit's rehearsals, the latest first."""
    rows = connection.execute(LIST, {"school_id": school_id, "visit_id": visit_id}).mappings()
    return tuple(RehearsalRow(**row) for row in rows)


def find_unmarked(connection: Connection, school_id: UUID, visit_id: UUID) -> RehearsalRow | None:
    """Return the visit's latest rehearsal that is not marked yet."""
    row = connection.execute(UNMARKED, {"school_id": school_id, "visit_id": visit_id}).mappings().first()
    return RehearsalRow(**row) if row else None


def add_rehearsal(connection: Connection, row: RehearsalRow) -> None:
    """Keep a new rehearsal."""
    connection.execute(ADD, asdict(row))


def set_times(connection: Connection, row: RehearsalRow) -> None:
    """Keep when a rehearsal ends, since when it is paused, and as of when it is marked."""
    times = {"end": row.ends_at, "pause": row.paused_at, "submission": row.submitted_at}
    connection.execute(SET_TIMES, {"of_school": row.school_id, "rehearsal_id": row.id} | times)


def list_drafts(connection: Connection, school_id: UUID, drill_id: UUID) -> dict[UUID, DraftRow]:
    """Return what was filled in so far, by item."""
    rows = connection.execute(DRAFTS, {"school_id": school_id, "drill_id": drill_id}).mappings()
    return {row["drill_item_id"]: DraftRow(**row) for row in rows}


def keep_draft(connection: Connection, draft: DraftRow) -> None:
    """Keep what is filled in for an item, in place of what was."""
    KEEP_DRAFT.run(connection, asdict(draft))


def has_answers_from(connection: Connection, school_id: UUID, visit_id: UUID, moment: datetime) -> bool:
    """Whether a visit answered anything at a moment or later."""
    of = {"school_id": school_id, "visit_id": visit_id, "moment": moment}
    return connection.execute(LATER_ANSWER, of).first() is not None
