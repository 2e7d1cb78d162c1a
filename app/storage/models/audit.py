"""The audit log: rows are added, never changed and never taken away; the database itself refuses it."""

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import DDL, Index, event

from app.storage.base import Base, column, row, table_of


@row
class AuditEntry(Base):
    """Who did what to whom or what, and when. It refers to nothing, so that it outlives what it tells of."""

    __tablename__ = "audit_entry"
    __table_args__ = (Index(None, "school_id", "noted_at"),)

    school_id: UUID = column(primary_key=True)
    id: UUID = column(primary_key=True)
    noted_at: datetime
    actor_id: UUID | None
    actor_name: str
    action: str
    subject: str
    details: dict[str, Any] = column(default_factory=dict)


# The same statements stand in the migration that makes the table.
ON_SQLITE = [
    f"CREATE TRIGGER audit_entry_no_{verb.lower()} BEFORE {verb} ON audit_entry "
    "BEGIN SELECT RAISE(ABORT, 'the audit log is only added to'); END"
    for verb in ("UPDATE", "DELETE")
]
ON_POSTGRESQL = [
    """CREATE FUNCTION refuse_audit_change() RETURNS trigger LANGUAGE plpgsql AS
    $$ BEGIN RAISE EXCEPTION 'the audit log is only added to'; END $$""",
    """CREATE TRIGGER audit_entry_only_grows BEFORE UPDATE OR DELETE ON audit_entry
    FOR EACH ROW EXECUTE FUNCTION refuse_audit_change()""",
]

for dialect, statements in (("sqlite", ON_SQLITE), ("postgresql", ON_POSTGRESQL)):
    for statement in statements:
        event.listen(table_of(AuditEntry), "after_create", DDL(statement).execute_if(dialect=dialect))  # type: ignore[no-untyped-call]
