"""Sign-ins: found by the hash of their token, together with whose they are."""

from dataclasses import asdict
from datetime import datetime
from typing import Any, NamedTuple
from uuid import UUID

from sqlalchemy import Connection, bindparam, insert, select, update

from app.storage.base import table_of
from app.storage.models import Person, School, SignIn, Visit
from app.storage.prepared import Prepared

SIGN_IN, PERSON, VISIT, SCHOOL = table_of(SignIn), table_of(Person), table_of(Visit), table_of(School)


class SignedInRow(NamedTuple):
    """A sign-in that may still hold, with the person it is of, their language, and the house rules of new draws."""

    id: UUID
    school_id: UUID
    person_id: UUID
    visit_id: UUID
    role: str
    name: str
    language: str
    time_zone: str
    conventions: dict[str, Any]
    school_conventions: dict[str, Any]
    own_revision: int
    seen_at: datetime
    idle_until: datetime
    ends_at: datetime


_OF_PERSON = (PERSON.c.school_id == SIGN_IN.c.school_id) & (PERSON.c.id == SIGN_IN.c.person_id)
_OF_VISIT = (VISIT.c.school_id == PERSON.c.school_id) & (VISIT.c.id == PERSON.c.visit_id)
FIND = Prepared(
    select(
        *(SIGN_IN.c[name] for name in ("id", "school_id", "person_id")),
        *(PERSON.c[name] for name in ("visit_id", "role", "name")),
        VISIT.c.language,
        SCHOOL.c.time_zone,
        VISIT.c.conventions,
        SCHOOL.c.conventions.label("school_conventions"),
        SCHOOL.c.own_revision,
        *(SIGN_IN.c[name] for name in ("seen_at", "idle_until", "ends_at")),
    )
    .select_from(
        SIGN_IN.join(PERSON, _OF_PERSON).join(VISIT, _OF_VISIT).join(SCHOOL, SCHOOL.c.id == SIGN_IN.c.school_id)
    )
    .where(
        SIGN_IN.c.school_id == bindparam("school_id"),
        SIGN_IN.c.token_hash == bindparam("token_hash"),
        SIGN_IN.c.revoked_at.is_(None),
        PERSON.c.left_at.is_(None),
    )
)
ADD = insert(SIGN_IN)
_ONE = (SIGN_IN.c.school_id == bindparam("of_school_id"), SIGN_IN.c.id == bindparam("of_id"))
TOUCH = update(SIGN_IN).where(*_ONE).values(seen_at=bindparam("seen_at"), idle_until=bindparam("idle_until"))
SEE_PERSON = (
    update(PERSON)
    .where(PERSON.c.school_id == bindparam("of_school_id"), PERSON.c.id == bindparam("of_id"))
    .values(seen_at=bindparam("seen_at"))
)
REVOKE = (
    update(SIGN_IN)
    .where(SIGN_IN.c.school_id == bindparam("of_school_id"), SIGN_IN.c.token_hash == bindparam("of_hash"))
    .values(revoked_at=bindparam("revoked_at"))
)
LIST = (
    select(SIGN_IN)
    .where(
        SIGN_IN.c.school_id == bindparam("school_id"),
        SIGN_IN.c.person_id == bindparam("person_id"),
        SIGN_IN.c.revoked_at.is_(None),
        SIGN_IN.c.idle_until > bindparam("now"),
        SIGN_IN.c.ends_at > bindparam("now"),
    )
    .order_by(SIGN_IN.c.seen_at.desc(), SIGN_IN.c.id)
)
REVOKE_ONE = (
    update(SIGN_IN)
    .where(*_ONE, SIGN_IN.c.person_id == bindparam("of_person_id"), SIGN_IN.c.revoked_at.is_(None))
    .values(revoked_at=bindparam("revoked_at"))
)
REVOKE_ALL = (
    update(SIGN_IN)
    .where(
        SIGN_IN.c.school_id == bindparam("of_school_id"),
        SIGN_IN.c.person_id == bindparam("of_id"),
        SIGN_IN.c.revoked_at.is_(None),
    )
    .values(revoked_at=bindparam("now"))
)


def find_sign_in(connection: Connection, school_id: UUID, token_hash: str) -> SignedInRow | None:
    """Return the sign-in with this token, expired or not; none that was revoked or whose person has left."""
    row = FIND.first(connection, {"school_id": school_id, "token_hash": token_hash})
    return SignedInRow(*row) if row else None


def add_sign_in(connection: Connection, sign_in: SignIn) -> None:
    """Keep a new sign-in."""
    connection.execute(ADD, asdict(sign_in))
    see_person(connection, sign_in.school_id, sign_in.person_id, sign_in.seen_at)


def touch_sign_in(connection: Connection, found: SignedInRow, seen_at: datetime, idle_until: datetime) -> None:
    """Note that a sign-in is in use."""
    of = {"of_school_id": found.school_id, "of_id": found.id}
    connection.execute(TOUCH, of | {"seen_at": seen_at, "idle_until": idle_until})
    see_person(connection, found.school_id, found.person_id, seen_at)


def see_person(connection: Connection, school_id: UUID, person_id: UUID, seen_at: datetime) -> None:
    """Note when a person was last seen."""
    connection.execute(SEE_PERSON, {"of_school_id": school_id, "of_id": person_id, "seen_at": seen_at})


def revoke_sign_in(connection: Connection, school_id: UUID, token_hash: str, revoked_at: datetime) -> None:
    """Make a token worthless."""
    connection.execute(REVOKE, {"of_school_id": school_id, "of_hash": token_hash, "revoked_at": revoked_at})


def revoke_all(connection: Connection, school_id: UUID, person_id: UUID, now: datetime) -> None:
    """Make every token of a person worthless."""
    connection.execute(REVOKE_ALL, {"of_school_id": school_id, "of_id": person_id, "now": now})


def list_sign_ins(connection: Connection, school_id: UUID, person_id: UUID, now: datetime) -> tuple[SignIn, ...]:
    """Return the sign-ins of a person that hold, the one in use last first."""
    found = {"school_id": school_id, "person_id": person_id, "now": now}
    return tuple(SignIn(**row) for row in connection.execute(LIST, found).mappings())


def revoke_one(connection: Connection, school_id: UUID, person_id: UUID, sign_in_id: UUID, now: datetime) -> bool:
    """Make one token of a person worthless; False where there is none of theirs that holds."""
    of = {"of_school_id": school_id, "of_person_id": person_id, "of_id": sign_in_id, "revoked_at": now}
    return connection.execute(REVOKE_ONE, of).rowcount == 1
