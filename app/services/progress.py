"""Where somebody stands in a drill: one mark a place."""

from collections.abc import Sequence
from datetime import datetime
from enum import StrEnum
from typing import Any, NamedTuple, Protocol
from uuid import UUID

from app.storage.queries.drills import MOST_PLACES, PlaceRow


class Mark(StrEnum):
    """What became of one place of a drill."""

    KEY = "key"
    MISSED = "missed"
    ANSWERED = "answered"
    SET_ASIDE = "set-aside"
    HERE = "here"
    TO_COME = "to-come"


class PlaceMark(NamedTuple):
    """One place of a drill; `here` is also set where the item looked at is answered already."""

    position: int
    item_id: UUID
    mark: Mark
    here: bool


class Progress(NamedTuple):
    """Position n of a drill. `next_position` is the first without an answer, None when there will be none.

    open_ended: how many places there will be is not known, as in a drill by minutes.
    """

    drill_id: UUID
    position: int
    length: int
    marks: tuple[PlaceMark, ...]
    next_position: int | None
    open_ended: bool = False

    def count(self, mark: Mark) -> int:
        """Return how many places carry a mark."""
        return sum(place.mark == mark for place in self.marks)

    @property
    def finished(self) -> bool:
        """Whether every place has its answer and there will be no more."""
        return self.next_position is None

    @property
    def missed_before(self) -> UUID | None:
        """The item of the nearest missed place before this one."""
        return next((each.item_id for each in reversed(self._missed) if each.position < self.position), None)

    @property
    def missed_after(self) -> UUID | None:
        """The item of the nearest missed place after this one."""
        return next((each.item_id for each in self._missed if each.position > self.position), None)

    @property
    def _missed(self) -> tuple[PlaceMark, ...]:
        return tuple(place for place in self.marks if place.mark is Mark.MISSED)


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


def mark_of(place: PlaceRow, *, held: bool = False) -> Mark:
    """Return what became of a place; held: not whether the answer was right."""
    if place.correct is None:
        return Mark.TO_COME
    if held:
        return Mark.ANSWERED
    if place.set_aside_at is not None:
        return Mark.SET_ASIDE
    return Mark.KEY if place.correct else Mark.MISSED


def first_open(places: Sequence[PlaceRow]) -> int | None:
    """Return the first position without an answer."""
    return next((place.position for place in places if place.correct is None), None)


def goes_on(drill: Planned, places: Sequence[PlaceRow], now: datetime) -> bool:
    """Whether a drill whose places are chosen one by one has all of them answered and is to have one more."""
    if drill.aim is None or first_open(places):
        return False
    over = drill.ends_at is not None and now >= drill.ends_at
    return not over and len(places) < min(drill.planned or MOST_PLACES, MOST_PLACES)


def progress_at(
    drill_id: UUID, drill: Planned, places: Sequence[PlaceRow], position: int, now: datetime, *, held: bool = False
) -> Progress:
    """Return the progress of a drill as seen from one position; held: without what was right."""
    marks = []
    for place in places:
        here = place.position == position
        mark = Mark.HERE if here and place.correct is None else mark_of(place, held=held)
        marks.append(PlaceMark(place.position, place.id, mark, here))
    following = first_open(places) or (len(places) + 1 if goes_on(drill, places, now) else None)
    length = max(len(places), drill.planned or 0)
    return Progress(drill_id, position, length, tuple(marks), following, open_ended=drill.ends_at is not None)
