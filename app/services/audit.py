"""Noting what people did in the audit log, in the transaction in which they did it."""

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import Connection

from app.services.actor import Actor
from app.storage.ids import new_id
from app.storage.models import AuditEntry, Person
from app.storage.queries import audit
from app.storage.unit_of_work import UnitOfWork

PAGE = 100


def note(connection: Connection, actor: Actor, action: str, subject: str, now: datetime, **details: Any) -> None:
    """Note what a signed-in actor did; `subject` says to whom or what, in words that last."""
    note_for(connection, actor.school_id, (actor.person_id, actor.name), (action, subject), now, **details)


def note_of_person(connection: Connection, person: Person, action: str, now: datetime, **details: Any) -> None:
    """Note what a person did or what happened to their account while nobody was signed in."""
    note_for(connection, person.school_id, (person.id, person.name), (action, person.name), now, **details)


def note_for(
    connection: Connection,
    school_id: UUID,
    who: tuple[UUID | None, str],
    what: tuple[str, str],
    now: datetime,
    **details: Any,
) -> None:
    """Note what somebody, (id, name), did: (action, subject)."""
    audit.add_entry(connection, AuditEntry(school_id, new_id(now), now, *who, *what, details))


def list_entries(uow: UnitOfWork, actor: Actor, before: UUID | None = None) -> tuple[AuditEntry, ...]:
    """Return the latest entries of the actor's school, or those before one of them: at most PAGE."""
    with uow.reader() as connection:
        return audit.list_entries(connection, actor.school_id, PAGE, before)
