"""Counting tries in one statement, so that workers that count at once count together on either database."""

from datetime import datetime
from typing import Any, NamedTuple
from uuid import UUID

from sqlalchemy import Connection, bindparam, case, delete, select, update

from app.storage.base import table_of
from app.storage.models import Throttle
from app.storage.upsert import Upsert

THROTTLE = table_of(Throttle)


class ThrottleKey(NamedTuple):
    """What tries are counted for; `subject` is a hash."""

    school_id: UUID
    kind: str
    subject: str


_ENDED = THROTTLE.c.began_at <= bindparam("oldest", type_=THROTTLE.c.began_at.type)
COUNT = Upsert(
    THROTTLE,
    lambda fresh: {
        "failures": case((_ENDED, fresh.failures), else_=THROTTLE.c.failures + fresh.failures),
        "began_at": case((_ENDED, fresh.began_at), else_=THROTTLE.c.began_at),
    },
)
_ONE = tuple(THROTTLE.c[name] == bindparam(f"of_{name}") for name in ("school_id", "kind", "subject"))
FIND = select(THROTTLE.c.failures, THROTTLE.c.began_at).where(*_ONE)
TAKE_BACK = update(THROTTLE).where(*_ONE, THROTTLE.c.failures > 0).values(failures=THROTTLE.c.failures - 1)
FORGET = delete(THROTTLE).where(*_ONE)


def count_one(connection: Connection, key: ThrottleKey, now: datetime, oldest: datetime) -> tuple[int, datetime]:
    """Count one more, from one again where counting began by `oldest`; return how many since when."""
    row = {"school_id": key.school_id, "kind": key.kind, "subject": key.subject, "failures": 1, "began_at": now}
    COUNT.run(connection, row | {"oldest": oldest})
    failures, began_at = connection.execute(FIND, _of(key)).one()
    return failures, began_at


def take_one_back(connection: Connection, key: ThrottleKey) -> None:
    """Count one less."""
    connection.execute(TAKE_BACK, _of(key))


def forget_throttle(connection: Connection, key: ThrottleKey) -> None:
    """Count from nothing again."""
    connection.execute(FORGET, _of(key))


def _of(key: ThrottleKey) -> dict[str, Any]:
    return {"of_school_id": key.school_id, "of_kind": key.kind, "of_subject": key.subject}
