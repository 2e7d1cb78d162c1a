"""What the learner model knows of a visit: its level, and each family's skill with its memory state.

All of it follows from the attempts and can be made anew from them.
"""

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import ForeignKeyConstraint, Index

from app.storage.base import Base, column


class Learner(Base):
    """A visit's level over all skills, on the logit scale."""

    __tablename__ = "learner"
    __table_args__ = (
        ForeignKeyConstraint(["school_id", "visit_id"], ["visit.school_id", "visit.id"], ondelete="CASCADE"),
    )

    school_id: UUID = column(primary_key=True)
    visit_id: UUID = column(primary_key=True)
    mean: float
    variance: float
    changed_at: datetime


class LearnerSkill(Base):
    """A visit's skill in one family.

    misconceptions: name -> probability now. met: name -> how often it was shown, when last, and its highest
    probability. best: the highest probability of mastery so far; since_gain: answers since it rose. Columns from
    `due_at` to `memory_state` are the memory model's, empty until an answer counted.
    """

    __tablename__ = "learner_skill"
    __table_args__ = (
        ForeignKeyConstraint(["school_id", "visit_id"], ["visit.school_id", "visit.id"], ondelete="CASCADE"),
        Index(None, "school_id", "visit_id", "due_at"),
    )

    school_id: UUID = column(primary_key=True)
    visit_id: UUID = column(primary_key=True)
    family: str = column(primary_key=True)
    mean: float
    variance: float
    answers: int
    correct: int
    last_at: datetime
    typed_right: int
    typed_right_days: list[str]
    misconceptions: dict[str, Any]
    met: dict[str, Any]
    mastered: bool
    best: float
    since_gain: int
    due_at: datetime | None
    reviewed_at: datetime | None
    stability: float | None
    memory_difficulty: float | None
    learning_step: int | None
    memory_state: int | None
    changed_at: datetime
