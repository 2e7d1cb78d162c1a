"""What is kept no longer: records older than a school wants, people who ask to be erased, visits long over.

What goes leaves the counts behind, without anybody's name, so that the figures of questions stay true.
"""

from collections.abc import Sequence
from datetime import datetime, timedelta
from typing import Any, NamedTuple
from uuid import UUID

from sqlalchemy import Connection

from app.services.actor import Actor
from app.services.audit import note, note_for
from app.services.errors import Conflict, Invalid, NotFound
from app.services.messages import say
from app.services.school_settings import RETENTION_KINDS
from app.storage.models import VISITORS_SCHOOL_ID, Person, School
from app.storage.queries import attempts, people, retention, schools, training
from app.storage.queries.retention import Going
from app.storage.unit_of_work import UnitOfWork

VISITS_KEPT = timedelta(days=30)


class GoingView(NamedTuple):
    """One kind of record: how long it is kept (None: for ever), how many would go now and the oldest of them."""

    kind: str
    days: int | None
    going: Going


def preview(uow: UnitOfWork, actor: Actor, now: datetime) -> Sequence[GoingView]:
    """Return what of the actor's school would go now."""
    with uow.reader() as connection:
        school = _school(connection, actor.school_id)
        return tuple(
            GoingView(kind, school.retention.get(kind), _going(connection, school, kind, now))
            for kind in RETENTION_KINDS
        )


def tidy_school(uow: UnitOfWork, school_id: UUID, now: datetime) -> dict[str, int]:
    """Take away what a school keeps no longer, all of it or nothing; returns how many of each kind went."""
    with uow.writer() as connection:
        school = _school(connection, school_id)
        gone = {}
        for kind in RETENTION_KINDS:
            days = school.retention.get(kind)
            gone[kind] = retention.remove(connection, school_id, kind, now - timedelta(days=days), now) if days else 0
        if any(gone.values()):
            note_for(connection, school_id, (None, ""), ("records-removed", school.name), now, **gone)
    return gone


def tidy_visits(uow: UnitOfWork, now: datetime) -> int:
    """Take away visitors' visits that ended a month ago, with their drills; returns how many went."""
    with uow.writer() as connection:
        return retention.remove_visits(connection, VISITORS_SCHOOL_ID, now - VISITS_KEPT, now)


def data_of(uow: UnitOfWork, actor: Actor, person_id: UUID, now: datetime) -> dict[str, Any]:
    """Return all that is kept of a person of the actor's school, to be handed over before it is erased."""
    with uow.writer() as connection:
        person = _person(connection, actor, person_id)
        note(connection, actor, "data-exported", person.name, now)
        kept = attempts.list_attempts(connection, actor.school_id, person.visit_id)
        entries = training.list_entries(connection, actor.school_id, person.id)
    return {
        "name": person.name,
        "login": person.login,
        "email": person.email,
        "role": person.role,
        "created_at": person.created_at.isoformat(),
        "answers": [attempts.as_plain(each) for each in kept],
        "training_record_and_notes": [training.as_plain(each) for each in entries],
    }


def find_erasable(uow: UnitOfWork, actor: Actor, person_id: UUID) -> tuple[Person, int]:
    """Return a person of the actor's school with how many answers of theirs are kept."""
    with uow.reader() as connection:
        person = _person(connection, actor, person_id)
        return person, len(attempts.list_marks(connection, actor.school_id, person.visit_id))


def erase_person(uow: UnitOfWork, actor: Actor, person_id: UUID, typed_login: str, now: datetime) -> str:
    """Erase a person and all they answered, leaving only counts; returns their name.

    Invalid where the login typed to be sure is another one; Conflict for oneself.
    """
    with uow.writer() as connection:
        person = _person(connection, actor, person_id)
        if person.id == actor.person_id:
            raise Conflict(say("erase-oneself", actor.language))
        if typed_login.strip().lower() != person.login:
            raise Invalid(say("erase-login", actor.language, value=typed_login, login=person.login), "login")
        retention.remove_visit(connection, actor.school_id, person.visit_id, now)
        note(connection, actor, "person-erased", person.login, now, role=person.role)
    return person.name


def _person(connection: Connection, actor: Actor, person_id: UUID) -> Person:
    person = people.find_person(connection, actor.school_id, person_id)
    if person is None:
        raise NotFound(person_id)
    return person


def _school(connection: Connection, school_id: UUID) -> School:
    school = schools.find_school(connection, school_id)
    if school is None:
        raise NotFound(school_id)
    return school


def _going(connection: Connection, school: School, kind: str, now: datetime) -> Going:
    days = school.retention.get(kind)
    if not days:
        return Going(0, None)
    return retention.count_going(connection, school.id, kind, now - timedelta(days=days))
