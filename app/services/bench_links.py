"""From a question to the bench and back: the flight that shows an item, and a drill of items like a flight."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date, datetime
from itertools import islice
from random import Random
from typing import Any
from uuid import UUID

from app.packs.library import Library
from app.physics.angles import difference, shown
from app.physics.turning import turn_sign
from app.questions.conventions import Conventions
from app.questions.draw import NoDraw, draw, offered_forms
from app.questions.model import Item, NotOffered
from app.services.actor import Actor
from app.services.bench import BenchWish, fly_bench
from app.services.bench_field import field_of
from app.services.drills import keep_drill, new_drill
from app.services.errors import Conflict
from app.services.homes import HomeWish
from app.services.messages import say
from app.services.mix import LARGEST_SEED, choose_items
from app.services.places import list_places
from app.storage.ids import new_id
from app.storage.unit_of_work import UnitOfWork

Query = Mapping[str, str | int | float]
PASSED_DEG = 90  # a turn that passes a heading is shown from so far before it to so far after
SPEED_CHANGE_KT_S = 2
TRIES = 150
QUESTIONS = 3


def link_for(item: Item) -> Query | None:
    """Return the bench's address that shows an item with its own parameters, None where no flight would."""
    given = item.parameters
    flown = FLIGHTS.get(item.family, _nothing)(given)
    if flown is None:
        return None
    home, dip_deg = _where(item.conventions), None if given["at_home"] else given["dip_deg"]
    place = {"place_id": "dip", "dip_deg": dip_deg, "when": item.conventions.date} if dip_deg is not None else home
    query: dict[str, str | int | float] = {**place, **flown}
    if "heading_deg" in given and flown["doing"] == "turn":
        query["at"] = _when_passed(BenchWish(**flown), item.conventions, dip_deg, given["heading_deg"])
    return query


def ask_bench(
    uow: UnitOfWork, actor: Actor, library: Library, asked: tuple[BenchWish, Conventions, int], now: datetime
) -> UUID:
    """Start a drill whose first item is as near to a flight as its family draws; `asked` ends with a seed.

    Conflict where the fitting family asks nothing at that place.
    """
    wish, conventions, seed = asked
    family = family_for(wish)
    nearest = _nearest(library, family, asked)
    if nearest is None:
        raise Conflict(say("nothing-offered", actor.language, place=conventions.place))
    there = replace(actor, conventions=conventions)
    others = islice(choose_items(library, (family,), conventions, seed), QUESTIONS - 1)
    drill = new_drill(there, new_id(now), None, seed, now)
    keep_drill(uow, drill, [nearest, *others], now)
    return drill.id


def family_for(wish: BenchWish) -> str:
    """Return the family that asks about such a flight."""
    if wish.doing == "turn":
        return "rollout-north-south" if wish.target_deg % 180 == 0 else "rollout-any-heading"
    return "accel-indication" if wish.tilts_fore_and_aft else "when-to-trust-compass"


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
    flown = FLIGHTS.get(item.family, _nothing)(item.parameters) or {}
    apart = (0.0 if item.parameters["at_home"] else 2000.0) + (0.0 if flown else 500.0)
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


def _when_passed(wish: BenchWish, conventions: Conventions, dip_deg: float | None, heading_deg: float) -> float:
    when = date.fromisoformat(conventions.date)
    home = HomeWish(when, None, conventions.latitude_deg, conventions.longitude_deg)
    motion = fly_bench(wish, field_of(home, dip_deg, "en"), "en").motion
    if motion is None:
        return 0.0
    off = [abs(difference(real, heading_deg)) for real in motion.real_deg]
    return round(motion.time_s[off.index(min(off))], 1)


def _nothing(_given: Mapping[str, Any]) -> None:
    return None


def _roll_out(given: Mapping[str, Any]) -> dict[str, Any] | None:
    if not {"start_deg", "target_deg", "turn", "bank_deg"} <= given.keys():
        return None
    return _turn(given["start_deg"], given["target_deg"], given)


def _turn_start(given: Mapping[str, Any]) -> dict[str, Any]:
    start = given["start_deg"]
    return _turn(start, shown(start + PASSED_DEG * turn_sign(given.get("turn", "right"))), given)


def _passing(given: Mapping[str, Any]) -> dict[str, Any]:
    heading, side = given["heading_deg"], turn_sign(given["turn"])
    return _turn(shown(heading - PASSED_DEG * side), shown(heading + PASSED_DEG * side), given)


def _turn(start_deg: int, target_deg: int, given: Mapping[str, Any]) -> dict[str, Any]:
    turn = {"turn": given.get("turn", "right"), "rate": "bank", "bank_deg": given["bank_deg"]}
    return {"doing": "turn", "start_deg": start_deg, "target_deg": target_deg, **turn}


def _speed_change(given: Mapping[str, Any]) -> dict[str, Any]:
    sign = 1 if given["speed_change"] == "faster" else -1
    return {"doing": "speed", "start_deg": given["heading_deg"], "change_kt_s": sign * SPEED_CHANGE_KT_S}


FLIGHTS: dict[str, Callable[[Mapping[str, Any]], dict[str, Any] | None]] = {
    "rollout-north-south": _roll_out,
    "rollout-any-heading": _roll_out,
    "turn-start-indication": _turn_start,
    "reading-while-turning": _passing,
    "accel-indication": _speed_change,
}
