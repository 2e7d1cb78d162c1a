"""Making accounts: a person and the lasting visit under which all they answer is kept."""

from datetime import datetime, timedelta
from typing import NamedTuple
from uuid import UUID

from sqlalchemy import Connection

from app.packs.spec import Language
from app.questions.conventions import Conventions
from app.services.actor import Role
from app.services.homes import conventions_for, default_home
from app.services.tokens import hash_of, new_token
from app.storage.ids import new_id
from app.storage.models import Person, Visit
from app.storage.queries import people, visits

LASTING = timedelta(days=365 * 200)


class NewPerson(NamedTuple):
    """Somebody to make an account for; the login name is checked and unique in the school."""

    role: Role
    name: str
    login: str
    language: Language
    password_hash: str | None = None
    email: str | None = None


def add_account(
    connection: Connection, school_id: UUID, wanted: NewPerson, now: datetime, conventions: Conventions | None = None
) -> Person:
    """Keep a person with their own visit, at the default home unless told; raises LoginTaken."""
    home = conventions or conventions_for(default_home(now.date()), wanted.language)
    visit = Visit(
        school_id=school_id,
        id=new_id(now),
        token_hash=hash_of(new_token(school_id)),  # nobody holds this token: people come in by signing in
        language=wanted.language,
        conventions=home.as_json(),
        created_at=now,
        seen_at=now,
        idle_until=now + LASTING,
        ends_at=now + LASTING,
    )
    person = Person(
        school_id=school_id,
        id=new_id(now),
        visit_id=visit.id,
        role=wanted.role.value,
        name=wanted.name,
        login=wanted.login,
        created_at=now,
        email=wanted.email,
        password_hash=wanted.password_hash,
    )
    visits.add_visit(connection, visit)
    people.add_person(connection, person)
    return person
