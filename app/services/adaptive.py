"""Drills that adapt: the next item is chosen when it is asked for, from what is known of the learner by then.

An item is kept as soon as it is chosen, so that it is the same however often its page is looked at.
"""

from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta
from itertools import islice
from random import Random
from typing import Any, NamedTuple, get_args
from uuid import UUID

from app.learner.difficulty import FamilyDifficulty
from app.learner.evidence import Skill, new_skill
from app.learner.selection import Candidate, Choice, best_suited, choose
from app.packs.library import Library
from app.packs.spec import Form
from app.questions.conventions import Conventions
from app.questions.model import LIST_FORMS, OPTION_FORMS, Item
from app.questions.present import plain
from app.services.actor import Actor
from app.services.difficulty import find_difficulty
from app.services.drills import LENGTH, DrillWish, keep_drill, new_drill, place_of, wanted_families
from app.services.errors import Conflict, Invalid, NotFound
from app.services.learning import LearnerState, find_state, posed_of
from app.services.messages import say
from app.services.mix import TRIES, Suits, choose_items
from app.services.progress import goes_on
from app.services.set_wishes import carriers
from app.services.withdrawals import load_offered, still_asked
from app.storage.ids import new_id
from app.storage.queries import drills
from app.storage.queries.attempts import MissedRow, list_missed
from app.storage.queries.drills import MOST_PLACES, DrillRow, PlaceRow
from app.storage.unit_of_work import UnitOfWork

MOST_MINUTES = 120
# Answered without seeing a list of options to choose from.
OPEN_FORMS = frozenset(get_args(Form)) - OPTION_FORMS
WEIGHED = 4  # items drawn of a family, of which the best suited is asked; one where it shall show something certain
FRESH_TRIES = 3  # for each item wanted, until one has numbers that were not missed
HASTY_TRIES, PATIENT_TRIES = 12, 400  # draws to find an item that shows what is suspected, what is to be mended
MOST_OF_A_FAMILY = 3  # in one drill: who misses everything still meets more than a few kinds of questions


class Aim(NamedTuple):
    """What a drill is for: a topic or certain families (neither: everything), or mending one misconception.

    misconception: "family/name". length: how many items, or minutes: how long, whichever is given.
    """

    topic: str | None = None
    families: tuple[str, ...] = ()
    misconception: str = ""
    length: int | None = LENGTH
    minutes: int | None = None


def start_adaptive(uow: UnitOfWork, actor: Actor, library: Library, aim: Aim, seed: int, now: datetime) -> UUID:
    """Start a drill with its first item and return its id.

    NotFound for an unknown topic, family or misconception; Invalid for its length; Conflict when nothing is offered
    or the school has withdrawn it.
    """
    _check_length(aim, actor)
    with uow.reader() as connection:
        drawn = load_offered(connection, actor, library)
        state = find_state(connection, actor.school_id, actor.own_visit)
    named = still_asked(actor, library, drawn, (_family_of(aim),) if aim.misconception else aim.families)
    families = tuple(wanted_families(drawn, DrillWish(aim.topic, named)))
    if aim.misconception:
        mending_families(drawn, aim.misconception)
    kept_aim = {"families": list(families) if aim.topic or aim.families else [], "misconception": aim.misconception}
    drill = new_drill(actor, new_id(now), aim.topic, seed, now)._replace(
        aim=kept_aim,
        planned=aim.length if aim.minutes is None else None,
        ends_at=now + timedelta(minutes=aim.minutes) if aim.minutes else None,
    )
    item = _Chooser(uow, actor, drawn, drill, state).next_item((), now)
    if item is None:
        raise Conflict(say("nothing-offered", actor.language, place=actor.conventions.place))
    keep_drill(uow, drill, [item], now)
    return drill.id


def go_on(
    uow: UnitOfWork, actor: Actor, library: Library, drill: DrillRow, places: Sequence[PlaceRow], now: datetime
) -> Sequence[PlaceRow]:
    """Choose and keep the next item of a drill that goes on, and return its places then.

    A drill for which none is found ends with what it has.
    """
    if not goes_on(drill, places, now):
        return places
    with uow.reader() as connection:
        library = load_offered(connection, actor, library)
        state = find_state(connection, actor.school_id, actor.own_visit)
    item = _Chooser(uow, actor, library, drill, state).next_item(places, now)
    with uow.writer() as connection:
        if item is None:
            drills.plan_places(connection, actor.school_id, drill.id, len(places))
            return places
        place = place_of(item, len(places) + 1, now)
        kept = drills.add_place(connection, actor.school_id, drill.id, place)
        return (*places, place) if kept else drills.list_places(connection, actor.school_id, drill.id)


