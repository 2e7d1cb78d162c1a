"""Starting drills: which items they hold is settled once, when they start."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from itertools import islice
from typing import NamedTuple
from uuid import UUID

from app.packs.library import Library
from app.packs.spec import Language
from app.questions.model import Item
from app.services.actor import Actor
from app.services.errors import Conflict, Invalid, NotFound
from app.services.messages import say
from app.services.mix import choose_items
from app.services.reveal import find_sitting, require_open
from app.services.withdrawals import offered, still_asked
from app.storage.ids import new_id
from app.storage.queries import drills
from app.storage.queries.drills import MOST_PLACES, DrillRow, PlaceRow
from app.storage.unit_of_work import UnitOfWork

LENGTH = 10
SHORTEST_AGAIN = 3


@dataclass(frozen=True, slots=True)
class DrillWish:
    """What to practise: one topic, certain families, or (neither given) a mix of everything."""

    topic: str | None = None
    families: tuple[str, ...] = ()
    length: int = LENGTH


class TopicView(NamedTuple):
    """A topic one can choose, with how many families of questions it has."""

    id: str
    title: str
    summary: str
    families: int


def list_topics(library: Library, language: Language) -> Sequence[TopicView]:
    """Return the topics in the library's order."""
    return tuple(
        TopicView(pack.id, pack.title.of(language), pack.summary.of(language), len(pack.families))
        for pack in library.packs.values()
    )


def start_drill(uow: UnitOfWork, actor: Actor, library: Library, wish: DrillWish, seed: int, now: datetime) -> UUID:
    """Start a drill and return its id; the same seed, wish and conventions choose the same items.

    NotFound for an unknown topic or family, Invalid for its length, Conflict when nothing is offered at this home or
    by this school; what the school has withdrawn among others is left out.
    """
    if not 1 <= wish.length <= MOST_PLACES:
        raise Invalid(say("length", actor.language, value=wish.length, most=MOST_PLACES), "length")
    drawn = offered(uow, actor, library)
    wish = replace(wish, families=still_asked(actor, library, drawn, wish.families))
    items = list(islice(choose_items(drawn, wanted_families(drawn, wish), actor.conventions, seed), wish.length))
    if not items:
        raise Conflict(say("nothing-offered", actor.language, place=actor.conventions.place))
    drill = new_drill(actor, new_id(now), wish.topic, seed, now)
    keep_drill(uow, drill, items, now)
    return drill.id


def drill_again(uow: UnitOfWork, actor: Actor, library: Library, drill_id: UUID, seed: int, now: datetime) -> UUID:
    """Start a drill of the families missed in another one, with fresh numbers.

    Conflict when none was missed, or as long as what was missed may not be known.
    """
    drill, places = get_drill(uow, actor, drill_id)
    require_open(find_sitting(uow, actor, drill_id, drill.purpose), actor, now)
    counted = [place for place in places if place.set_aside_at is None]
    missed = [place.family for place in counted if place.correct is False and place.family in library.families]
    if not missed:
        raise Conflict(say("nothing-missed", actor.language))
    asked = still_asked(actor, library, offered(uow, actor, library), missed)
    wish = DrillWish(families=tuple(dict.fromkeys(asked)), length=max(SHORTEST_AGAIN, len(asked)))
    return start_drill(uow, actor, library, wish, seed, now)


def find_open_drill(uow: UnitOfWork, actor: Actor, now: datetime) -> UUID | None:
    """Return the actor's latest drill that still has a question to answer."""
    if actor.visit_id is None:
        return None
    with uow.reader() as connection:
        return drills.find_latest_open(connection, actor.school_id, actor.visit_id, now)


def get_drill(uow: UnitOfWork, actor: Actor, drill_id: UUID) -> tuple[DrillRow, tuple[PlaceRow, ...]]:
    """Return the actor's own drill with its places; NotFound for anybody else's."""
    with uow.reader() as connection:
        drill = drills.find_drill(connection, actor.school_id, actor.own_visit, drill_id)
        if drill is None:
            raise NotFound(drill_id)
        return drill, drills.list_places(connection, actor.school_id, drill_id)


def wanted_families(library: Library, wish: DrillWish) -> Sequence[str]:
    """Return the families a wish names; NotFound for one that is not there."""
    if wish.topic is not None:
        if wish.topic not in library.packs:
            raise NotFound(wish.topic)
        return library.packs[wish.topic].families
    for family_id in wish.families:
        if family_id not in library.families:
            raise NotFound(family_id)
    return wish.families or tuple(library.families)


def new_drill(actor: Actor, drill_id: UUID, topic: str | None, seed: int, now: datetime) -> DrillRow:
    """Return a drill of this actor under the conventions of this moment; NotFound for a guest."""
    conventions = actor.conventions.as_json()
    return DrillRow(actor.school_id, drill_id, actor.own_visit, topic, seed, conventions, now)


def keep_drill(uow: UnitOfWork, drill: DrillRow, items: Sequence[Item], now: datetime) -> None:
    """Keep a drill with its items; raises DrillExists when its id is taken."""
    places = [place_of(item, position, now) for position, item in enumerate(items, start=1)]
    with uow.writer() as connection:
        drills.add_drill(connection, drill, places)


def place_of(item: Item, position: int, now: datetime) -> PlaceRow:
    """Return the place of a drill at which an item is asked."""
    return PlaceRow(
        new_id(now), position, item.family, item.version, item.pack, item.pack_version, item.seed, item.form
    )
