"""Server-side sessions: the browser holds a token, the table only its hash."""

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import CheckConstraint, ForeignKeyConstraint, Index

from app.storage.base import Base, column, row


@row
class Visit(Base):
    """One browser's visit, with its language and house rules, until it is idle too long, ends or is revoked."""

    __tablename__ = "visit"
    __table_args__ = (
        ForeignKeyConstraint(["school_id"], ["school.id"], ondelete="CASCADE"),
        CheckConstraint("language IN ('en', 'fr')", name="language"),
        Index(None, "school_id", "token_hash", unique=True),
    )

    school_id: UUID = column(primary_key=True)
    id: UUID = column(primary_key=True)
    token_hash: str
    language: str
    conventions: dict[str, Any]
    created_at: datetime
    seen_at: datetime
    idle_until: datetime
    ends_at: datetime
    revoked_at: datetime | None = None
