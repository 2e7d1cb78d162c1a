"""How difficult the kinds of questions turned out to be, measured by the nightly command from a school's answers."""

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import ForeignKeyConstraint

from app.storage.base import Base, column, row


@row
class MeasuredDifficulty(Base):
    """A family's difficulty in a school, in force for new answers from `measured_at` on.

    difficulty: {"plain": logits, "weights": {feature: logits}}. error: the standard error of `plain`. An answer keeps
    the difficulty it was judged with among its own evidence.
    """

    __tablename__ = "measured_difficulty"
    __table_args__ = (ForeignKeyConstraint(["school_id"], ["school.id"], ondelete="CASCADE"),)

    school_id: UUID = column(primary_key=True)
    family: str = column(primary_key=True)
    difficulty: dict[str, Any]
    error: float
    answers: int
    learners: int
    measured_at: datetime
