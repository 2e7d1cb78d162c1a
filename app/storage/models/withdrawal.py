"""Kinds of questions that a school does not want to be asked any more."""

from datetime import datetime
from uuid import UUID

from sqlalchemy import ForeignKeyConstraint

from app.storage.base import Base, column, row


@row
class Withdrawal(Base):
    """A family that a school draws no more, up to a version: a corrected, later one is drawn again."""

    __tablename__ = "withdrawal"
    __table_args__ = (ForeignKeyConstraint(["school_id"], ["school.id"], ondelete="CASCADE"),)

    school_id: UUID = column(primary_key=True)
    family: str = column(primary_key=True)
    version: int
    reason: str
    withdrawn_by: str
    withdrawn_at: datetime
