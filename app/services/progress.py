"""Where somebody stands in a drill: one mark a place."""

from collections.abc import Sequence
from datetime import datetime
from enum import StrEnum
from typing import Any, NamedTuple, Protocol
from uuid import UUID

from app.storage.queries.drills import MOST_PLACES


class Mark(StrEnum):
    """What became of one place of a drill."""

    KEY = "key"
    MISSED = "missed"
    ANSWERED = "answered"
    SET_ASIDE = "set-aside"
    HERE = "here"
    TO_COME = "to-come"


class Progress(NamedTuple):
    """Position n of a drill. `next_position` is the first without an answer, None when there will be none.

    marks, items: one a place, from the first. open_ended: how many there will be is not known, as by minutes.
    closed: it takes no more answers, so that what is open counts as missed.
    """

    drill_id: UUID
    position: int
    length: int
    marks: tuple[Mark, ...]
    items: tuple[UUID, ...]
    next_position: int | None
    open_ended: bool = False
    closed: bool = False

    def as_closed(self) -> "Progress":
        """Return the same where no more answers are taken: what is open stays open, here too."""
        marks = tuple(Mark.TO_COME if mark is Mark.HERE else mark for mark in self.marks)
        return self._replace(marks=marks, next_position=None, closed=True)

    def count(self, mark: Mark) -> int:
        """Return how many places carry a mark."""
        return self.marks.count(mark)

    @property
    def finished(self) -> bool:
        """Whether every place has its answer and there will be no more."""
        return self.next_position is None

    @property
    def missed_before(self) -> UUID | None:
        """The item of the nearest place before this one that was missed, or left open in what is closed."""
        return next((item for position, item in reversed(self._missed) if position < self.position), None)

    @property
    def missed_after(self) -> UUID | None:
        """The item of the nearest place after this one that was missed, or left open in what is closed."""
        return next((item for position, item in self._missed if position > self.position), None)

    @property
    def _missed(self) -> list[tuple[int, UUID]]:
        marks = {Mark.MISSED, Mark.TO_COME} if self.closed else {Mark.MISSED}
        return [each for each, mark in zip(enumerate(self.items, 1), self.marks, strict=True) if mark in marks]


class Place(Protocol):
    """A place of a drill, as far as it says what became of it; one without an answer has no `correct`."""

    @property
    def id(self) -> UUID:
        """Its item."""

    @property
    def position(self) -> int:
        """Where it stands, from 1."""

    @property
    def correct(self) -> bool | None:
        """Whether its answer was right."""

    @property
    def set_aside_at(self) -> datetime | None:
        """When its answer was set aside."""


class Planned(Protocol):
    """A drill, or a row that says of its drill: its aim, how many places it will have, when it ends."""

    @property
    def aim(self) -> dict[str, Any] | None:
        """What it is for, where its places are chosen one by one."""

    @property
    def planned(self) -> int | None:
        """How many places it will have."""

    @property
    def ends_at(self) -> datetime | None:
        """When it ends, after the place then in hand."""


def mark_of(place: Place, *, held: bool = False) -> Mark:
    """Return what became of a place; held: not whether the answer was right."""
    if place.correct is None:
        return Mark.TO_COME
    if held:
        return Mark.ANSWERED
    if place.set_aside_at is not None:
        return Mark.SET_ASIDE
    return Mark.KEY if place.correct else Mark.MISSED


def first_open(places: Sequence[Place]) -> int | None:
    """Return the first position without an answer."""
    return next((place.position for place in places if place.correct is None), None)


def goes_on(drill: Planned, places: Sequence[Place], now: datetime) -> bool:
    """Whether a drill whose places are chosen one by one has all of them answered and is to have one more."""
    if drill.aim is None or first_open(places):
        return False
    over = drill.ends_at is not None and now >= drill.ends_at
    return not over and len(places) < min(drill.planned or MOST_PLACES, MOST_PLACES)


def progress_at(
    drill_id: UUID, drill: Planned, places: Sequence[Place], position: int, now: datetime, *, held: bool = False
) -> Progress:
    """Return the progress of a drill as seen from one position; held: without what was right."""
    marks = [mark_of(place, held=held) for place in places]
    if marks[position - 1] is Mark.TO_COME:
        marks[position - 1] = Mark.HERE
    following = first_open(places) or (len(places) + 1 if goes_on(drill, places, now) else None)
    length = max(len(places), drill.planned or 0)
    return Progress(
        drill_id=drill_id,
        position=position,
        length=length,
        marks=tuple(marks),
        items=tuple(place.id for place in places),
        next_position=following,
        open_ended=drill.ends_at is not None,
    )