class _Chooser(NamedTuple):
    uow: UnitOfWork
    actor: Actor
    library: Library
    drill: DrillRow
    state: LearnerState

    def next_item(self, places: Sequence[PlaceRow], now: datetime) -> Item | None:
        """Return the item to ask next; None when none of the families is offered at this home."""
        rng = Random(f"{self.drill.seed} {len(places)}")
        state = self.state
        last = [place.family for place in places]
        often = {family for family in last if last.count(family) >= MOST_OF_A_FAMILY}
        families = [each for each in self._families() if each not in often] or self._families()
        candidates = [_candidate(self.library, state, family) for family in families]
        while True:
            choice = choose(state.level, candidates, last, now, rng)
            if choice is None:
                return None
            item = self._item(choice, places, now, rng)
            if item is not None:
                return item
            candidates = [each for each in candidates if each.family != choice.family]

    def _families(self) -> Sequence[str]:
        aim: dict[str, Any] = self.drill.aim or {}
        if aim["misconception"]:
            return carriers(self.library, aim["misconception"])
        return [each for each in aim["families"] or self.library.families if each in self.library.families]

    def _item(self, choice: Choice, places: Sequence[PlaceRow], now: datetime, rng: Random) -> Item | None:
        wishes = self._wishes(choice, self._forms(places))
        missed, difficulty = self._missed_and_difficulty(choice.family)
        items = self._drawn(choice.family, wishes, missed, rng)
        if not items:
            return None
        state, skill = self.state, _skill_of(self.library, self.state, choice.family)
        posed = [posed_of(self.library, item, difficulty) for item in items]
        return items[best_suited(state.level, skill, posed, choice.purpose, now)]

    def _wishes(self, choice: Choice, turn: frozenset[str]) -> Sequence[Suits]:
        """Return what the items must be like, the best first: able to show what is to be mended or may be held.

        What may be held is asked for without options where that can be: such an answer tells more.
        """
        to_mend = str((self.drill.aim or {})["misconception"]).partition("/")[2]
        forms = tuple(dict.fromkeys((turn, OPEN_FORMS, OPTION_FORMS)))
        if to_mend:
            return [Suits(form, to_mend, tries) for tries in (TRIES, PATIENT_TRIES) for form in forms]
        plain = [Suits(form) for form in forms]
        if choice.contrast:
            return [*(Suits(form, choice.contrast) for form in forms), *plain]
        if choice.suspect:
            return [*(Suits(form, choice.suspect, HASTY_TRIES) for form in (OPEN_FORMS, OPTION_FORMS)), *plain]
        return plain

    def _missed_and_difficulty(self, family: str) -> tuple[list[MissedRow], FamilyDifficulty]:
        school_id = self.actor.school_id
        with self.uow.reader() as connection:
            missed = list_missed(connection, school_id, self.actor.own_visit, family)
            return missed, find_difficulty(connection, school_id, self.library, family)

    def _forms(self, places: Sequence[PlaceRow]) -> frozenset[str]:
        """Return the kind of answer this drill has had less of: half of them are given without options."""
        without = sum(place.form in OPEN_FORMS for place in places)
        return OPEN_FORMS if 2 * without < len(places) else OPTION_FORMS

    def _drawn(self, family: str, wishes: Sequence[Suits], missed: Sequence[MissedRow], rng: Random) -> list[Item]:
        """Return a few items by the first wish that gives any whose numbers were not missed lately.

        A kind that has no other numbers, such as a hand-written question, is asked with the same again.
        """
        again = list[Item]()
        conventions = Conventions.from_json(self.drill.conventions)
        for wish in wishes:
            seed = int(rng.random() * 2**31)
            drawn = choose_items(self.library, (family,), conventions, seed, wish)
            wanted = 1 if wish.misconception else WEIGHED
            items, stale = _weighed(islice(drawn, FRESH_TRIES * wanted), missed, wanted)
            if items:
                return items
            again = again or stale
        return again[:WEIGHED]


def mending_families(library: Library, misconception: str) -> tuple[str, ...]:
    """Return the families in which a misconception, "family/name", can be shown; NotFound when there is none."""
    found = carriers(library, misconception)
    if not found:
        raise NotFound(misconception)
    return found


def _family_of(aim: Aim) -> str:
    return aim.misconception.partition("/")[0]


def _weighed(drawn: Iterable[Item], missed: Sequence[MissedRow], most: int) -> tuple[list[Item], list[Item]]:
    """Return the first few items with numbers that were not missed, and those with missed ones met before them."""
    items, stale = list[Item](), list[Item]()
    for item in drawn:
        (stale if _was_missed(item, missed) else items).append(item)
        if len(items) == most:
            break
    return items, stale


def _was_missed(item: Item, missed: Sequence[MissedRow]) -> bool:
    """Whether it was missed with these numbers; what is listed is no number, so a list is known by its seed as well."""
    numbers = plain(item.parameters)
    return any(
        each.parameters == numbers and (item.form not in LIST_FORMS or each.seed == item.seed) for each in missed
    )


def _skill_of(library: Library, state: LearnerState, family: str) -> Skill:
    kept = state.skills.get(family)
    return kept.skill if kept else new_skill(tuple(each.id for each in library.family(family).misconceptions))


def _candidate(library: Library, state: LearnerState, family: str) -> Candidate:
    kept = state.skills.get(family)
    if kept is None:
        return Candidate(family, _skill_of(library, state, family))
    return Candidate(
        family=family,
        skill=kept.skill,
        due_at=kept.recall.due if kept.recall else None,
        mastered=kept.mastered,
        since_gain=kept.since_gain,
    )


def _check_length(aim: Aim, actor: Actor) -> None:
    if aim.minutes is not None:
        if not 1 <= aim.minutes <= MOST_MINUTES:
            raise Invalid(say("minutes", actor.language, value=aim.minutes, most=MOST_MINUTES), "minutes")
    elif aim.length is None or not 1 <= aim.length <= MOST_PLACES:
        raise Invalid(say("length", actor.language, value=aim.length, most=MOST_PLACES), "length")
