"""Finding and keeping visits; a visit is found by the hash of its token alone."""

from dataclasses import asdict
from datetime import datetime
from typing import Any, NamedTuple
from uuid import UUID

from sqlalchemy import Connection, bindparam, insert, select, update

from app.storage.base import table_of
from app.storage.models import Visit
from app.storage.prepared import Prepared


class HeldRow(NamedTuple):
    """A visit as whoever holds its token finds it."""

    id: UUID
    language: str
    conventions: dict[str, Any]
    seen_at: datetime
    idle_until: datetime
    ends_at: datetime


VISIT = table_of(Visit)
ONE = (VISIT.c.school_id == bindparam("of_school_id"), VISIT.c.id == bindparam("of_visit_id"))


FIND = Prepared(
    select(*(VISIT.c[name] for name in HeldRow._fields)).where(
        VISIT.c.school_id == bindparam("school_id"),
        VISIT.c.token_hash == bindparam("token_hash"),
        VISIT.c.revoked_at.is_(None),
    )
)
ADD = insert(VISIT)
TOUCH = update(VISIT).where(*ONE).values(seen_at=bindparam("seen_at"), idle_until=bindparam("idle_until"))
CHANGE_LANGUAGE = update(VISIT).where(*ONE).values(language=bindparam("language"))
CHANGE_CONVENTIONS = update(VISIT).where(*ONE).values(conventions=bindparam("conventions"))
REVOKE = update(VISIT).where(*ONE).values(revoked_at=bindparam("revoked_at"))


def find_visit(connection: Connection, school_id: UUID, token_hash: str) -> HeldRow | None:
    """Return the visit with this token, expired or not, but not revoked."""
    row = FIND.first(connection, {"school_id": school_id, "token_hash": token_hash})
    return HeldRow(*row) if row else None


def add_visit(connection: Connection, visit: Visit) -> None:
    """Keep a new visit."""
    connection.execute(ADD, asdict(visit))


def touch_visit(
    connection: Connection, school_id: UUID, visit_id: UUID, seen_at: datetime, idle_until: datetime
) -> None:
    """Note that a visit is in use."""
    connection.execute(TOUCH, _of(school_id, visit_id) | {"seen_at": seen_at, "idle_until": idle_until})


def change_language(connection: Connection, school_id: UUID, visit_id: UUID, language: str) -> None:
    """Keep the language a visit reads."""
    connection.execute(CHANGE_LANGUAGE, _of(school_id, visit_id) | {"language": language})


def change_conventions(connection: Connection, school_id: UUID, visit_id: UUID, conventions: dict[str, Any]) -> None:
    """Keep the conventions of a visit's next drills."""
    connection.execute(CHANGE_CONVENTIONS, _of(school_id, visit_id) | {"conventions": conventions})


def revoke_visit(connection: Connection, school_id: UUID, visit_id: UUID, revoked_at: datetime) -> None:
    """Make a visit's token worthless."""
    connection.execute(REVOKE, _of(school_id, visit_id) | {"revoked_at": revoked_at})


def _of(school_id: UUID, visit_id: UUID) -> dict[str, Any]:
    return {"of_school_id": school_id, "of_visit_id": visit_id}
