"""Where somebody stands in a drill: one mark a place."""

from collections.abc import Sequence
from datetime import datetime
from enum import StrEnum
from typing import NamedTuple
from uuid import UUID

from app.storage.queries.drills import PlaceRow


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
    """Position n of a drill. `next_position` is the first place without an answer, None when there is none left.

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
        """Whether every place has its answer."""
        return self.next_position is None


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


def progress_at(
    drill_id: UUID,
    places: Sequence[PlaceRow],
    position: int,
    plan: tuple[int | None, datetime | None],
    *,
    held: bool = False,
) -> Progress:
    """Return the progress of a drill as seen from one position.

    plan: how many places there will be and when the drill ends, where they are chosen one by one. held: without what
    was right.
    """
    marks = []
    for place in places:
        here = place.position == position
        mark = Mark.HERE if here and place.correct is None else mark_of(place, held=held)
        marks.append(PlaceMark(place.position, place.id, mark, here))
    planned, ends_at = plan
    length = max(len(places), planned or 0)
    return Progress(drill_id, position, length, tuple(marks), first_open(places), open_ended=ends_at is not None)
