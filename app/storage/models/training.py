"""The training record: entries are added; a correction is another entry that names the one it corrects."""

from datetime import date, datetime
from typing import Any
from uuid import UUID

from sqlalchemy import CheckConstraint, Index

from app.storage.base import Base, column, row
from app.storage.models.person import of_person


@row
class TrainingEntry(Base):
    """Something an instructor did with a student or notes of them; `initials` and name are those of that day.

    kind: ground school "taught" (with minutes), misconceptions "reviewed", a "note", or "recommended" for the written
    exam (details: what the checklist said, and the reason where it was overridden).
    """

    __tablename__ = "training_entry"
    __table_args__ = (
        of_person(),
        Index(None, "school_id", "person_id", "made_at"),
        CheckConstraint("kind IN ('taught', 'reviewed', 'note', 'recommended')", name="kind"),
        CheckConstraint("minutes >= 1", name="minutes"),
    )

    school_id: UUID = column(primary_key=True)
    id: UUID = column(primary_key=True)
    person_id: UUID
    kind: str
    day: date
    text: str
    minutes: int | None
    made_by: UUID
    made_by_name: str
    initials: str
    made_at: datetime
    corrects: UUID | None = None
    details: dict[str, Any] = column(default_factory=dict)
