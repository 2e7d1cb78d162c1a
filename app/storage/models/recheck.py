"""Where a topic set came from when it was made from a weak spot, and the figures of that day."""

from datetime import datetime
from uuid import UUID

from sqlalchemy import CheckConstraint, ForeignKeyConstraint, Index

from app.storage.base import Base, column, row
from app.storage.models.person import of_person
from app.storage.models.topic_set import of_topic_set


@row
class Recheck(Base):
    """A topic set made from a weak spot of a class: of one family, and of one misconception in it where one is named.

    `students` stood behind the row it was made from; those it is for are RecheckPerson.
    """

    __tablename__ = "recheck"
    __table_args__ = (
        of_topic_set(),
        ForeignKeyConstraint(
            ["school_id", "class_id"], ["school_class.school_id", "school_class.id"], ondelete="CASCADE"
        ),
        Index(None, "school_id", "class_id", "made_at"),
        CheckConstraint("students >= 1", name="students"),
    )

    school_id: UUID = column(primary_key=True)
    topic_set_id: UUID = column(primary_key=True)
    class_id: UUID
    family: str
    misconception: str | None
    students: int
    made_at: datetime


class RecheckPerson(Base):
    """What was known of one student then: the chance that they carry the misconception, and answers to the family."""

    __tablename__ = "recheck_person"
    __table_args__ = (
        ForeignKeyConstraint(
            ["school_id", "topic_set_id"], ["recheck.school_id", "recheck.topic_set_id"], ondelete="CASCADE"
        ),
        of_person(),
        Index(None, "school_id", "person_id"),
        CheckConstraint("chance >= 0 AND chance <= 1", name="chance"),
        CheckConstraint("answers >= 1 AND correct >= 0 AND correct <= answers", name="answers"),
    )

    school_id: UUID = column(primary_key=True)
    topic_set_id: UUID = column(primary_key=True)
    person_id: UUID = column(primary_key=True)
    chance: float | None
    answers: int
    correct: int
