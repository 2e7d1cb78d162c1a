"""What a visit answered, counted: kept with each answer, so that no page has to read all attempts."""

from datetime import date, datetime
from uuid import UUID

from sqlalchemy import CheckConstraint, ForeignKeyConstraint

from app.storage.base import Base, column


class WeekTally(Base):
    """Answers of one visit to one family in one week; `week` is its Monday, in UTC.

    `timed` of the answers came with a time; `took_ms` is their sum.
    """

    __tablename__ = "week_tally"
    __table_args__ = (
        ForeignKeyConstraint(["school_id", "visit_id"], ["visit.school_id", "visit.id"], ondelete="CASCADE"),
        CheckConstraint("answers >= 1 AND correct >= 0 AND correct <= answers", name="answers"),
    )

    school_id: UUID = column(primary_key=True)
    visit_id: UUID = column(primary_key=True)
    family: str = column(primary_key=True)
    week: date = column(primary_key=True)
    answers: int
    correct: int
    timed: int
    took_ms: int
    changed_at: datetime


class ErasedTally(Base):
    """Answers to one family in one week by people and visitors who were erased: counts that are nobody's."""

    __tablename__ = "erased_tally"
    __table_args__ = (ForeignKeyConstraint(["school_id"], ["school.id"], ondelete="CASCADE"),)

    school_id: UUID = column(primary_key=True)
    family: str = column(primary_key=True)
    week: date = column(primary_key=True)
    answers: int
    correct: int
    timed: int
    took_ms: int
    changed_at: datetime
