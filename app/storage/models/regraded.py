"""Attempts that were marked again or set aside: the earlier and the later mark, both kept."""

from datetime import datetime
from uuid import UUID

from sqlalchemy import CheckConstraint, ForeignKeyConstraint, Index

from app.storage.base import Base, column, row


@row
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

    school_id: UUID = column(primary_key=True)
    id: UUID = column(primary_key=True)
    attempt_id: UUID
    visit_id: UUID
    family: str
    old_correct: bool
    old_share: float
    old_misconceptions: list[str]
    new_correct: bool
    new_share: float
    new_misconceptions: list[str]
    regraded_by: str
    regraded_at: datetime
    told_at: datetime | None = None
    deed: str = "marked"
