"""Rehearsals of a visit, and the answers kept while they run."""

from dataclasses import asdict
from datetime import datetime
from uuid import UUID

from sqlalchemy import Connection, bindparam, insert, select, update

from app.storage.base import table_of
from app.storage.models import Rehearsal, RehearsalDraft
from app.storage.queries.drills import ATTEMPT, DRILL, ITEM
from app.storage.upsert import Upsert

REHEARSAL, DRAFT = table_of(Rehearsal), table_of(RehearsalDraft)


_OF_DRILL = (DRILL.c.school_id == REHEARSAL.c.school_id) & (DRILL.c.id == REHEARSAL.c.drill_id)
_OF_VISIT = (DRILL.c.school_id == bindparam("school_id"), DRILL.c.visit_id == bindparam("visit_id"))
_OWN = select(REHEARSAL).select_from(REHEARSAL.join(DRILL, _OF_DRILL)).where(*_OF_VISIT)
FIND = _OWN.where(REHEARSAL.c.id == bindparam("rehearsal_id"))
OF_DRILL = _OWN.where(REHEARSAL.c.drill_id == bindparam("drill_id"))
LIST = _OWN.order_by(REHEARSAL.c.started_at.desc())
UNMARKED = _OWN.where(REHEARSAL.c.submitted_at.is_(None)).order_by(REHEARSAL.c.started_at.desc())
ADD = insert(REHEARSAL)
DRAFTS = (
    select(DRAFT)
    .select_from(DRAFT.join(ITEM, (ITEM.c.school_id == DRAFT.c.school_id) & (ITEM.c.id == DRAFT.c.drill_item_id)))
    .where(ITEM.c.school_id == bindparam("school_id"), ITEM.c.drill_id == bindparam("drill_id"))
)
KEEP_DRAFT = Upsert(DRAFT)
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


def find_rehearsal(connection: Connection, school_id: UUID, visit_id: UUID, rehearsal_id: UUID) -> Rehearsal | None:
    """Return a visit's own rehearsal."""
    of = {"school_id": school_id, "visit_id": visit_id, "rehearsal_id": rehearsal_id}
    row = connection.execute(FIND, of).mappings().first()
    return Rehearsal(**row) if row else None


def find_of_drill(connection: Connection, school_id: UUID, visit_id: UUID, drill_id: UUID) -> Rehearsal | None:
    """Return the rehearsal whose answers a visit's own drill holds."""
    of = {"school_id": school_id, "visit_id": visit_id, "drill_id": drill_id}
    row = connection.execute(OF_DRILL, of).mappings().first()
    return Rehearsal(**row) if row else None


def list_rehearsals(connection: Connection, school_id: UUID, visit_id: UUID) -> tuple[Rehearsal, ...]:
    """Return a visit's rehearsals, the latest first."""
    rows = connection.execute(LIST, {"school_id": school_id, "visit_id": visit_id}).mappings()
    return tuple(Rehearsal(**row) for row in rows)


def find_unmarked(connection: Connection, school_id: UUID, visit_id: UUID) -> Rehearsal | None:
    """Return the visit's latest rehearsal that is not marked yet."""
    row = connection.execute(UNMARKED, {"school_id": school_id, "visit_id": visit_id}).mappings().first()
    return Rehearsal(**row) if row else None


def add_rehearsal(connection: Connection, row: Rehearsal) -> None:
    """Keep a new rehearsal."""
    connection.execute(ADD, asdict(row))


def set_times(connection: Connection, row: Rehearsal) -> None:
    """Keep when a rehearsal ends, since when it is paused, and as of when it is marked."""
    times = {"end": row.ends_at, "pause": row.paused_at, "submission": row.submitted_at}
    connection.execute(SET_TIMES, {"of_school": row.school_id, "rehearsal_id": row.id} | times)


def list_drafts(connection: Connection, school_id: UUID, drill_id: UUID) -> dict[UUID, RehearsalDraft]:
    """Return what was filled in so far, by item."""
    rows = connection.execute(DRAFTS, {"school_id": school_id, "drill_id": drill_id}).mappings()
    return {row["drill_item_id"]: RehearsalDraft(**row) for row in rows}


def keep_draft(connection: Connection, draft: RehearsalDraft) -> None:
    """Keep what is filled in for an item, in place of what was."""
    KEEP_DRAFT.run(connection, asdict(draft))


def has_answers_from(connection: Connection, school_id: UUID, visit_id: UUID, moment: datetime) -> bool:
    """Whether a visit answered anything at a moment or later."""
    of = {"school_id": school_id, "visit_id": visit_id, "moment": moment}
    return connection.execute(LATER_ANSWER, of).first() is not None
