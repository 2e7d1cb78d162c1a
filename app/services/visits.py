"""Visits: server-side sessions under a token that only the browser knows."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from app.packs.spec import Language
from app.questions.conventions import Conventions
from app.services.actor import Actor
from app.services.homes import HomeWish
from app.storage.unit_of_work import UnitOfWork

IDLE = timedelta(days=14)
LONGEST = timedelta(days=90)
TOUCH_EVERY = timedelta(minutes=1)


@dataclass(frozen=True, slots=True)
class OpenedVisit:
    """A new visit: the token goes to the browser and is kept nowhere else."""

    token: str
    actor: Actor


def guest(language: Language, now: datetime) -> Actor:
    """Return somebody without a visit, at the default home: reads pages, leaves no trace."""
    raise NotImplementedError


def open_visit(uow: UnitOfWork, guest: Actor, now: datetime) -> OpenedVisit:
    """Keep a guest's language and conventions under a new token."""
    raise NotImplementedError


def find_visit(uow: UnitOfWork, token: str, now: datetime) -> Actor | None:
    """Return who holds this token, or None when it is unknown, expired or revoked."""
    raise NotImplementedError


def set_language(uow: UnitOfWork, actor: Actor, language: Language) -> Actor:
    """Keep another language; drills go on with the same items and numbers."""
    raise NotImplementedError


def set_home(uow: UnitOfWork, actor: Actor, wish: HomeWish) -> Conventions:
    """Keep another home; it holds for drills that start from now on. Invalid names the value and what is accepted."""
    raise NotImplementedError


def close_visit(uow: UnitOfWork, actor: Actor, now: datetime) -> None:
    """Revoke the visit's token; what was answered stays."""
    raise NotImplementedError
