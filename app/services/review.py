"""Looking back: the verdict on one answer, and the summary of a drill."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, NamedTuple
from uuid import UUID

from app.grader.explain import Explanation, explain, explain_unanswered
from app.grader.grade import Grade, grade
from app.grader.reply import Reply
from app.packs.library import Library
from app.questions.model import Item
from app.questions.wording import Writer
from app.services.actor import Actor
from app.services.bench_links import Query, link_for
from app.services.deviation_links import workshop_link_for
from app.services.drills import get_drill
from app.services.errors import Conflict
from app.services.items import ItemView, find_item, get_item, stamp_of, view_item
from app.services.mending import Mending, mending_of
from app.services.messages import say
from app.services.practice import AnswerOutcome, own_item
from app.services.progress import Mark, Progress, first_open, mark_of, progress_at
from app.services.reveal import find_rehearsal, find_sitting, is_closed, may_see, reader_of, require_open
from app.services.withdrawals import offered
from app.storage.queries import attempts, drills
from app.storage.queries.attempts import AnsweredRow, AttemptRow
from app.storage.queries.drills import DrillRow, PlaceRow
from app.storage.queries.sittings import SittingRow
from app.storage.unit_of_work import UnitOfWork


class Explained(NamedTuple):
    """An answered item that today's packs still draw as it was shown, with its explanation."""

    item: ItemView
    explanation: Explanation
    bench: Query | None  # the flight that shows it
    workshop: Query | None  # its swing or correction card, in the deviation workshop


class VerdictView(NamedTuple):
    """The verdict on the answer that counts; without `reply`, on a question left open in what is closed.

    `explained` is None when the question has been revised since: then only `shown`, the item as it was shown in the
    language of that moment, the answer and the verdict can be shown.
    """

    progress: Progress
    item_id: UUID
    correct: bool
    share: float
    reply: Reply | None
    shown: dict[str, Any]
    explained: Explained | None
    sitting: SittingRow | None
    set_aside_at: datetime | None


class Tally(NamedTuple):
    """Right of answered, of one topic."""

    topic: str
    title: str
    right: int
    answered: int


@dataclass(frozen=True, slots=True)
class MisconceptionTally:
    """A misconception met in the drill: how often, and the line to remember, with the numbers of the first time."""

    id: str
    family: str
    name: str
    remedy: str
    count: int


class SummaryItem(NamedTuple):
    """One place of the drill as the summary lists it; a family no longer in the packs goes by its id."""

    position: int
    item_id: UUID
    family: str
    family_title: str
    topic_title: str
    mark: Mark


class SummaryView(NamedTuple):
    """A drill looked back on; `missed` families can be drilled again. Held: nothing in it says what was right.

    What was set aside stands among `items` alone. mending: what became of what a finished drill was to mend.
    rehearsal_id: the rehearsal it is the look back on; before its end nothing of it is shown.
    """

    progress: Progress
    right: int
    answered: int
    length: int
    topics: tuple[Tally, ...]
    misconceptions: tuple[MisconceptionTally, ...]
    items: tuple[SummaryItem, ...]
    missed: tuple[str, ...]
    sitting: SittingRow | None = None
    held: bool = False
    mending: Mending | None = None
    rehearsal_id: UUID | None = None


def verdict(uow: UnitOfWork, actor: Actor, library: Library, item_id: UUID, now: datetime) -> VerdictView:
    """Return the verdict on an item that was answered, or left open in what is closed.

    NotFound for a stranger's, Conflict while it may still be answered or is held back.
    """
    row, places = _answered(uow, actor, item_id)
    if row is None:
        return _left_open(uow, actor, library, item_id, now)
    attempt = row.attempt
    sitting = find_sitting(uow, actor, row.drill_id, row.purpose)
    require_open(sitting, actor, now)
    progress = progress_at(row.drill_id, row, places, row.position, now)
    closed = is_closed(sitting, find_rehearsal(uow, actor, row.drill_id, row.purpose), now)
    reply = Reply.from_json(attempt.answer)
    return VerdictView(
        progress=progress.as_closed() if closed else progress,
        item_id=item_id,
        correct=attempt.correct,
        share=attempt.share,
        reply=reply,
        shown=attempt.shown,
        explained=_explained_still(library, reader_of(sitting, actor), attempt, reply),
        sitting=sitting,
        set_aside_at=attempt.set_aside_at,
    )


def verdict_at_once(library: Library, actor: Actor, outcome: AnswerOutcome) -> VerdictView | None:
    """Return the verdict on an answer just given, from what is in hand; None where it did not count or is held back."""
    counted = outcome.answered
    if counted is None or outcome.held:
        return None
    item, reply, marks, _ = counted.graded
    return VerdictView(
        progress=counted.progress,
        item_id=outcome.item_id,
        correct=marks.correct,
        share=marks.share,
        reply=reply,
        shown={},
        explained=_explained(library, reader_of(counted.sitting, actor), item, reply, marks),
        sitting=counted.sitting,
        set_aside_at=None,
    )


