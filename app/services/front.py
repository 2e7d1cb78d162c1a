"""The front page's one real question. Looking at it keeps nothing; answering it starts the drill it is the first of."""

from contextlib import suppress
from datetime import datetime
from itertools import chain, islice
from typing import NamedTuple
from uuid import UUID, uuid5

from app.packs.library import Library
from app.questions.model import Item
from app.services.actor import Actor
from app.services.drills import LENGTH, get_drill, keep_drill, new_drill
from app.services.errors import Conflict
from app.services.items import ItemView, view_item
from app.services.messages import say
from app.services.mix import choose_items
from app.services.practice import AnswerOutcome, Sent, answer, read_reply
from app.services.visits import OpenedVisit, open_visit
from app.storage.queries.drills import DrillExists
from app.storage.unit_of_work import UnitOfWork

FACES = frozenset({"drum", "vertical-card"})


class FrontOutcome(NamedTuple):
    """What became of the front page's answer, and the visit it is kept in: set its token if there is a new one."""

    visit: OpenedVisit
    answer: AnswerOutcome


def front_item(library: Library, actor: Actor, seed: int) -> ItemView:
    """Return the first item of the drill that answering it would start; keeps nothing."""
    return view_item(library, _items(library, actor, seed, 1)[0], actor.language)


def answer_front(uow: UnitOfWork, actor: Actor, library: Library, seed: int, sent: Sent, now: datetime) -> FrontOutcome:
    """Start the front page's drill and answer its first item; sent twice in a visit, the first answer counts.

    Invalid for a reply that cannot be read and Conflict when other numbers had been shown: then nothing is kept.
    """
    read_reply(library, _items(library, actor, seed, 1)[0], sent, actor.language)
    visit = open_visit(uow, actor, now)
    drill_id = _front_drill(uow, visit.actor, library, seed, now)
    _, places = get_drill(uow, visit.actor, drill_id)
    return FrontOutcome(visit, answer(uow, visit.actor, library, places[0].id, sent, now))


def _front_drill(uow: UnitOfWork, actor: Actor, library: Library, seed: int, now: datetime) -> UUID:
    """Return the drill of this seed, started now if it is not there: its id follows from visit and seed."""
    drill_id = uuid5(actor.own_visit, f"front {seed}")
    with suppress(DrillExists):  # sent twice: the first time started it
        keep_drill(uow, new_drill(actor, drill_id, None, seed, now), _items(library, actor, seed, LENGTH), now)
    return drill_id


def _items(library: Library, actor: Actor, seed: int, count: int) -> list[Item]:
    """Return the drill's first items: one with a compass face to look at, then any."""
    faces = [each for each in library.families if FACES & set(library.family(each).figures)]
    opener = islice(choose_items(library, faces, actor.conventions, seed), 1)
    others = choose_items(library, tuple(library.families), actor.conventions, seed)
    items = list(islice(chain(opener, others), count))
    if not items:
        raise Conflict(say("nothing-offered", actor.language, place=actor.conventions.place))
    return items
