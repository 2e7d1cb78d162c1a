"""Visits: server-side sessions under a token that only the browser knows."""

from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import cast

from app.packs.spec import Language
from app.questions.conventions import Conventions
from app.services.actor import Actor, Role
from app.services.errors import NotAllowed
from app.services.homes import HomeWish, conventions_for, default_home
from app.services.tokens import hash_of, new_token, school_of
from app.storage.ids import new_id
from app.storage.models import VISITORS_SCHOOL_ID, Visit
from app.storage.queries import visits
from app.storage.unit_of_work import UnitOfWork

IDLE = timedelta(days=14)
LONGEST = timedelta(days=90)
TOUCH_EVERY = timedelta(minutes=1)


@dataclass(frozen=True, slots=True)
class OpenedVisit:
    """Somebody with a visit. `token` is set when it was opened now: it goes to the browser and is kept nowhere else."""

    actor: Actor
    token: str | None


def guest(language: Language, now: datetime) -> Actor:
    """Return somebody without a visit, at the default home: reads pages, leaves no trace."""
    conventions = conventions_for(default_home(now.date()), language)
    return Actor(Role.VISITOR, VISITORS_SCHOOL_ID, None, language, conventions)


def open_visit(uow: UnitOfWork, actor: Actor, now: datetime) -> OpenedVisit:
    """Keep a guest's language and conventions under a new token; whoever has a visit keeps that one."""
    if actor.visit_id is not None:
        return OpenedVisit(actor, None)
    token = new_token(actor.school_id)
    visit = Visit(
        school_id=actor.school_id,
        id=new_id(now),
        token_hash=hash_of(token),
        language=actor.language,
        conventions=actor.conventions.as_json(),
        created_at=now,
        seen_at=now,
        idle_until=now + IDLE,
        ends_at=now + LONGEST,
    )
    with uow.writer() as connection:
        visits.add_visit(connection, visit)
    return OpenedVisit(replace(actor, visit_id=visit.id), token)


def find_visit(uow: UnitOfWork, token: str, now: datetime) -> Actor | None:
    """Return who holds this token, or None when it is unknown, expired or revoked. Notes the use once a minute."""
    school_id = school_of(token)
    if school_id is None:
        return None
    with uow.reader() as connection:
        visit = visits.find_visit(connection, school_id, hash_of(token))
    if visit is None or now >= min(visit.idle_until, visit.ends_at):
        return None
    if now - visit.seen_at >= TOUCH_EVERY:
        with uow.writer() as connection:
            visits.touch_visit(connection, school_id, visit.id, now, now + IDLE)
    language = cast("Language", visit.language)
    return Actor(Role.VISITOR, school_id, visit.id, language, Conventions.from_json(visit.conventions))


def set_language(uow: UnitOfWork, actor: Actor, language: Language) -> Actor:
    """Read another language from now on; drills go on with the same items and numbers."""
    if actor.visit_id is not None:
        with uow.writer() as connection:
            visits.change_language(connection, actor.school_id, actor.visit_id, language)
    return replace(actor, language=language)


def set_home(uow: UnitOfWork, actor: Actor, wish: HomeWish, now: datetime) -> OpenedVisit:
    """Keep another home for drills that start from now on, for a guest under a new visit.

    Invalid names the value and what is accepted, NotAllowed where the school has set it; then nothing is kept.
    """
    if actor.school_rules:
        raise NotAllowed("the school has set the home place")
    moved = replace(actor, conventions=conventions_for(wish, actor.language))
    if moved.visit_id is None:
        return open_visit(uow, moved, now)
    with uow.writer() as connection:
        visits.change_conventions(connection, moved.school_id, moved.visit_id, moved.conventions.as_json())
    return OpenedVisit(moved, None)


def close_visit(uow: UnitOfWork, actor: Actor, now: datetime) -> None:
    """Revoke the visit's token; what was answered stays."""
    if actor.visit_id is not None:
        with uow.writer() as connection:
            visits.revoke_visit(connection, actor.school_id, actor.visit_id, now)
