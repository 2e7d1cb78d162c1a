"""Asking and answering: the question as shown, and the one answer that counts."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import NamedTuple
from uuid import UUID

from app.grader.grade import Grade, grade
from app.grader.reply import BadReply, Reply, parse_reply
from app.learner.difficulty import FamilyDifficulty
from app.packs.library import Library
from app.packs.spec import Language
from app.questions.model import Item
from app.questions.present import plain
from app.services.actor import Actor
from app.services.adaptive import go_on
from app.services.difficulty import read_difficulty
from app.services.drills import get_drill
from app.services.errors import Conflict, Invalid, NotFound
from app.services.items import ItemView, get_item, stamp_of, view_item, words_of
from app.services.learning import evidence_of, learn
from app.services.messages import say
from app.services.progress import Progress, first_open, progress_at
from app.services.reveal import AT_ONCE, REHEARSAL, find_sitting, may_see, reader_of, require_running
from app.storage.ids import new_id
from app.storage.queries import attempts, sittings, tallies
from app.storage.queries.attempts import AlreadyAnswered, AttemptRow, ItemRow, ToAnswer
from app.storage.queries.drills import StandRow
from app.storage.queries.sittings import SittingRow
from app.storage.unit_of_work import UnitOfWork

LONGEST_MS = 24 * 60 * 60 * 1000


class QuestionView(NamedTuple):
    """One place of a drill. Answered: show its verdict instead. `sitting`: it is one of an assigned set.

    ends_at: when the drill ends, after the question then in hand, where it goes by time.
    """

    progress: Progress
    item_id: UUID
    item: ItemView
    answered: bool
    sitting: SittingRow | None
    ends_at: datetime | None


@dataclass(frozen=True, slots=True)
class Sent:
    """An answer as the form sent it: the values of each field, and how long it took if that is known."""

    fields: Mapping[str, Sequence[str]]
    took_ms: int | None = None


class Graded(NamedTuple):
    """A graded answer, and how hard its family is in the school as of now."""

    item: Item
    reply: Reply
    marks: Grade
    difficulty: FamilyDifficulty


class Counted(NamedTuple):
    """An answer that counts, and where its drill stands with it."""

    graded: Graded
    progress: Progress
    sitting: SittingRow | None


class AnswerOutcome(NamedTuple):
    """What became of an answer; `answered` is None where an earlier answer to the item stands.

    held: whether it was right may not be said yet.
    """

    drill_id: UUID
    item_id: UUID
    position: int
    correct: bool
    held: bool
    answered: Counted | None = None

    @property
    def counted(self) -> bool:
        """Whether this is the answer that counts."""
        return self.answered is not None


def question(
    uow: UnitOfWork, actor: Actor, library: Library, drill_id: UUID, now: datetime, position: int | None = None
) -> QuestionView:
    """Return the item at a position, by default the first unanswered one (the last one when all are answered).

    The next item of a drill that adapts is chosen here; where such a drill is over by then, its last one is returned.
    NotFound for a stranger's drill or a position it does not have, Conflict when the question was withdrawn.
    """
    drill, places = get_drill(uow, actor, drill_id)
    sitting = find_sitting(uow, actor, drill_id, drill.purpose)
    following = len(places) + 1
    if drill.aim is not None and position in {None, following}:
        places = tuple(go_on(uow, actor, library, drill, places, now))
        position = None if position == following > len(places) else position
    wanted = position or first_open(places) or len(places)
    place = next((place for place in places if place.position == wanted), None)
    if place is None:
        raise NotFound(position)
    if drill.purpose == REHEARSAL and place.correct is None:
        raise Conflict(say("in-rehearsal", actor.language))
    item = get_item(library, place, drill.conventions, actor.language)
    held = sitting is not None and sitting.reveal != AT_ONCE
    return QuestionView(
        progress=progress_at(drill_id, drill, places, place.position, now, held=held),
        item_id=place.id,
        item=view_item(library, item, reader_of(sitting, actor).language),
        answered=place.correct is not None,
        sitting=sitting,
        ends_at=drill.ends_at,
    )


def answer(uow: UnitOfWork, actor: Actor, library: Library, item_id: UUID, sent: Sent, now: datetime) -> AnswerOutcome:
    """Grade and keep the first answer to an item; any later one changes nothing and gets the first verdict.

    NotFound for a stranger's item, Invalid for a reply that cannot be read, Conflict when the question was revised or
    the set it is of has ended.
    """
    asked = _item_to_answer(uow, actor, item_id)
    row = asked.item
    sitting = find_sitting(uow, actor, row.drill_id, row.purpose)
    held = not may_see(sitting, now)
    if row.correct is not None:
        return AnswerOutcome(row.drill_id, row.id, row.position, row.correct, held)
    if row.purpose == REHEARSAL:
        raise Conflict(say("in-rehearsal", actor.language))
    require_running(sitting, actor, now)
    item = get_item(library, row, row.conventions, actor.language)
    reply = read_reply(library, item, sent, actor.language)
    marks = grade(library, item, reply)
    graded = Graded(item, reply, marks, read_difficulty(library, item.family, row.difficulty))
    attempt = new_attempt(library, reader_of(sitting, actor), row.id, graded, sent.took_ms, now)
    try:
        with uow.writer() as connection:
            attempts.add_attempt(connection, attempt)
            tallies.count_attempt(connection, attempt)
            learn(connection, attempt, asked.known)
            if sitting is not None:
                sittings.finish_when_answered(connection, actor.school_id, sitting.id, now)
    except AlreadyAnswered:
        first = own_item(uow, actor, item_id)
        return AnswerOutcome(first.drill_id, first.id, first.position, bool(first.correct), held)
    places = _with_answer(asked, correct=marks.correct)
    progress = progress_at(row.drill_id, row, places, row.position, now, held=held)
    return AnswerOutcome(row.drill_id, row.id, row.position, marks.correct, held, Counted(graded, progress, sitting))


def own_item(uow: UnitOfWork, actor: Actor, item_id: UUID) -> ItemRow:
    """Return an item of the actor's own drills; NotFound for anybody else's."""
    with uow.reader() as connection:
        row = attempts.find_item(connection, actor.school_id, actor.own_visit, item_id)
    if row is None:
        raise NotFound(item_id)
    return row


def _item_to_answer(uow: UnitOfWork, actor: Actor, item_id: UUID) -> ToAnswer:
    with uow.reader() as connection:
        found = attempts.find_item_to_answer(connection, actor.school_id, actor.own_visit, item_id)
    if found is None:
        raise NotFound(item_id)
    return found


def read_reply(library: Library, item: Item, sent: Sent, language: Language) -> Reply:
    """Return the reply to an item; Conflict when other numbers had been shown, Invalid when it cannot be read."""
    if any(stamp != stamp_of(item) for stamp in sent.fields.get("stamp", ())):
        raise Conflict(say("revised", language))
    try:
        return parse_reply(library, item, sent.fields, language)
    except BadReply as error:
        raise Invalid(error.message, error.field) from error


def new_attempt(
    library: Library, actor: Actor, item_id: UUID, graded: Graded, took_ms: int | None, now: datetime
) -> AttemptRow:
    """Return the attempt that keeps a graded answer."""
    item, reply, marks, difficulty = graded
    worded = words_of(library, item, actor.language)
    timed = took_ms if took_ms is not None and 0 <= took_ms <= LONGEST_MS else None
    return AttemptRow(
        school_id=actor.school_id,
        id=new_id(now),
        drill_item_id=item_id,
        visit_id=actor.own_visit,
        family=item.family,
        family_version=item.version,
        pack=item.pack,
        pack_version=item.pack_version,
        seed=item.seed,
        form=item.form,
        ask=item.ask,
        parameters=plain(item.parameters),
        conventions=item.conventions.as_json(),
        shown=plain(worded.snapshot()) | {"stamp": stamp_of(item)},
        answer=plain(reply.as_json()),
        correct=marks.correct,
        share=marks.share,
        misconceptions=list(marks.misconceptions),
        first_misconception=marks.misconceptions[0] if marks.misconceptions else None,
        took_ms=timed,
        answered_at=now,
        evidence=evidence_of(library, item, worded, timed, difficulty, actor.day_of(now)),
    )


def _with_answer(asked: ToAnswer, *, correct: bool) -> tuple[StandRow, ...]:
    here = asked.item.position
    return tuple(each._replace(correct=correct) if each.position == here else each for each in asked.places)
