"""Families that a school has withdrawn."""

from dataclasses import asdict
from itertools import starmap
from uuid import UUID

from sqlalchemy import Connection, bindparam, delete, select

from app.storage.base import table_of
from app.storage.models import Withdrawal
from app.storage.prepared import Prepared
from app.storage.upsert import Upsert

WITHDRAWAL = table_of(Withdrawal)


LIST = Prepared(
    select(WITHDRAWAL).where(WITHDRAWAL.c.school_id == bindparam("school_id")).order_by(WITHDRAWAL.c.family)
)
KEEP = Upsert(WITHDRAWAL)
REMOVE = delete(WITHDRAWAL).where(
    WITHDRAWAL.c.school_id == bindparam("school_id"), WITHDRAWAL.c.family == bindparam("family")
)


def list_withdrawals(connection: Connection, school_id: UUID) -> tuple[Withdrawal, ...]:
    """Return what a school has withdrawn."""
    return tuple(starmap(Withdrawal, LIST.rows(connection, {"school_id": school_id})))


def keep_withdrawal(connection: Connection, row: Withdrawal) -> None:
    """Withdraw a family."""
    KEEP.run(connection, asdict(row))


def remove_withdrawal(connection: Connection, school_id: UUID, family: str) -> bool:
    """Bring a family back; False when it was not withdrawn."""
    return connection.execute(REMOVE, {"school_id": school_id, "family": family}).rowcount == 1