def summary(uow: UnitOfWork, actor: Actor, library: Library, drill_id: UUID, now: datetime) -> SummaryView:
    """Return the summary of a drill, finished or not; NotFound for a stranger's."""
    drill, places = get_drill(uow, actor, drill_id)
    sitting = find_sitting(uow, actor, drill_id, drill.purpose)
    rehearsal = find_rehearsal(uow, actor, drill_id, drill.purpose)
    held = not may_see(sitting, now)
    counted = [place for place in places if place.set_aside_at is None]
    answered = [place for place in counted if place.correct is not None]
    told = [] if held else answered
    drawn = offered(uow, actor, library).families
    missed = [place.family for place in told if not place.correct and place.family in drawn]
    at = first_open(places) or len(places)
    progress = progress_at(drill_id, drill, places, at, now, held=held)
    if is_closed(sitting, rehearsal, now):
        progress = progress.as_closed()
    return SummaryView(
        progress=progress,
        right=sum(place.correct is True for place in told),
        answered=len(answered),
        length=len(counted),
        topics=tuple(_tallies(library, told, actor)),
        misconceptions=tuple(_misconceptions(library, drill, told, actor)),
        items=tuple(_summary_item(library, place, actor, held=held) for place in places),
        missed=tuple(dict.fromkeys(missed)),
        sitting=sitting,
        held=held,
        mending=mending_of(uow, actor, library, drill.aim) if progress.finished else None,
        rehearsal_id=rehearsal.id if rehearsal else None,
    )


def _answered(uow: UnitOfWork, actor: Actor, item_id: UUID) -> tuple[AnsweredRow | None, tuple[PlaceRow, ...]]:
    with uow.reader() as connection:
        row = attempts.find_answered(connection, actor.school_id, actor.own_visit, item_id)
        return row, drills.list_places(connection, actor.school_id, row.drill_id) if row else ()


def _left_open(uow: UnitOfWork, actor: Actor, library: Library, item_id: UUID, now: datetime) -> VerdictView:
    row = own_item(uow, actor, item_id)
    sitting = find_sitting(uow, actor, row.drill_id, row.purpose)
    if not is_closed(sitting, find_rehearsal(uow, actor, row.drill_id, row.purpose), now):
        raise Conflict(say("not-answered", actor.language))
    require_open(sitting, actor, now)
    _, places = get_drill(uow, actor, row.drill_id)
    reader = reader_of(sitting, actor)
    item = get_item(library, row, row.conventions, actor.language)
    return VerdictView(
        progress=progress_at(row.drill_id, row, places, row.position, now).as_closed(),
        item_id=item_id,
        correct=False,
        share=0.0,
        reply=None,
        shown={},
        explained=_with_ways(library, reader, item, explain_unanswered(library, item, reader.language)),
        sitting=sitting,
        set_aside_at=None,
    )


def _explained_still(library: Library, actor: Actor, attempt: AttemptRow, reply: Reply) -> Explained | None:
    item = find_item(library, attempt, attempt.conventions)
    if item is None or stamp_of(item) != attempt.shown["stamp"]:
        return None
    marks = grade(library, item, reply)
    if marks.correct != attempt.correct:
        return None  # the key has been corrected since: the kept verdict cannot be explained
    return _explained(library, actor, item, reply, marks)


def _explained(library: Library, actor: Actor, item: Item, reply: Reply, marks: Grade) -> Explained:
    return _with_ways(library, actor, item, explain(library, item, reply, marks, actor.language))


def _with_ways(library: Library, actor: Actor, item: Item, explanation: Explanation) -> Explained:
    return Explained(view_item(library, item, actor.language), explanation, link_for(item), workshop_link_for(item))


def _tallies(library: Library, answered: Sequence[PlaceRow], actor: Actor) -> Iterator[Tally]:
    for topic in dict.fromkeys(place.pack for place in answered):
        marks = [place.correct for place in answered if place.pack == topic]
        yield Tally(topic, _topic_title(library, topic, actor), sum(mark is True for mark in marks), len(marks))


def _misconceptions(
    library: Library, drill: DrillRow, answered: Sequence[PlaceRow], actor: Actor
) -> Iterator[MisconceptionTally]:
    """Yield what was met, the most frequent first."""
    met = [(place.family, name) for place in answered for name in place.misconceptions or ()]
    for (family_id, name), count in Counter(met).most_common():
        first = next(each for each in answered if each.family == family_id and name in (each.misconceptions or ()))
        words = _name_and_remedy(library, drill, first, name, actor)
        if words is not None:
            yield MisconceptionTally(name, family_id, *words, count)


def _name_and_remedy(
    library: Library, drill: DrillRow, place: PlaceRow, name: str, actor: Actor
) -> tuple[str, str] | None:
    """Return the misconception in words with the item's numbers; None when the packs no longer have it."""
    item = find_item(library, place, drill.conventions)
    if item is None or name not in {each.id for each in library.family(place.family).misconceptions}:
        return None
    writer = Writer(library, item, actor.language)
    spec = writer.family.misconception(name)
    wrong = dict(item.wrong_values()).get(name)
    more = wrong.more if wrong else {}
    return writer.write(spec.name, more), writer.write(spec.remedy, more)


def _summary_item(library: Library, place: PlaceRow, actor: Actor, *, held: bool) -> SummaryItem:
    family = library.families.get(place.family)
    title = family.title.of(actor.language) if family else place.family
    topic_title = _topic_title(library, place.pack, actor)
    return SummaryItem(place.position, place.id, place.family, title, topic_title, mark_of(place, held=held))


def _topic_title(library: Library, pack_id: str, actor: Actor) -> str:
    pack = library.packs.get(pack_id)
    return pack.title.of(actor.language) if pack else pack_id
