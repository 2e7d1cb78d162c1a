"""Drills and their items, as they were chosen when the drill started."""

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import BigInteger, CheckConstraint, ForeignKeyConstraint, Index, UniqueConstraint

from app.storage.base import Base, column


class Drill(Base):
    """A run of items under one set of conventions, frozen when it starts.

    purpose: "practice", or what else decides when its verdicts may be seen: a "set" (Sitting) or a "rehearsal".
    A drill with an `aim` gets its items one by one, as they are asked for, until there are `planned` of them or it is
    `ends_at`; any other has all its items from the start.
    """

    __tablename__ = "drill"
    __table_args__ = (
        ForeignKeyConstraint(["school_id", "visit_id"], ["visit.school_id", "visit.id"], ondelete="CASCADE"),
        Index(None, "school_id", "visit_id", "started_at"),
        CheckConstraint("purpose IN ('practice', 'set', 'rehearsal')", name="purpose"),
        CheckConstraint("planned >= 1", name="planned"),
    )

    school_id: UUID = column(primary_key=True)
    id: UUID = column(primary_key=True)
    visit_id: UUID
    purpose: str
    topic: str | None
    seed: int = column(BigInteger)
    conventions: dict[str, Any]
    started_at: datetime
    aim: dict[str, Any] | None
    planned: int | None
    ends_at: datetime | None


class DrillItem(Base):
    """One place of a drill: which family is drawn there, from which seed, in which answer form."""

    __tablename__ = "drill_item"
    __table_args__ = (
        ForeignKeyConstraint(["school_id", "drill_id"], ["drill.school_id", "drill.id"], ondelete="CASCADE"),
        UniqueConstraint("school_id", "drill_id", "position"),
        CheckConstraint("position >= 1", name="position"),
    )

    school_id: UUID = column(primary_key=True)
    id: UUID = column(primary_key=True)
    drill_id: UUID
    position: int
    family: str
    family_version: int
    pack: str
    pack_version: int
    seed: int = column(BigInteger)
    form: str
