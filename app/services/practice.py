"""Asking and answering: the question as shown, and the one answer that counts."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from app.packs.library import Library
from app.questions.wording import WordedItem
from app.services.actor import Actor
from app.services.progress import Progress
from app.storage.unit_of_work import UnitOfWork


@dataclass(frozen=True, slots=True)
class ItemView:
    """An item in words with the titles around it.

    `stamp` goes with the form and comes back in the field of the same name: it says which numbers were shown.
    """

    topic: str
    topic_title: str
    family: str
    family_title: str
    place: str
    worded: WordedItem
    stamp: str


@dataclass(frozen=True, slots=True)
class QuestionView:
    """One place of a drill. Answered: show its verdict instead."""

    progress: Progress
    item_id: UUID
    item: ItemView
    answered: bool


@dataclass(frozen=True, slots=True)
class Sent:
    """An answer as the form sent it: the values of each field, and how long it took if that is known."""

    fields: Mapping[str, Sequence[str]]
    took_ms: int | None = None


@dataclass(frozen=True, slots=True)
class AnswerOutcome:
    """What became of an answer; `counted` is False where an earlier answer to the item stands."""

    drill_id: UUID
    item_id: UUID
    position: int
    correct: bool
    counted: bool


def question(
    uow: UnitOfWork, actor: Actor, library: Library, drill_id: UUID, position: int | None = None
) -> QuestionView:
    """Return the item at a position, by default the first unanswered one (the last one when all are answered)."""
    raise NotImplementedError


def answer(uow: UnitOfWork, actor: Actor, library: Library, item_id: UUID, sent: Sent, now: datetime) -> AnswerOutcome:
    """Grade and keep the first answer to an item; any later one changes nothing and gets the first verdict.

    NotFound for a stranger's item, Invalid for a reply that cannot be read, Conflict when the question was revised.
    """
    raise NotImplementedError


def front_item(library: Library, actor: Actor, seed: int) -> ItemView:
    """Return the front page's question: the first item of the drill that answering it would start. Keeps nothing."""
    raise NotImplementedError


def answer_front(
    uow: UnitOfWork, actor: Actor, library: Library, seed: int, sent: Sent, now: datetime
) -> AnswerOutcome:
    """Start the front page's drill and answer its first item; done twice, it is the same drill and the first answer."""
    raise NotImplementedError
