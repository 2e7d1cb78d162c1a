"""How good the questions are, counted by the nightly command so that no page reads all attempts."""

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import BigInteger, ForeignKeyConstraint
from sqlalchemy.orm import Mapped, mapped_column

from app.storage.base import Base


class FamilyQuality(Base):
    """What a school's answers to a family add up to.

    rest_*: sums over answers whose learner also answered other families, r being the share right there. times: whole
    seconds -> answers. offered, chosen: misconception -> options shown, options taken. unmatched: typed wrong answers
    that no misconception explains, by how they differ from the key.
    """

    __tablename__ = "family_quality"
    __table_args__ = (ForeignKeyConstraint(["school_id"], ["school.id"], ondelete="CASCADE"),)

    school_id: Mapped[UUID] = mapped_column(primary_key=True)
    family: Mapped[str] = mapped_column(primary_key=True)
    answers: Mapped[int]
    correct: Mapped[int]
    timed: Mapped[int]
    took_ms: Mapped[int] = mapped_column(BigInteger)
    rest_answers: Mapped[int]
    rest_correct: Mapped[int]
    rest_sum: Mapped[float]
    rest_squares: Mapped[float]
    rest_products: Mapped[float]
    times: Mapped[dict[str, Any]]
    offered: Mapped[dict[str, Any]]
    chosen: Mapped[dict[str, Any]]
    unmatched: Mapped[dict[str, Any]]
    counted_at: Mapped[datetime]


class SetQuality(Base):
    """What the first sittings of a topic set with the same numbers for all add up to; `items` by position."""

    __tablename__ = "set_quality"
    __table_args__ = (
        ForeignKeyConstraint(
            ["school_id", "topic_set_id"], ["topic_set.school_id", "topic_set.id"], ondelete="CASCADE"
        ),
    )

    school_id: Mapped[UUID] = mapped_column(primary_key=True)
    topic_set_id: Mapped[UUID] = mapped_column(primary_key=True)
    students: Mapped[int]
    reliability: Mapped[float | None]
    low: Mapped[float | None]
    high: Mapped[float | None]
    model: Mapped[str]
    items: Mapped[list[dict[str, Any]]]
    counted_at: Mapped[datetime]


class QualityRun(Base):
    """Up to which attempt a school's answers have been counted into `family_quality`."""

    __tablename__ = "quality_run"
    __table_args__ = (ForeignKeyConstraint(["school_id"], ["school.id"], ondelete="CASCADE"),)

    school_id: Mapped[UUID] = mapped_column(primary_key=True)
    last_attempt_id: Mapped[UUID]
    ran_at: Mapped[datetime]
