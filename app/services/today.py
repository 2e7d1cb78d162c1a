"""The plan for today: reviews that are due, misconceptions to mend, sets that are due, then what is new."""

from collections.abc import Iterator, Sequence
from datetime import datetime
from typing import NamedTuple
from uuid import UUID

from app.packs.library import Library
from app.services.actor import Actor, Role
from app.services.drills import TopicView, find_open_drill, list_topics
from app.services.learning import LearnerState, find_state, find_state_without
from app.services.rehearsals import ListedRehearsal, find_unmarked
from app.services.reveal import held_items
from app.services.sittings import DueView, list_due
from app.services.withdrawals import offered
from app.storage.unit_of_work import UnitOfWork

# A misconception that was once this likely is open, worth a drill of its own, until it is less likely than this.
OPEN_FROM = 0.4
MENDED_BELOW = 0.2
LONG_AWAY_DAYS = 14


class FamilyLine(NamedTuple):
    """A family by its title."""

    id: str
    title: str
    topic: str


class OpenMisconception(NamedTuple):
    """A misconception that the answers point to; `id` is "family/name"."""

    id: str
    name: str
    family_title: str
    probability: float
    times: int


class TodayView(NamedTuple):
    """What there is to do today, the most pressing first.

    rehearsal: the one that is not marked yet. next_due: when the first review falls due, where none is. away_days: how
    long ago the last answer is, where long.
    """

    open_drill: UUID | None
    rehearsal: ListedRehearsal | None
    due: Sequence[FamilyLine]
    misconceptions: Sequence[OpenMisconception]
    sets: Sequence[DueView]
    unseen: int
    started: bool
    topics: Sequence[TopicView]
    next_due: datetime | None
    away_days: int | None


def today(uow: UnitOfWork, actor: Actor, library: Library, now: datetime) -> TodayView:
    """Return the actor's plan, of what the school asks; a guest's holds only what is new."""
    library = offered(uow, actor, library)
    state = shown_state(uow, actor, now)
    sets = list_due(uow, actor, now) if actor.role is Role.STUDENT else ()
    dues = _dues(library, state)
    return TodayView(
        open_drill=find_open_drill(uow, actor, now),
        rehearsal=find_unmarked(uow, actor, now),
        due=tuple(_line(library, family_id, actor) for due_at, family_id in dues if due_at <= now),
        misconceptions=tuple(open_misconceptions(library, state, actor)),
        sets=sets,
        unseen=len(set(library.families) - set(state.skills)),
        started=bool(state.skills),
        topics=list_topics(library, actor.language),
        next_due=dues[0][0] if dues and dues[0][0] > now else None,
        away_days=_away_days(state, actor, now),
    )


def shown_state(uow: UnitOfWork, actor: Actor, now: datetime) -> LearnerState:
    """Return what is known of the actor without what must not be seen yet; of a guest, nothing."""
    if actor.visit_id is None:
        return LearnerState()
    with uow.reader() as connection:
        held = held_items(connection, actor, now)
        if held:
            return find_state_without(connection, actor.school_id, actor.visit_id, held)
        return find_state(connection, actor.school_id, actor.visit_id)


def open_misconceptions(library: Library, state: LearnerState, actor: Actor) -> Iterator[OpenMisconception]:
    """Yield the misconceptions that were likely and are not mended yet, the likeliest first."""
    found = []
    for family_id, kept in state.skills.items():
        for name, met in kept.met.items():
            held = kept.skill.misconceptions.get(name, 0.0)
            words = misconception_words(library, family_id, name, actor)
            if words is not None and met["highest"] >= OPEN_FROM and held >= MENDED_BELOW:
                title = library.family(family_id).title.of(actor.language)
                found.append(OpenMisconception(f"{family_id}/{name}", words, title, held, met["times"]))
    yield from sorted(found, key=lambda each: (-each.probability, each.id))


def misconception_words(library: Library, family_id: str, name: str, actor: Actor) -> str | None:
    """Return a misconception's name in the actor's language; None when the packs no longer have it."""
    family = library.families.get(family_id)
    spec = next((each for each in family.misconceptions if each.id == name), None) if family else None
    return spec.name.of(actor.language) if spec else None


def _dues(library: Library, state: LearnerState) -> Sequence[tuple[datetime, str]]:
    """Return when each family that is asked comes back, the first first."""
    known = ((kept.recall, family_id) for family_id, kept in state.skills.items() if family_id in library.families)
    return sorted((recall.due, family_id) for recall, family_id in known if recall is not None)


def _line(library: Library, family_id: str, actor: Actor) -> FamilyLine:
    family = library.family(family_id)
    return FamilyLine(family_id, family.title.of(actor.language), family.topic)


def _away_days(state: LearnerState, actor: Actor, now: datetime) -> int | None:
    last = max((kept.skill.last_at for kept in state.skills.values() if kept.skill.last_at), default=now)
    days = (actor.day_of(now) - actor.day_of(last)).days
    return days if days >= LONG_AWAY_DAYS else None
