"""Exam profiles of schools, rehearsals under a profile, and the answers kept while a rehearsal runs."""

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import ForeignKeyConstraint, UniqueConstraint

from app.storage.base import Base, column, row


@row
class ExamProfile(Base):
    """A school's own exam profile, copied from a built-in one; `profile` holds it whole."""

    __tablename__ = "exam_profile"
    __table_args__ = (ForeignKeyConstraint(["school_id"], ["school.id"], ondelete="CASCADE"),)

    school_id: UUID = column(primary_key=True)
    id: UUID = column(primary_key=True)
    profile: dict[str, Any]
    created_at: datetime
    changed_at: datetime
    version: int = 1


@row
class Rehearsal(Base):
    """A drill sat like an exam, under a profile as it was then.

    counts: section -> how many of its items the drill holds, one section after the other. strict: without pause.
    ends_at moves by every pause. submitted_at: the moment as of which it was marked, empty until it is.
    """

    __tablename__ = "rehearsal"
    __table_args__ = (
        ForeignKeyConstraint(["school_id", "drill_id"], ["drill.school_id", "drill.id"], ondelete="CASCADE"),
        UniqueConstraint("school_id", "drill_id"),
    )

    school_id: UUID = column(primary_key=True)
    id: UUID = column(primary_key=True)
    drill_id: UUID
    profile: dict[str, Any]
    counts: dict[str, int]
    strict: bool
    started_at: datetime
    ends_at: datetime
    paused_at: datetime | None = None
    submitted_at: datetime | None = None


@row
class RehearsalDraft(Base):
    """What was filled in for an item of a rehearsal so far, as the form sent it; nothing in it is graded."""

    __tablename__ = "rehearsal_draft"
    __table_args__ = (
        ForeignKeyConstraint(
            ["school_id", "drill_item_id"], ["drill_item.school_id", "drill_item.id"], ondelete="CASCADE"
        ),
    )

    school_id: UUID = column(primary_key=True)
    drill_item_id: UUID = column(primary_key=True)
    fields: dict[str, list[str]]
    flagged: bool
    changed_at: datetime
