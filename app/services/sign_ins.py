"""Being signed in: one browser, one person, until it is idle too long, ends or is revoked."""

from datetime import datetime, timedelta
from typing import cast
from uuid import UUID

from app.packs.spec import Language
from app.questions.conventions import Conventions
from app.services.actor import Actor, Role
from app.services.tokens import hash_of, new_token, school_of
from app.storage.ids import new_id
from app.storage.models import SignIn
from app.storage.queries import sign_ins
from app.storage.queries.sign_ins import SignedInRow
from app.storage.unit_of_work import UnitOfWork

IDLE = timedelta(days=14)
LONGEST = timedelta(days=90)
TOUCH_EVERY = timedelta(minutes=1)
LONGEST_DEVICE = 120


def open_sign_in(uow: UnitOfWork, school_id: UUID, person_id: UUID, device: str, now: datetime) -> str:
    """Sign in a person who has proved who they are; return the token for their browser, kept nowhere else."""
    token = new_token(school_id)
    sign_in = SignIn(
        school_id=school_id,
        id=new_id(now),
        person_id=person_id,
        token_hash=hash_of(token),
        device=device[:LONGEST_DEVICE],
        created_at=now,
        seen_at=now,
        idle_until=now + IDLE,
        ends_at=now + LONGEST,
    )
    with uow.writer() as connection:
        sign_ins.add_sign_in(connection, sign_in)
    return token


def find_sign_in(uow: UnitOfWork, token: str, now: datetime) -> Actor | None:
    """Return who is signed in by this token, or None when it is unknown, expired or revoked, or they have left."""
    school_id = school_of(token)
    if school_id is None:
        return None
    with uow.reader() as connection:
        found = sign_ins.find_sign_in(connection, school_id, hash_of(token))
    if found is None or now >= min(found.idle_until, found.ends_at):
        return None
    if now - found.seen_at >= TOUCH_EVERY:
        with uow.writer() as connection:
            sign_ins.touch_sign_in(connection, found, now, now + IDLE)
    return actor_of(found)


def close_sign_in(uow: UnitOfWork, token: str, now: datetime) -> None:
    """Revoke a token; nothing happens for one that is unknown."""
    school_id = school_of(token)
    if school_id is not None:
        with uow.writer() as connection:
            sign_ins.revoke_sign_in(connection, school_id, hash_of(token), now)


def actor_of(found: SignedInRow) -> Actor:
    """Return who acts; the school's house rules, once it has set them, go before the person's own home place."""
    return Actor(
        role=Role(found.role),
        school_id=found.school_id,
        visit_id=found.visit_id,
        language=cast("Language", found.language),
        conventions=Conventions.from_json(found.school_conventions or found.conventions),
        person_id=found.person_id,
        name=found.name,
        time_zone=found.time_zone,
        school_rules=bool(found.school_conventions),
        own_revision=found.own_revision,
    )
