"""Topic sets and what becomes of them: the items, the pass marks over time, assignments and sittings."""

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import BigInteger, CheckConstraint, ForeignKeyConstraint, Index, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from app.storage.base import Base
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

    school_id: Mapped[UUID] = mapped_column(primary_key=True)
    id: Mapped[UUID] = mapped_column(primary_key=True)
    title: Mapped[str]
    note: Mapped[str]
    made_by: Mapped[UUID]
    wish: Mapped[dict[str, Any]]
    conventions: Mapped[dict[str, Any]]
    language: Mapped[str | None]
    seed: Mapped[int] = mapped_column(BigInteger)
    numbers: Mapped[str]
    reveal: Mapped[str]
    minutes: Mapped[int | None]
    pass_percent: Mapped[int | None]
    attempts_allowed: Mapped[int]
    version: Mapped[int]
    created_at: Mapped[datetime]
    changed_at: Mapped[datetime]
    locked_at: Mapped[datetime | None]
    archived_at: Mapped[datetime | None]


class TopicSetItem(Base):
    """One place of a topic set: which family is drawn there, from which seed, in which answer form."""

    __tablename__ = "topic_set_item"
    __table_args__ = (
        of_topic_set(),
        UniqueConstraint("school_id", "topic_set_id", "position"),
        CheckConstraint("position >= 1", name="position"),
    )

    school_id: Mapped[UUID] = mapped_column(primary_key=True)
    id: Mapped[UUID] = mapped_column(primary_key=True)
    topic_set_id: Mapped[UUID]
    position: Mapped[int]
    family: Mapped[str]
    family_version: Mapped[int]
    pack: Mapped[str]
    pack_version: Mapped[int]
    seed: Mapped[int] = mapped_column(BigInteger)
    form: Mapped[str]
    chosen_at: Mapped[datetime]


class PassMark(Base):
    """A pass mark that a topic set had from a moment on; the latest one holds."""

    __tablename__ = "pass_mark"
    __table_args__ = (of_topic_set(), Index(None, "school_id", "topic_set_id", "set_at"))

    school_id: Mapped[UUID] = mapped_column(primary_key=True)
    id: Mapped[UUID] = mapped_column(primary_key=True)
    topic_set_id: Mapped[UUID]
    percent: Mapped[int | None]
    set_by: Mapped[UUID]
    set_at: Mapped[datetime]


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

    school_id: Mapped[UUID] = mapped_column(primary_key=True)
    id: Mapped[UUID] = mapped_column(primary_key=True)
    topic_set_id: Mapped[UUID]
    class_id: Mapped[UUID | None]
    due_at: Mapped[datetime | None]
    time_zone: Mapped[str]
    assigned_by: Mapped[UUID]
    assigned_at: Mapped[datetime]
    withdrawn_at: Mapped[datetime | None]


class AssignedPerson(Base):
    """One student an assignment is for, where it is not for a whole class."""

    __tablename__ = "assigned_person"
    __table_args__ = (of_assignment(), of_person(), Index(None, "school_id", "person_id"))

    school_id: Mapped[UUID] = mapped_column(primary_key=True)
    assignment_id: Mapped[UUID] = mapped_column(primary_key=True)
    person_id: Mapped[UUID] = mapped_column(primary_key=True)
    assigned_at: Mapped[datetime]


class Extension(Base):
    """A later due time for one student."""

    __tablename__ = "extension"
    __table_args__ = (of_assignment(), of_person())

    school_id: Mapped[UUID] = mapped_column(primary_key=True)
    assignment_id: Mapped[UUID] = mapped_column(primary_key=True)
    person_id: Mapped[UUID] = mapped_column(primary_key=True)
    due_at: Mapped[datetime]
    granted_by: Mapped[UUID]
    granted_at: Mapped[datetime]


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

    school_id: Mapped[UUID] = mapped_column(primary_key=True)
    id: Mapped[UUID] = mapped_column(primary_key=True)
    assignment_id: Mapped[UUID]
    person_id: Mapped[UUID]
    number: Mapped[int]
    drill_id: Mapped[UUID]
    started_at: Mapped[datetime]
    ends_at: Mapped[datetime | None]
    finished_at: Mapped[datetime | None]
