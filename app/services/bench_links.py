"""From a question to the bench and back: the flight that shows an item, and a drill of items like a flight."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime
from itertools import islice
from random import Random
from uuid import UUID

from app.packs.library import Library
from app.physics.angles import difference
from app.questions.conventions import Conventions
from app.questions.draw import NoDraw, draw, offered_forms
from app.questions.model import Item, NotOffered
from app.services.actor import Actor
from app.services.bench import BenchWish
from app.services.bench_flights import flight_of, own_dip_deg
from app.services.drills import keep_drill, new_drill
from app.services.errors import Conflict
from app.services.messages import say
from app.services.mix import LARGEST_SEED, choose_items
from app.services.places import list_places
from app.storage.ids import new_id
from app.storage.unit_of_work import UnitOfWork

Query = Mapping[str, str | int | float]
TRIES = 150
PASSING = frozenset({"reading-while-turning", "when-to-trust-compass"})  # shown where the heading is passed
QUESTIONS = 3


def link_for(item: Item) -> Query | None:
    """Return the bench's address that shows an item with its own parameters, None where no flight would."""
    given = item.parameters
    flown = flight_of(item)
    if flown is None:
        return None
    home, dip_deg = _where(item.conventions), own_dip_deg(given)
    query = dict(home)
    if dip_deg is not None:
        query = {"place_id": "dip", "dip_deg": dip_deg, "when": item.conventions.date}
    query |= flown
    if item.family in PASSING and "heading_deg" in given:
        query["passing"] = given["heading_deg"]
    return query


def ask_bench(
    uow: UnitOfWork, actor: Actor, library: Library, asked: tuple[BenchWish, Conventions, int], now: datetime
) -> UUID:
    """Start a drill whose first item is as near to a flight as its family draws; `asked` ends with a seed.

    Conflict where no fitting family asks anything at that place.
    """
    wish, conventions, seed = asked
    families = families_for(wish)
    nearest = next((item for family in families if (item := _nearest(library, family, asked))), None)
    if nearest is None:
        raise Conflict(say("nothing-offered", actor.language, place=conventions.place))
    there = replace(actor, conventions=conventions)
    others = islice(choose_items(library, families, conventions, seed), QUESTIONS - 1)
    drill = new_drill(there, new_id(now), None, seed, now)
    keep_drill(uow, drill, [nearest, *others], now)
    return drill.id


def families_for(wish: BenchWish) -> tuple[str, ...]:
    """Return the families that ask about such a flight, the nearest first."""
    if wish.doing == "turn":
        rollout = "rollout-north-south" if wish.target_deg % 180 == 0 else "rollout-any-heading"
        return rollout, "reading-while-turning", "turn-start-indication", "hemisphere-flip", "when-to-trust-compass"
    if wish.doing == "speed":
        return "accel-indication", "phase-to-error", "what-caused-the-swing"
    if wish.doing == "path":
        return "phase-to-error", "accel-indication", "what-caused-the-swing"
    return "when-to-trust-compass", "what-caused-the-swing"


def _nearest(library: Library, family: str, asked: tuple[BenchWish, Conventions, int]) -> Item | None:
    wish, conventions, seed = asked
    rng, found, least = Random(seed), None, float("inf")
    form = offered_forms(library.family(family))[0]
    for _ in range(TRIES):
        try:
            item = draw(library, family, rng.randrange(LARGEST_SEED), conventions, form)
        except NotOffered:
            return None
        except NoDraw:
            continue
        apart = _apart(item, wish)
        if apart < least:
            found, least = item, apart
        if not apart:
            break
    return found


def _apart(item: Item, wish: BenchWish) -> float:
    """Measure how far an item is from a flight: another place, side or sign is worse than another heading."""
    flown = flight_of(item) or {}
    apart = (0.0 if own_dip_deg(item.parameters) is None else 2000.0) + (0.0 if flown else 500.0)
    apart += sum(500.0 for name in ("doing", "path") if flown.get(name, getattr(wish, name)) != getattr(wish, name))
    for name, weight in (("start_deg", 1.0), ("target_deg", 4.0)):
        apart += weight * abs(difference(flown.get(name, getattr(wish, name)), getattr(wish, name)))
    apart += 1000.0 if flown.get("turn", wish.turn) != wish.turn else 0.0
    return apart + (1000.0 if flown.get("change_kt_s", wish.change_kt_s) * wish.change_kt_s < 0 else 0.0)


def _where(conventions: Conventions) -> dict[str, str | int | float]:
    listed = next((place for place in list_places("en") if place.name == conventions.place), None)
    if listed:
        return {"place_id": listed.id, "when": conventions.date}
    where = {"latitude_deg": conventions.latitude_deg, "longitude_deg": conventions.longitude_deg}
    return {"place_id": "typed", **where, "when": conventions.date}
