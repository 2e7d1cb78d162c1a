"""Measured difficulties: kept by the nightly command, read where items are chosen and by the pages."""

from collections.abc import Iterable
from dataclasses import asdict
from uuid import UUID

from sqlalchemy import Connection, bindparam, delete, func, insert, select

from app.storage.base import table_of
from app.storage.models import MeasuredDifficulty, WeekTally
from app.storage.prepared import Prepared

MEASURED, TALLY = table_of(MeasuredDifficulty), table_of(WeekTally)


_IN_SCHOOL = MEASURED.c.school_id == bindparam("school_id")
LIST_MEASURED = select(MEASURED).where(_IN_SCHOOL).order_by(MEASURED.c.family)
FIND_MEASURED = Prepared(select(MEASURED).where(_IN_SCHOOL, MEASURED.c.family == bindparam("family")))
ADD_MEASURED = insert(MEASURED)
FORGET_MEASURED = delete(MEASURED).where(_IN_SCHOOL)
VISITS_OF_SCHOOL = (
    select(TALLY.c.visit_id)
    .where(TALLY.c.school_id == bindparam("school_id"))
    .group_by(TALLY.c.visit_id)
    .order_by(func.max(TALLY.c.week).desc(), TALLY.c.visit_id)
)
FAMILIES_OF_VISIT = (
    select(TALLY.c.family)
    .where(TALLY.c.school_id == bindparam("school_id"), TALLY.c.visit_id == bindparam("visit_id"))
    .distinct()
)


def list_measured(connection: Connection, school_id: UUID) -> dict[str, MeasuredDifficulty]:
    """Return the measured difficulties of a school, by family."""
    rows = connection.execute(LIST_MEASURED, {"school_id": school_id}).mappings()
    return {row["family"]: MeasuredDifficulty(**row) for row in rows}


def find_measured(connection: Connection, school_id: UUID, family: str) -> MeasuredDifficulty | None:
    """Return a family's measured difficulty."""
    row = FIND_MEASURED.first(connection, {"school_id": school_id, "family": family})
    return MeasuredDifficulty(*row) if row else None


def replace_measured(connection: Connection, school_id: UUID, rows: Iterable[MeasuredDifficulty]) -> None:
    """Keep these in place of all that a school had."""
    connection.execute(FORGET_MEASURED, {"school_id": school_id})
    for row in rows:
        connection.execute(ADD_MEASURED, asdict(row))


def list_visits(connection: Connection, school_id: UUID) -> tuple[UUID, ...]:
    """Return who has answered anything in a school, whoever answered in the latest week first."""
    return tuple(connection.execute(VISITS_OF_SCHOOL, {"school_id": school_id}).scalars())


def families_of(connection: Connection, school_id: UUID, visit_id: UUID) -> frozenset[str]:
    """Return which families a visit answered."""
    of = {"school_id": school_id, "visit_id": visit_id}
    return frozenset(connection.execute(FAMILIES_OF_VISIT, of).scalars())
