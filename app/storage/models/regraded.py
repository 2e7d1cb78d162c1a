"""Attempts that were marked again or set aside: the earlier and the later mark, both kept."""

from datetime import datetime
from uuid import UUID

from sqlalchemy import CheckConstraint, ForeignKeyConstraint, Index
from sqlalchemy.orm import Mapped, mapped_column

from app.storage.base import Base


class RegradedAttempt(Base):
    """One attempt marked again with a corrected key; `told_at` is empty until its learner has read of it.

    deed: what was done to it; "set-aside" and "counted" (again) leave the mark as it is.
    """

    __tablename__ = "regraded_attempt"
    __table_args__ = (
        ForeignKeyConstraint(["school_id", "visit_id"], ["visit.school_id", "visit.id"], ondelete="CASCADE"),
        Index(None, "school_id", "visit_id"),
        CheckConstraint("deed IN ('marked', 'set-aside', 'counted')", name="deed"),
    )

    school_id: Mapped[UUID] = mapped_column(primary_key=True)
    id: Mapped[UUID] = mapped_column(primary_key=True)
    attempt_id: Mapped[UUID]
    visit_id: Mapped[UUID]
    family: Mapped[str]
    old_correct: Mapped[bool]
    old_share: Mapped[float]
    old_misconceptions: Mapped[list[str]]
    new_correct: Mapped[bool]
    new_share: Mapped[float]
    new_misconceptions: Mapped[list[str]]
    regraded_by: Mapped[str]
    regraded_at: Mapped[datetime]
    told_at: Mapped[datetime | None]
    deed: Mapped[str]
