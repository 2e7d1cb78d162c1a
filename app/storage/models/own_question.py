"""Questions that a school's own instructors write: what is being written, and what is asked."""

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import CheckConstraint, ForeignKeyConstraint

from app.storage.base import Base, column, row


@row
class OwnQuestion(Base):
    """A question of a school's own. Retired: asked no more; what was answered stays."""

    __tablename__ = "own_question"
    __table_args__ = (ForeignKeyConstraint(["school_id"], ["school.id"], ondelete="CASCADE"),)

    school_id: UUID = column(primary_key=True)
    id: UUID = column(primary_key=True)
    made_by: UUID
    made_at: datetime
    retired_at: datetime | None = None


@row
class OwnVersion(Base):
    """One version of an own question: `body` as written, `edits` counts its changes. Released: it changes no more.

    note: why whoever read it last gave it back, empty where nobody did. released_by may be whoever wrote it only where
    nobody else of the school could read it.
    """

    __tablename__ = "own_version"
    __table_args__ = (
        ForeignKeyConstraint(
            ["school_id", "question_id"], ["own_question.school_id", "own_question.id"], ondelete="CASCADE"
        ),
        CheckConstraint("version >= 1", name="version"),
    )

    school_id: UUID = column(primary_key=True)
    question_id: UUID = column(primary_key=True)
    version: int = column(primary_key=True)
    edits: int
    body: dict[str, Any]
    written_by: UUID
    written_at: datetime
    note: str = ""
    released_by: UUID | None = None
    released_at: datetime | None = None
