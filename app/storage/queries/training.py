"""The training record: adding to it and reading it; there is no way to change or take away."""

from dataclasses import asdict
from typing import Any
from uuid import UUID

from sqlalchemy import Connection, bindparam, insert, select

from app.storage.base import table_of
from app.storage.models import TrainingEntry

ENTRY = table_of(TrainingEntry)


ADD = insert(ENTRY)
LIST = (
    select(ENTRY)
    .where(ENTRY.c.school_id == bindparam("school_id"), ENTRY.c.person_id == bindparam("person_id"))
    .order_by(ENTRY.c.day, ENTRY.c.made_at, ENTRY.c.id)
)


def add_entry(connection: Connection, entry: TrainingEntry) -> None:
    """Add an entry."""
    connection.execute(ADD, asdict(entry))


def list_entries(connection: Connection, school_id: UUID, person_id: UUID) -> tuple[TrainingEntry, ...]:
    """Return a student's entries by day, oldest first."""
    rows = connection.execute(LIST, {"school_id": school_id, "person_id": person_id}).mappings()
    return tuple(TrainingEntry(**row) for row in rows)


def as_plain(entry: TrainingEntry) -> dict[str, Any]:
    """Return an entry as it is handed to the person it is about."""
    return {
        "id": str(entry.id),
        "kind": entry.kind,
        "day": entry.day.isoformat(),
        "text": entry.text,
        "minutes": entry.minutes,
        "by": entry.made_by_name,
        "entered_at": entry.made_at.isoformat(),
        "corrects": str(entry.corrects) if entry.corrects else None,
        "details": entry.details,
    }
