"""Kinds of questions that a school does not want to be asked any more."""

from datetime import datetime
from uuid import UUID

from sqlalchemy import ForeignKeyConstraint
from sqlalchemy.orm import Mapped, mapped_column

from app.storage.base import Base


class Withdrawal(Base):
    """A family that a school draws no more, up to a version: a corrected, later one is drawn again."""

    __tablename__ = "withdrawal"
    __table_args__ = (ForeignKeyConstraint(["school_id"], ["school.id"], ondelete="CASCADE"),)

    school_id: Mapped[UUID] = mapped_column(primary_key=True)
    family: Mapped[str] = mapped_column(primary_key=True)
    version: Mapped[int]
    reason: Mapped[str]
    withdrawn_by: Mapped[str]
    withdrawn_at: Mapped[datetime]
