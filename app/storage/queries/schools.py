"""Finding, keeping and changing schools."""

from collections.abc import Mapping
from dataclasses import asdict
from typing import Any
from uuid import UUID

from sqlalchemy import Connection, bindparam, insert, select, update
from sqlalchemy.exc import IntegrityError

from app.storage.base import table_of
from app.storage.models import VISITORS_SCHOOL_ID, School

SCHOOL = table_of(School)


class CodeTaken(Exception):
    """Another school has this code."""


class SchoolChanged(Exception):
    """Somebody has changed the school's settings since the version at hand."""


FIND = select(SCHOOL).where(SCHOOL.c.id == bindparam("school_id"))
FIND_BY_CODE = select(SCHOOL).where(SCHOOL.c.code == bindparam("code"))
LIST = select(SCHOOL).where(SCHOOL.c.id != VISITORS_SCHOOL_ID).order_by(SCHOOL.c.code)
ADD = insert(SCHOOL)
CHANGE = update(SCHOOL).where(SCHOOL.c.id == bindparam("of_id"), SCHOOL.c.version == bindparam("known_version"))


def find_school(connection: Connection, school_id: UUID) -> School | None:
    """Return a school."""
    row = connection.execute(FIND, {"school_id": school_id}).mappings().first()
    return School(**row) if row else None


def find_school_by_code(connection: Connection, code: str) -> School | None:
    """Return the school people mean by its code."""
    row = connection.execute(FIND_BY_CODE, {"code": code}).mappings().first()
    return School(**row) if row else None


def list_schools(connection: Connection) -> tuple[School, ...]:
    """Return every school but the visitors', by code."""
    return tuple(School(**row) for row in connection.execute(LIST).mappings())


def add_school(connection: Connection, school: School) -> None:
    """Keep a new school; raises CodeTaken."""
    try:
        connection.execute(ADD, asdict(school))
    except IntegrityError as error:
        raise CodeTaken(school.code) from error


def change_school(connection: Connection, school_id: UUID, known_version: int, changes: Mapping[str, Any]) -> None:
    """Change a school that is still at a version; raises SchoolChanged."""
    values = {**changes, "version": known_version + 1}
    done = connection.execute(CHANGE.values(values), {"of_id": school_id, "known_version": known_version})
    if done.rowcount == 0:
        raise SchoolChanged(school_id)
