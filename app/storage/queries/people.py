"""Finding and keeping people. Whoever asks names the school: nobody of another school is ever found."""

from collections.abc import Mapping
from dataclasses import asdict
from typing import Any
from uuid import UUID

from sqlalchemy import Connection, bindparam, insert, select, update
from sqlalchemy.exc import IntegrityError

from app.storage.base import table_of
from app.storage.models import Person, School

PERSON, SCHOOL = table_of(Person), table_of(School)


class LoginTaken(Exception):
    """Somebody of this school has this login name."""


_OF_SCHOOL = PERSON.c.school_id == bindparam("school_id")
FIND = select(PERSON).where(_OF_SCHOOL, PERSON.c.id == bindparam("person_id"))
FIND_BY_LOGIN = select(PERSON).where(_OF_SCHOOL, PERSON.c.login == bindparam("login"))
ADD = insert(PERSON)
LOCK_SCHOOL = select(SCHOOL.c.id).where(SCHOOL.c.id == bindparam("school_id")).with_for_update()
LOGINS = select(PERSON.c.login).where(_OF_SCHOOL)
LIST = select(PERSON).where(_OF_SCHOOL).order_by(PERSON.c.name, PERSON.c.login)
CHANGE = update(PERSON).where(PERSON.c.school_id == bindparam("of_school_id"), PERSON.c.id == bindparam("of_id"))
SET_PASSWORD = (
    update(PERSON)
    .where(PERSON.c.school_id == bindparam("of_school_id"), PERSON.c.id == bindparam("of_id"))
    .values(password_hash=bindparam("hashed"))
)


def find_person(connection: Connection, school_id: UUID, person_id: UUID) -> Person | None:
    """Return a person of a school, whether or not they have left."""
    row = connection.execute(FIND, {"school_id": school_id, "person_id": person_id}).mappings().first()
    return Person(**row) if row else None


def find_person_by_login(connection: Connection, school_id: UUID, login: str) -> Person | None:
    """Return the person of a school with this login name."""
    row = connection.execute(FIND_BY_LOGIN, {"school_id": school_id, "login": login}).mappings().first()
    return Person(**row) if row else None


def add_person(connection: Connection, person: Person) -> None:
    """Keep a new person, whose visit is kept already; raises LoginTaken."""
    try:
        connection.execute(ADD, asdict(person))
    except IntegrityError as error:
        raise LoginTaken(person.login) from error


def set_password(connection: Connection, school_id: UUID, person_id: UUID, hashed: str) -> None:
    """Keep another password's hash."""
    connection.execute(SET_PASSWORD, {"of_school_id": school_id, "of_id": person_id, "hashed": hashed})


def claim_logins(connection: Connection, school_id: UUID) -> frozenset[str]:
    """Return every login name of a school, also of those who have left; nobody else claims any until the end.

    Whoever makes accounts calls this first: two at once would choose the same free name.
    """
    connection.execute(LOCK_SCHOOL, {"school_id": school_id})
    return frozenset(connection.scalars(LOGINS, {"school_id": school_id}))


def list_people(connection: Connection, school_id: UUID) -> tuple[Person, ...]:
    """Return everybody of a school by name, also those who have left."""
    return tuple(Person(**row) for row in connection.execute(LIST, {"school_id": school_id}).mappings())


def change_person(connection: Connection, school_id: UUID, person_id: UUID, changes: Mapping[str, Any]) -> None:
    """Change a person's name, e-mail, role, or when they left."""
    connection.execute(CHANGE.values(**changes), {"of_school_id": school_id, "of_id": person_id})
