"""The audit log: adding to it and reading it."""

from dataclasses import asdict
from uuid import UUID

from sqlalchemy import Connection, bindparam, insert, select

from app.storage.base import table_of
from app.storage.models import AuditEntry

ENTRY = table_of(AuditEntry)


ADD = insert(ENTRY)
LATEST = (
    select(ENTRY)
    .where(ENTRY.c.school_id == bindparam("school_id"))
    .order_by(ENTRY.c.noted_at.desc(), ENTRY.c.id.desc())
    .limit(bindparam("most"))
)
_LAST = (
    select(ENTRY.c.noted_at)
    .where(ENTRY.c.school_id == bindparam("school_id"), ENTRY.c.id == bindparam("before_id"))
    .scalar_subquery()
)
EARLIER = LATEST.where(
    (ENTRY.c.noted_at < _LAST) | ((ENTRY.c.noted_at == _LAST) & (ENTRY.c.id < bindparam("before_id")))
)


def add_entry(connection: Connection, entry: AuditEntry) -> None:
    """Add to the log."""
    connection.execute(ADD, asdict(entry))


def list_entries(
    connection: Connection, school_id: UUID, most: int, before: UUID | None = None
) -> tuple[AuditEntry, ...]:
    """Return a school's latest entries, newest first, or those older than one of them."""
    found = {"school_id": school_id, "most": most} | ({"before_id": before} if before else {})
    rows = connection.execute(EARLIER if before else LATEST, found).mappings()
    return tuple(AuditEntry(**row) for row in rows)
