"""Schools; people who practise without signing in belong to a reserved one."""

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import CheckConstraint, UniqueConstraint

from app.storage.base import Base, column, row

# Written by the first migration, so that school_id is never empty.
VISITORS_SCHOOL_ID = UUID("00000000-0000-4000-8000-000000000001")


@row
class School(Base):
    """A school: everything else belongs to one.

    `code` is what people type to say which school they sign in to. `conventions` are its house rules, empty while the
    default home is good enough; `retention` says how many days each kind of record is kept, `bars` what the school asks
    before it recommends anybody. A demonstration school holds invented people only. `own_revision` counts how often its
    own questions have changed.
    """

    __tablename__ = "school"
    __table_args__ = (
        UniqueConstraint("code"),
        CheckConstraint("language IN ('en', 'fr')", name="language"),
    )

    id: UUID = column(primary_key=True)
    code: str
    name: str
    language: str
    time_zone: str
    created_at: datetime
    conventions: dict[str, Any] = column(default_factory=dict)
    retention: dict[str, Any] = column(default_factory=dict)
    bars: dict[str, Any] = column(default_factory=dict)
    demonstration: bool = False
    version: int = 1
    own_revision: int = 0
