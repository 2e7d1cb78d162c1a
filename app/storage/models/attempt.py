"""Attempts: one answer to one item, with everything needed to show it again as it was."""

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import BigInteger, CheckConstraint, ForeignKeyConstraint, Index, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from app.storage.base import Base


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

    school_id: Mapped[UUID] = mapped_column(primary_key=True)
    id: Mapped[UUID] = mapped_column(primary_key=True)
    drill_item_id: Mapped[UUID]
    visit_id: Mapped[UUID]
    family: Mapped[str]
    family_version: Mapped[int]
    pack: Mapped[str]
    pack_version: Mapped[int]
    seed: Mapped[int] = mapped_column(BigInteger)
    form: Mapped[str]
    ask: Mapped[str]
    parameters: Mapped[dict[str, Any]]
    conventions: Mapped[dict[str, Any]]
    shown: Mapped[dict[str, Any]]
    answer: Mapped[dict[str, Any]]
    correct: Mapped[bool]
    share: Mapped[float]
    misconceptions: Mapped[list[str]]
    first_misconception: Mapped[str | None]
    took_ms: Mapped[int | None]
    answered_at: Mapped[datetime]
    evidence: Mapped[dict[str, Any] | None]
    set_aside_at: Mapped[datetime | None]
