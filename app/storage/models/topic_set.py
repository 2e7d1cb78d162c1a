"""Topic sets and what becomes of them: the items, the pass marks over time, assignments and sittings."""

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import BigInteger, CheckConstraint, ForeignKeyConstraint, Index, UniqueConstraint

from app.storage.base import Base, column, row
from app.storage.models.person import of_person


def of_topic_set() -> ForeignKeyConstraint:
    """Tie a row to a topic set of the same school."""
    return ForeignKeyConstraint(
        ["school_id", "topic_set_id"], ["topic_set.school_id", "topic_set.id"], ondelete="CASCADE"
    )


def of_assignment() -> ForeignKeyConstraint:
    """Tie a row to an assignment of the same school."""
    return ForeignKeyConstraint(
        ["school_id", "assignment_id"], ["assignment.school_id", "assignment.id"], ondelete="CASCADE"
    )


@row
class TopicSet(Base):
    """What an instructor puts together. `wish` says what it is drawn from, `conventions` under which house rules.

    numbers: "same" for everybody, or "own" for each student. reveal: when verdicts are shown. Locked: its items stay.
    """

    __tablename__ = "topic_set"
    __table_args__ = (
        ForeignKeyConstraint(["school_id"], ["school.id"], ondelete="CASCADE"),
        CheckConstraint("numbers IN ('same', 'own')", name="numbers"),
        CheckConstraint("reveal IN ('at-once', 'at-end', 'after-due')", name="reveal"),
        CheckConstraint("minutes >= 1", name="minutes"),
        CheckConstraint("pass_percent >= 0 AND pass_percent <= 100", name="pass_percent"),
        CheckConstraint("attempts_allowed >= 1", name="attempts_allowed"),
    )

    school_id: UUID = column(primary_key=True)
    id: UUID = column(primary_key=True)
    title: str
    note: str
    made_by: UUID
    wish: dict[str, Any]
    conventions: dict[str, Any]
    language: str | None
    seed: int = column(BigInteger)
    numbers: str
    reveal: str
    minutes: int | None
    pass_percent: int | None
    attempts_allowed: int
    version: int
    created_at: datetime
    changed_at: datetime
    locked_at: datetime | None = None
    archived_at: datetime | None = None


class TopicSetItem(Base):
    """One place of a topic set: which family is drawn there, from which seed, in which answer form."""

    __tablename__ = "topic_set_item"
    __table_args__ = (
        of_topic_set(),
        UniqueConstraint("school_id", "topic_set_id", "position"),
        CheckConstraint("position >= 1", name="position"),
    )

    school_id: UUID = column(primary_key=True)
    id: UUID = column(primary_key=True)
    topic_set_id: UUID
    position: int
    family: str
    family_version: int
    pack: str
    pack_version: int
    seed: int = column(BigInteger)
    form: str
    chosen_at: datetime


class PassMark(Base):
    """A pass mark that a topic set had from a moment on; the latest one holds."""

    __tablename__ = "pass_mark"
    __table_args__ = (of_topic_set(), Index(None, "school_id", "topic_set_id", "set_at"))

    school_id: UUID = column(primary_key=True)
    id: UUID = column(primary_key=True)
    topic_set_id: UUID
    percent: int | None
    set_by: UUID
    set_at: datetime


@row
class Assignment(Base):
    """A topic set given to a class, or to single students (AssignedPerson), due at a moment of a time zone."""

    __tablename__ = "assignment"
    __table_args__ = (
        of_topic_set(),
        ForeignKeyConstraint(
            ["school_id", "class_id"], ["school_class.school_id", "school_class.id"], ondelete="CASCADE"
        ),
        Index(None, "school_id", "topic_set_id"),
        Index(None, "school_id", "class_id"),
    )

    school_id: UUID = column(primary_key=True)
    id: UUID = column(primary_key=True)
    topic_set_id: UUID
    class_id: UUID | None
    due_at: datetime | None
    time_zone: str
    assigned_by: UUID
    assigned_at: datetime
    withdrawn_at: datetime | None = None


class AssignedPerson(Base):
    """One student an assignment is for, where it is not for a whole class."""

    __tablename__ = "assigned_person"
    __table_args__ = (of_assignment(), of_person(), Index(None, "school_id", "person_id"))

    school_id: UUID = column(primary_key=True)
    assignment_id: UUID = column(primary_key=True)
    person_id: UUID = column(primary_key=True)
    assigned_at: datetime


class Extension(Base):
    """A later due time for one student."""

    __tablename__ = "extension"
    __table_args__ = (of_assignment(), of_person())

    school_id: UUID = column(primary_key=True)
    assignment_id: UUID = column(primary_key=True)
    person_id: UUID = column(primary_key=True)
    due_at: datetime
    granted_by: UUID
    granted_at: datetime


@row
class Sitting(Base):
    """One go of a student at an assignment: a drill of its items, with a time limit where the set has one."""

    __tablename__ = "sitting"
    __table_args__ = (
        of_assignment(),
        of_person(),
        ForeignKeyConstraint(["school_id", "drill_id"], ["drill.school_id", "drill.id"], ondelete="CASCADE"),
        UniqueConstraint("school_id", "assignment_id", "person_id", "number"),
        UniqueConstraint("school_id", "drill_id"),
        Index(None, "school_id", "person_id"),
        CheckConstraint("number >= 1", name="number"),
    )

    school_id: UUID = column(primary_key=True)
    id: UUID = column(primary_key=True)
    assignment_id: UUID
    person_id: UUID
    number: int
    drill_id: UUID
    started_at: datetime
    ends_at: datetime | None
    finished_at: datetime | None = None
