"""One-time codes: kept as hashes, found only while they hold."""

from dataclasses import asdict
from datetime import datetime
from uuid import UUID

from sqlalchemy import Connection, bindparam, insert, select, update

from app.storage.base import table_of
from app.storage.models import OneTimeCode

CODE = table_of(OneTimeCode)


_OF_PERSON = (CODE.c.school_id == bindparam("of_school_id"), CODE.c.person_id == bindparam("of_person_id"))
HOLDING = select(CODE).where(
    *_OF_PERSON,
    CODE.c.code_hash == bindparam("code_hash"),
    CODE.c.used_at.is_(None),
    CODE.c.expires_at > bindparam("now"),
)
ADD = insert(CODE)
USE_UP = update(CODE).where(*_OF_PERSON, CODE.c.used_at.is_(None)).values(used_at=bindparam("now"))


def find_holding_code(
    connection: Connection, school_id: UUID, person_id: UUID, code_hash: str, now: datetime
) -> OneTimeCode | None:
    """Return a person's code that has neither been used nor expired."""
    wanted = {"of_school_id": school_id, "of_person_id": person_id, "code_hash": code_hash, "now": now}
    row = connection.execute(HOLDING, wanted).mappings().first()
    return OneTimeCode(**row) if row else None


def add_code(connection: Connection, code: OneTimeCode) -> None:
    """Keep a new code."""
    connection.execute(ADD, asdict(code))


def use_up_codes(connection: Connection, school_id: UUID, person_id: UUID, now: datetime) -> None:
    """Make every code of a person worthless."""
    connection.execute(USE_UP, {"of_school_id": school_id, "of_person_id": person_id, "now": now})
