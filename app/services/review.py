"""Looking back: the verdict on one answer, and the summary of a drill."""

from dataclasses import dataclass
from typing import TYPE_CHECKING
from uuid import UUID

from app.packs.library import Library
from app.services.actor import Actor
from app.services.practice import ItemView
from app.services.progress import Mark, Progress
from app.storage.unit_of_work import UnitOfWork

if TYPE_CHECKING:
    from app.grader.explain import Explanation
    from app.grader.reply import Reply


@dataclass(frozen=True, slots=True)
class VerdictView:
    """The verdict on the answer that counts.

    `revised`: the question has changed since; `shown` is what stood there, and there is no explanation to give.
    """

    progress: Progress
    item_id: UUID
    item: "ItemView | None"
    shown: dict[str, object]
    reply: "Reply"
    correct: bool
    share: float
    explanation: "Explanation | None"
    revised: bool
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Tally:
    """Right of answered, of one topic."""

    topic: str
    title: str
    right: int
    answered: int


@dataclass(frozen=True, slots=True)
class MisconceptionTally:
    """A misconception met in the drill: how often, and the line to remember."""

    id: str
    family: str
    name: str
    remedy: str
    count: int


@dataclass(frozen=True, slots=True)
class SummaryItem:
    """One place of the drill as the summary lists it."""

    position: int
    item_id: UUID
    family: str
    family_title: str
    topic_title: str
    mark: Mark


@dataclass(frozen=True, slots=True)
class SummaryView:
    """A drill looked back on; `missed` families can be drilled again."""

    progress: Progress
    right: int
    answered: int
    length: int
    topics: tuple[Tally, ...]
    misconceptions: tuple[MisconceptionTally, ...]
    items: tuple[SummaryItem, ...]
    missed: tuple[str, ...]


def verdict(uow: UnitOfWork, actor: Actor, library: Library, item_id: UUID) -> VerdictView:
    """Return the verdict on an answered item; Conflict when it has no answer yet."""
    raise NotImplementedError


def summary(uow: UnitOfWork, actor: Actor, library: Library, drill_id: UUID) -> SummaryView:
    """Return the summary of a drill, finished or not."""
    raise NotImplementedError
