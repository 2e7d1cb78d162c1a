"""Counts of tries, by what they are counted for."""

from dataclasses import asdict, dataclass
from datetime import datetime
from uuid import UUID

from sqlalchemy import Connection, bindparam, delete, select

from app.storage.base import table_of
from app.storage.models import Throttle
from app.storage.upsert import Upsert

THROTTLE = table_of(Throttle)


@dataclass(frozen=True, slots=True)
class ThrottleRow:
    """How often something was tried since a moment."""

    school_id: UUID
    kind: str
    subject: str
    failures: int
    began_at: datetime


_ONE = tuple(THROTTLE.c[name] == bindparam(name) for name in ("school_id", "kind", "subject"))
FIND = select(THROTTLE).where(*_ONE)
KEEP = Upsert(THROTTLE, lambda new: {"failures": new.failures, "began_at": new.began_at})
FORGET = delete(THROTTLE).where(*_ONE)


def find_throttle(connection: Connection, school_id: UUID, kind: str, subject: str) -> ThrottleRow | None:
    """Return the count for a subject."""
    row = connection.execute(FIND, {"school_id": school_id, "kind": kind, "subject": subject}).mappings().first()
    return ThrottleRow(**row) if row else None


def keep_throttle(connection: Connection, row: ThrottleRow) -> None:
    """Keep a count."""
    KEEP.run(connection, asdict(row))


def forget_throttle(connection: Connection, school_id: UUID, kind: str, subject: str) -> None:
    """Take a count away."""
    connection.execute(FORGET, {"school_id": school_id, "kind": kind, "subject": subject})
