"""Reports of a problem with a question, each with the exact numbers it was asked with."""

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import CheckConstraint, ForeignKeyConstraint, Index
from sqlalchemy.orm import Mapped, mapped_column

from app.storage.base import Base


class Report(Base):
    """What somebody found wrong with an item; `item` keeps its numbers.

    It outlives the drill and the visit it came from: whoever mends the family needs it later. Settled: `answer` tells
    the reporter what became of it.
    """

    __tablename__ = "report"
    __table_args__ = (
        ForeignKeyConstraint(["school_id"], ["school.id"], ondelete="CASCADE"),
        Index(None, "school_id", "drill_item_id"),
        CheckConstraint("(settled_at IS NULL) = (answer IS NULL)", name="settled"),
    )

    school_id: Mapped[UUID] = mapped_column(primary_key=True)
    id: Mapped[UUID] = mapped_column(primary_key=True)
    drill_item_id: Mapped[UUID]
    visit_id: Mapped[UUID]
    family: Mapped[str]
    item: Mapped[dict[str, Any]]
    text: Mapped[str]
    language: Mapped[str]
    created_at: Mapped[datetime]
    settled_at: Mapped[datetime | None]
    settled_by: Mapped[str | None]
    answer: Mapped[str | None]
