"""Schools; people who practise without signing in belong to a reserved one."""

from datetime import datetime
from uuid import UUID

from sqlalchemy.orm import Mapped, mapped_column

from app.storage.base import Base

# Written by the first migration, so that school_id is never empty.
VISITORS_SCHOOL_ID = UUID("00000000-0000-4000-8000-000000000001")


class School(Base):
    """A school: everything else belongs to one."""

    __tablename__ = "school"

    id: Mapped[UUID] = mapped_column(primary_key=True)
    name: Mapped[str]
    created_at: Mapped[datetime]
