"""Classes: who teaches them, who is in them and since when."""

from datetime import datetime
from uuid import UUID

from sqlalchemy import ForeignKeyConstraint, Index, UniqueConstraint

from app.storage.base import Base, column, row
from app.storage.models.person import of_person


def of_class() -> ForeignKeyConstraint:
    """Tie a row to a class of the same school."""
    return ForeignKeyConstraint(
        ["school_id", "class_id"], ["school_class.school_id", "school_class.id"], ondelete="CASCADE"
    )


@row
class SchoolClass(Base):
    """A class of a school. Whoever knows its join code may join as a student until `joining_ends_at`."""

    __tablename__ = "school_class"
    __table_args__ = (
        ForeignKeyConstraint(["school_id"], ["school.id"], ondelete="CASCADE"),
        UniqueConstraint("school_id", "join_code"),
    )

    school_id: UUID = column(primary_key=True)
    id: UUID = column(primary_key=True)
    name: str
    created_at: datetime
    join_code: str | None = None
    joining_ends_at: datetime | None = None
    version: int = 1
    archived_at: datetime | None = None


class ClassInstructor(Base):
    """An instructor teaches a class."""

    __tablename__ = "class_instructor"
    __table_args__ = (of_class(), of_person(), Index(None, "school_id", "person_id"))

    school_id: UUID = column(primary_key=True)
    class_id: UUID = column(primary_key=True)
    person_id: UUID = column(primary_key=True)
    added_at: datetime


class Enrolment(Base):
    """A student is in a class, from a day on, until they leave it; their history goes with them."""

    __tablename__ = "enrolment"
    __table_args__ = (of_class(), of_person(), Index(None, "school_id", "person_id"))

    school_id: UUID = column(primary_key=True)
    class_id: UUID = column(primary_key=True)
    person_id: UUID = column(primary_key=True)
    joined_at: datetime
    left_at: datetime | None
