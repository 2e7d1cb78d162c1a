"""Attempts: one answer to one item, with everything needed to show it again as it was."""

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import BigInteger, CheckConstraint, ForeignKeyConstraint, Index, UniqueConstraint

from app.storage.base import Base, column


class Attempt(Base):
    """The one answer that counts for an item. `shown` is the worded item, `answer` the reply, both as plain values.

    `evidence` is what it says to the learner model; empty (nothing) for answers kept before there was one.
    Set aside: it is shown, with its mark, but counts nowhere any more.
    It goes when its drill goes; a second reference to the visit would make every deleted visit search this table.
    """

    __tablename__ = "attempt"
    __table_args__ = (
        ForeignKeyConstraint(
            ["school_id", "drill_item_id"], ["drill_item.school_id", "drill_item.id"], ondelete="CASCADE"
        ),
        UniqueConstraint("school_id", "drill_item_id"),
        Index(None, "school_id", "visit_id", "answered_at"),
        CheckConstraint("share >= 0 AND share <= 1", name="share"),
        CheckConstraint("took_ms >= 0", name="took_ms"),
    )

    school_id: UUID = column(primary_key=True)
    id: UUID = column(primary_key=True)
    drill_item_id: UUID
    visit_id: UUID
    family: str
    family_version: int
    pack: str
    pack_version: int
    seed: int = column(BigInteger)
    form: str
    ask: str
    parameters: dict[str, Any]
    conventions: dict[str, Any]
    shown: dict[str, Any]
    answer: dict[str, Any]
    correct: bool
    share: float
    misconceptions: list[str]
    first_misconception: str | None
    took_ms: int | None
    answered_at: datetime
    evidence: dict[str, Any] | None
    set_aside_at: datetime | None
