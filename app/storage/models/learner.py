"""What the learner model knows of a visit: its level, and each family's skill with its memory state.

All of it follows from the attempts and can be made anew from them.
"""

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import ForeignKeyConstraint, Index
from sqlalchemy.orm import Mapped, mapped_column

from app.storage.base import Base


class Learner(Base):
    """A visit's level over all skills, on the logit scale."""

    __tablename__ = "learner"
    __table_args__ = (
        ForeignKeyConstraint(["school_id", "visit_id"], ["visit.school_id", "visit.id"], ondelete="CASCADE"),
    )

    school_id: Mapped[UUID] = mapped_column(primary_key=True)
    visit_id: Mapped[UUID] = mapped_column(primary_key=True)
    mean: Mapped[float]
    variance: Mapped[float]
    changed_at: Mapped[datetime]


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

    school_id: Mapped[UUID] = mapped_column(primary_key=True)
    visit_id: Mapped[UUID] = mapped_column(primary_key=True)
    family: Mapped[str] = mapped_column(primary_key=True)
    mean: Mapped[float]
    variance: Mapped[float]
    answers: Mapped[int]
    correct: Mapped[int]
    last_at: Mapped[datetime]
    typed_right: Mapped[int]
    typed_right_days: Mapped[list[str]]
    misconceptions: Mapped[dict[str, Any]]
    met: Mapped[dict[str, Any]]
    mastered: Mapped[bool]
    best: Mapped[float]
    since_gain: Mapped[int]
    due_at: Mapped[datetime | None]
    reviewed_at: Mapped[datetime | None]
    stability: Mapped[float | None]
    memory_difficulty: Mapped[float | None]
    learning_step: Mapped[int | None]
    memory_state: Mapped[int | None]
    changed_at: Mapped[datetime]
