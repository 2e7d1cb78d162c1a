"""From a question about a swing or a correction card to the workshop, and back: a drill of questions like a compass."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from itertools import islice
from random import Random
from typing import Any
from uuid import UUID

from app.packs.library import Library
from app.physics.deviation import Coefficients, deviation_deg
from app.questions.draw import NoDraw, draw, offered_forms
from app.questions.model import Item, NotOffered
from app.services.actor import Actor
from app.services.drills import keep_drill, new_drill
from app.services.errors import Conflict
from app.services.messages import say
from app.services.mix import LARGEST_SEED, choose_items
from app.services.swing_sheet import LARGEST_DEG, Reading, write_sheet
from app.storage.ids import new_id
from app.storage.unit_of_work import UnitOfWork

SWING, CARDS = "swing-residuals", ("card-for-steer", "card-steer-back")
TRIES = 120
QUESTIONS = 3


def workshop_link_for(item: Item) -> Mapping[str, str] | None:
    """Return the workshop's address that shows an item's own swing or card, None where it has none."""
    readings = _readings(item.parameters)
    if not readings or any(abs(each.deviation_deg) > LARGEST_DEG for each in readings):
        return None
    return {"enter": "readings", "readings": write_sheet(readings)}


def ask_workshop(
    uow: UnitOfWork, actor: Actor, library: Library, asked: tuple[Coefficients, int], now: datetime
) -> UUID:
    """Start a drill about a compass with these coefficients; `asked` ends with a seed.

    Its first item holds the swing or card nearest to them, of a few that the families draw. Conflict where nothing is
    offered.
    """
    coefficients, seed = asked
    nearest = _nearest(library, actor, coefficients, seed)
    if nearest is None:
        raise Conflict(say("nothing-offered", actor.language, place=actor.conventions.place))
    others = [each for each in (SWING, *CARDS) if each != nearest.family]
    more = islice(choose_items(library, others, actor.conventions, seed), QUESTIONS - 1)
    drill = new_drill(actor, new_id(now), None, seed, now)
    keep_drill(uow, drill, [nearest, *more], now)
    return drill.id


def _nearest(library: Library, actor: Actor, coefficients: Coefficients, seed: int) -> Item | None:
    rng, found, least = Random(seed), None, float("inf")
    for _ in range(TRIES):
        try:
            form = offered_forms(library.family(SWING))[0]
            item = draw(library, SWING, rng.randrange(LARGEST_SEED), actor.conventions, form)
        except NotOffered:
            return None
        except NoDraw:
            continue
        apart = _apart(_readings(item.parameters), coefficients)
        if apart < least:
            found, least = item, apart
    return found


def _apart(readings: Sequence[Reading], coefficients: Coefficients) -> float:
    """Measure how far a swing is from the curve: the mean size of what lies between; without one, very far."""
    off = [abs(each.deviation_deg - deviation_deg(coefficients, each.magnetic_deg)) for each in readings]
    return sum(off) / len(off) if off else 1000.0


def _readings(given: Mapping[str, Any]) -> list[Reading]:
    if "swing" in given and isinstance(given["swing"], list):
        return [Reading(float(each["magnetic_deg"]), float(each["compass_deg"])) for each in given["swing"]]
    steer = "steer_off_deg" if given.get("card_state") == "radios-off" else "steer_deg"
    return [Reading(float(each["for_deg"]), float(each[steer])) for each in given.get("card", ())]
