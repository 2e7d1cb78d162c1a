"""Families that a school has withdrawn."""

from dataclasses import asdict, dataclass
from datetime import datetime
from uuid import UUID

from sqlalchemy import Connection, bindparam, delete, select

from app.storage.base import table_of
from app.storage.models import Withdrawal
from app.storage.upsert import Upsert

WITHDRAWAL = table_of(Withdrawal)


@dataclass(frozen=True, slots=True)
class WithdrawalRow:
    """A withdrawn family, up to a version."""

    school_id: UUID
    family: str
    version: int
    reason: str
    withdrawn_by: str
    withdrawn_at: datetime


LIST = select(WITHDRAWAL).where(WITHDRAWAL.c.school_id == bindparam("school_id")).order_by(WITHDRAWAL.c.family)
KEEP = Upsert(WITHDRAWAL, lambda new: {name: new[name] for name in WithdrawalRow.__slots__[2:]})
REMOVE = delete(WITHDRAWAL).where(
    WITHDRAWAL.c.school_id == bindparam("school_id"), WITHDRAWAL.c.family == bindparam("family")
)


def list_withdrawals(connection: Connection, school_id: UUID) -> tuple[WithdrawalRow, ...]:
    """Return what a school has withdrawn."""
    return tuple(WithdrawalRow(**row) for row in connection.execute(LIST, {"school_id": school_id}).mappings())


def keep_withdrawal(connection: Connection, row: WithdrawalRow) -> None:
    """Withdraw a family."""
    KEEP.run(connection, asdict(row))


def remove_withdrawal(connection: Connection, school_id: UUID, family: str) -> bool:
    """Bring a family back; False when it was not withdrawn."""
    return connection.execute(REMOVE, {"school_id": school_id, "family": family}).rowcount == 1
