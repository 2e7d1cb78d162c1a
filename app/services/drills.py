"""Starting drills: which items they hold is settled once, when they start."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from app.packs.library import Library
from app.packs.spec import Language
from app.services.actor import Actor
from app.storage.unit_of_work import UnitOfWork

LENGTH = 10
LONGEST = 50


@dataclass(frozen=True, slots=True)
class DrillWish:
    """What to practise: one topic, certain families, or (neither given) a mix of everything."""

    topic: str | None = None
    families: tuple[str, ...] = ()
    length: int = LENGTH


@dataclass(frozen=True, slots=True)
class TopicView:
    """A topic one can choose; `offered` families make questions under the actor's conventions."""

    id: str
    title: str
    summary: str
    families: int


def list_topics(library: Library, language: Language) -> Sequence[TopicView]:
    """Return the topics in the library's order."""
    raise NotImplementedError


def start_drill(uow: UnitOfWork, actor: Actor, library: Library, wish: DrillWish, seed: int, now: datetime) -> UUID:
    """Start a drill and return its id; the same seed, wish and conventions choose the same items."""
    raise NotImplementedError


def drill_again(uow: UnitOfWork, actor: Actor, library: Library, drill_id: UUID, seed: int, now: datetime) -> UUID:
    """Start a drill of the families missed in another one, with fresh numbers; Conflict when none was missed."""
    raise NotImplementedError


def find_open_drill(uow: UnitOfWork, actor: Actor) -> UUID | None:
    """Return the actor's latest drill that still has a question to answer."""
    raise NotImplementedError
