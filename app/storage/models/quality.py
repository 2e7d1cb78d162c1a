"""How good the questions are, counted by the nightly command so that no page reads all attempts."""

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import BigInteger, ForeignKeyConstraint

from app.storage.base import Base, column, row


@row
class FamilyQuality(Base):
    """What a school's answers to a family add up to.

    rest_*: sums over answers whose learner also answered other families, r being the share right there. times: whole
    seconds -> answers. offered, chosen: misconception -> options shown, options taken. unmatched: typed wrong answers
    that no misconception explains, by how they differ from the key.
    """

    __tablename__ = "family_quality"
    __table_args__ = (ForeignKeyConstraint(["school_id"], ["school.id"], ondelete="CASCADE"),)

    school_id: UUID = column(primary_key=True)
    family: str = column(primary_key=True)
    answers: int
    correct: int
    timed: int
    took_ms: int = column(BigInteger)
    rest_answers: int
    rest_correct: int
    rest_sum: float
    rest_squares: float
    rest_products: float
    times: dict[str, int]
    offered: dict[str, int]
    chosen: dict[str, int]
    unmatched: dict[str, int]
    counted_at: datetime


@row
class SetQuality(Base):
    """What the first sittings of a topic set with the same numbers for all add up to; `items` by position."""

    __tablename__ = "set_quality"
    __table_args__ = (
        ForeignKeyConstraint(
            ["school_id", "topic_set_id"], ["topic_set.school_id", "topic_set.id"], ondelete="CASCADE"
        ),
    )

    school_id: UUID = column(primary_key=True)
    topic_set_id: UUID = column(primary_key=True)
    students: int
    reliability: float | None
    low: float | None
    high: float | None
    model: str
    items: list[dict[str, Any]]
    counted_at: datetime


class QualityRun(Base):
    """Up to which attempt a school's answers have been counted into `family_quality`."""

    __tablename__ = "quality_run"
    __table_args__ = (ForeignKeyConstraint(["school_id"], ["school.id"], ondelete="CASCADE"),)

    school_id: UUID = column(primary_key=True)
    last_attempt_id: UUID
    ran_at: datetime
