"""Measured difficulties: kept by the nightly command, read where items are chosen and by the pages."""

from collections.abc import Iterable
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import Connection, bindparam, delete, insert, select

from app.storage.base import table_of
from app.storage.models import Attempt, MeasuredDifficulty

MEASURED, ATTEMPT = table_of(MeasuredDifficulty), table_of(Attempt)


@dataclass(frozen=True, slots=True)
class MeasuredRow:
    """A family's measured difficulty as it is kept."""

    school_id: UUID
    family: str
    difficulty: dict[str, Any]
    error: float
    answers: int
    learners: int
    measured_at: datetime


_IN_SCHOOL = MEASURED.c.school_id == bindparam("school_id")
LIST_MEASURED = select(MEASURED).where(_IN_SCHOOL).order_by(MEASURED.c.family)
FIND_MEASURED = select(MEASURED).where(_IN_SCHOOL, MEASURED.c.family == bindparam("family"))
ADD_MEASURED = insert(MEASURED)
FORGET_MEASURED = delete(MEASURED).where(_IN_SCHOOL)
VISITS_OF_SCHOOL = (
    select(ATTEMPT.c.visit_id)
    .where(ATTEMPT.c.school_id == bindparam("school_id"))
    .distinct()
    .order_by(ATTEMPT.c.visit_id)
)


def list_measured(connection: Connection, school_id: UUID) -> dict[str, MeasuredRow]:
    """Return the measured difficulties of a school, by family."""
    rows = connection.execute(LIST_MEASURED, {"school_id": school_id}).mappings()
    return {row["family"]: MeasuredRow(**row) for row in rows}


def find_measured(connection: Connection, school_id: UUID, family: str) -> MeasuredRow | None:
    """Return a family's measured difficulty."""
    row = connection.execute(FIND_MEASURED, {"school_id": school_id, "family": family}).mappings().first()
    return MeasuredRow(**row) if row else None


def replace_measured(connection: Connection, school_id: UUID, rows: Iterable[MeasuredRow]) -> None:
    """Keep these in place of all that a school had."""
    connection.execute(FORGET_MEASURED, {"school_id": school_id})
    for row in rows:
        connection.execute(ADD_MEASURED, asdict(row))


def list_visits(connection: Connection, school_id: UUID) -> tuple[UUID, ...]:
    """Return who has answered anything in a school."""
    return tuple(connection.execute(VISITS_OF_SCHOOL, {"school_id": school_id}).scalars())
