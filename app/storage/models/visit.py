"""Server-side sessions: the browser holds a token, the table only its hash."""

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import CheckConstraint, ForeignKeyConstraint, Index
from sqlalchemy.orm import Mapped, mapped_column

from app.storage.base import Base


class Visit(Base):
    """One browser's visit, with its language and house rules, until it is idle too long, ends or is revoked."""

    __tablename__ = "visit"
    __table_args__ = (
        ForeignKeyConstraint(["school_id"], ["school.id"], ondelete="CASCADE"),
        CheckConstraint("language IN ('en', 'fr')", name="language"),
        Index(None, "school_id", "token_hash", unique=True),
    )

    school_id: Mapped[UUID] = mapped_column(primary_key=True)
    id: Mapped[UUID] = mapped_column(primary_key=True)
    token_hash: Mapped[str]
    language: Mapped[str]
    conventions: Mapped[dict[str, Any]]
    created_at: Mapped[datetime]
    seen_at: Mapped[datetime]
    idle_until: Mapped[datetime]
    ends_at: Mapped[datetime]
    revoked_at: Mapped[datetime | None]
