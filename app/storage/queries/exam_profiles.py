"""The exam profiles that schools keep for themselves."""

from dataclasses import asdict
from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import Connection, bindparam, delete, insert, select, update

from app.storage.base import table_of
from app.storage.models import ExamProfile

PROFILE = table_of(ExamProfile)


_OWN = (PROFILE.c.school_id == bindparam("of_school"), PROFILE.c.id == bindparam("profile_id"))
FIND = select(PROFILE).where(*_OWN)
LIST = select(PROFILE).where(PROFILE.c.school_id == bindparam("of_school")).order_by(PROFILE.c.created_at, PROFILE.c.id)
ADD = insert(PROFILE)
CHANGE = (
    update(PROFILE)
    .where(*_OWN, PROFILE.c.version == bindparam("seen_version"))
    .values(
        profile=bindparam("new_profile"), changed_at=bindparam("new_changed_at"), version=bindparam("seen_version") + 1
    )
)
REMOVE = delete(PROFILE).where(*_OWN)


def list_profiles(connection: Connection, school_id: UUID) -> tuple[ExamProfile, ...]:
    """Return a school's own profiles, the oldest first."""
    return tuple(ExamProfile(**row) for row in connection.execute(LIST, {"of_school": school_id}).mappings())


def find_profile(connection: Connection, school_id: UUID, profile_id: UUID) -> ExamProfile | None:
    """Return one of a school's own profiles."""
    row = connection.execute(FIND, {"of_school": school_id, "profile_id": profile_id}).mappings().first()
    return ExamProfile(**row) if row else None


def add_profile(connection: Connection, row: ExamProfile) -> None:
    """Keep a new profile."""
    connection.execute(ADD, asdict(row))


def change_profile(
    connection: Connection, of: tuple[UUID, UUID], version: int, profile: dict[str, Any], now: datetime
) -> bool:
    """Change a profile, (school, id), last seen in this version; False when somebody was quicker."""
    values = {"of_school": of[0], "profile_id": of[1], "seen_version": version}
    result = connection.execute(CHANGE, values | {"new_profile": profile, "new_changed_at": now})
    return result.rowcount == 1


def remove_profile(connection: Connection, school_id: UUID, profile_id: UUID) -> None:
    """Take a profile away; rehearsals keep their own copy."""
    connection.execute(REMOVE, {"of_school": school_id, "profile_id": profile_id})
