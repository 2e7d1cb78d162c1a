"""My record: what is known of a learner, with how sure it is, and what is still missing."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from datetime import date, datetime
from statistics import mean
from typing import Any, NamedTuple
from uuid import UUID

from app.learner.mastery import Mastery, judge
from app.packs.library import Library
from app.services.actor import Actor
from app.services.learning import LearnerState, SkillState
from app.services.reveal import held_items
from app.services.today import (
    MENDED_BELOW,
    OPEN_FROM,
    OpenMisconception,
    misconception_words,
    open_misconceptions,
    shown_state,
)
from app.services.withdrawals import offered
from app.storage.queries import attempts, tallies
from app.storage.queries.attempts import MarkRow
from app.storage.unit_of_work import UnitOfWork

SPACED_RIGHT = 2
MOST_MISTAKES = 100


class FamilyRecord(NamedTuple):
    """One kind of question: the estimate of being right with its likely range, and why it is not mastered yet."""

    id: str
    title: str
    answers: int
    right: int
    mastery: Mastery
    mastered: bool
    last_at: datetime | None
    due_at: datetime | None


class TopicRecord(NamedTuple):
    """A topic with the families answered, their mean estimate and range, and how many there are in all."""

    id: str
    title: str
    families: Sequence[FamilyRecord]
    mastered: int
    in_all: int

    @property
    def estimate(self) -> float:
        """The share expected right over the kinds answered."""
        return mean(each.mastery.estimate for each in self.families)

    @property
    def low(self) -> float:
        """As if all kinds were off to the same side, which is the widest the range can be."""
        return mean(each.mastery.low for each in self.families)

    @property
    def high(self) -> float:
        """The other end of the range."""
        return mean(each.mastery.high for each in self.families)


class Mistake(NamedTuple):
    """An item that was missed; its page shows it exactly as it was seen."""

    item_id: UUID
    family_title: str
    missed_at: datetime
    spaced_right: int


class MendedMisconception(NamedTuple):
    """A misconception that was likely once and is not any more."""

    id: str
    name: str
    family_title: str


class RecordView(NamedTuple):
    """All that is known; minutes are those between a question and its answer."""

    answers: int
    right: int
    minutes: int
    topics: Sequence[TopicRecord]
    open: Sequence[OpenMisconception]
    mended: Sequence[MendedMisconception]
    mistakes: Sequence[Mistake]

    @property
    def mistakes_by_kind(self) -> Sequence[tuple[str, Sequence[Mistake]]]:
        """Return the mistakes under the name of their kind of question, the kind that was missed last first."""
        kinds: defaultdict[str, list[Mistake]] = defaultdict(list)
        for each in self.mistakes:
            kinds[each.family_title].append(each)
        return tuple(kinds.items())


def record(uow: UnitOfWork, actor: Actor, library: Library, now: datetime) -> RecordView:
    """Return the actor's own record; a guest's is empty."""
    state, drawn = shown_state(uow, actor, now), offered(uow, actor, library)
    marks: Sequence[MarkRow] = ()
    took_ms = 0
    if actor.visit_id is not None:
        with uow.reader() as connection:
            held = held_items(connection, actor, now)
            kept = attempts.list_marks(connection, actor.school_id, actor.visit_id)
            marks = [mark for mark in kept if mark.drill_item_id not in held and mark.set_aside_at is None]
            took_ms = tallies.total(connection, actor.school_id, actor.visit_id).took_ms
    return RecordView(
        answers=len(marks),
        right=sum(mark.correct for mark in marks),
        minutes=round(took_ms / 60_000),
        topics=tuple(_topics(library, state, actor, now)),
        open=tuple(open_misconceptions(drawn, state, actor)),
        mended=tuple(_mended(library, state, actor)),
        mistakes=tuple(_mistakes(drawn, marks, actor)),
    )


def own_data(uow: UnitOfWork, actor: Actor, now: datetime) -> dict[str, Any]:
    """Return all that is kept of what the actor answered, as plain values; verdicts held back are left out."""
    with uow.reader() as connection:
        held = held_items(connection, actor, now)
        kept = attempts.list_attempts(connection, actor.school_id, actor.own_visit)
    return {
        "name": actor.name,
        "language": actor.language,
        "answers": [attempts.as_plain(each) for each in kept if each.drill_item_id not in held],
    }


def _topics(library: Library, state: LearnerState, actor: Actor, now: datetime) -> Iterator[TopicRecord]:
    for pack in library.packs.values():
        families = [
            _family(library, family_id, state, actor, now)
            for family_id in pack.families
            if family_id in state.skills and state.skills[family_id].skill.answers
        ]
        mastered = sum(family.mastered for family in families)
        yield TopicRecord(pack.id, pack.title.of(actor.language), tuple(families), mastered, len(pack.families))


def _family(library: Library, family_id: str, state: LearnerState, actor: Actor, now: datetime) -> FamilyRecord:
    kept: SkillState = state.skills[family_id]
    mastery = judge(state.level, kept.skill, now, was_mastered=kept.mastered)
    return FamilyRecord(
        id=family_id,
        title=library.family(family_id).title.of(actor.language),
        answers=kept.skill.answers,
        right=kept.skill.right,
        mastery=mastery,
        mastered=mastery.mastered,
        last_at=kept.skill.last_at,
        due_at=kept.recall.due if kept.recall else None,
    )


def _mended(library: Library, state: LearnerState, actor: Actor) -> Iterator[MendedMisconception]:
    for family_id, kept in state.skills.items():
        for name, met in kept.met.items():
            words = misconception_words(library, family_id, name, actor)
            held = kept.skill.misconceptions.get(name, 0.0)
            if words is not None and met["highest"] >= OPEN_FROM and held < MENDED_BELOW:
                title = library.family(family_id).title.of(actor.language)
                yield MendedMisconception(f"{family_id}/{name}", words, title)


def _mistakes(library: Library, marks: Sequence[MarkRow], actor: Actor) -> Iterator[Mistake]:
    """Yield what was missed and not answered rightly on two later days, the latest first.

    A kind that is asked no more cannot be made good, so it is left out.
    """
    right_days: defaultdict[str, set[date]] = defaultdict(set)
    open_mistakes = []
    for mark in reversed(marks):  # from the latest on
        days = right_days[mark.family]
        later = len(days - {actor.day_of(mark.answered_at)})
        family = library.families.get(mark.family)
        if mark.correct:
            days.add(actor.day_of(mark.answered_at))
        elif family is not None and later < SPACED_RIGHT:
            title = family.title.of(actor.language)
            open_mistakes.append(Mistake(mark.drill_item_id, title, mark.answered_at, later))
    yield from open_mistakes[:MOST_MISTAKES]
