"""Reports of a problem with a question, each with the exact numbers it was asked with."""

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import CheckConstraint, ForeignKeyConstraint, Index

from app.storage.base import Base, column, row


@row
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

    school_id: UUID = column(primary_key=True)
    id: UUID = column(primary_key=True)
    drill_item_id: UUID
    visit_id: UUID
    family: str
    item: dict[str, Any]
    text: str
    language: str
    created_at: datetime
    settled_at: datetime | None = None
    settled_by: str | None = None
    answer: str | None = None
