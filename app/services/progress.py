"""Where somebody stands in a drill: one mark a place."""

from dataclasses import dataclass
from enum import StrEnum
from uuid import UUID


class Mark(StrEnum):
    """What became of one place of a drill."""

    KEY = "key"
    MISSED = "missed"
    HERE = "here"
    TO_COME = "to-come"


@dataclass(frozen=True, slots=True)
class PlaceMark:
    """One place of a drill; `here` is also set where the item looked at is answered already."""

    position: int
    item_id: UUID
    mark: Mark
    here: bool


@dataclass(frozen=True, slots=True)
class Progress:
    """Position n of a drill. `next_position` is the first place without an answer, None when there is none left."""

    drill_id: UUID
    position: int
    length: int
    marks: tuple[PlaceMark, ...]
    next_position: int | None

    @property
    def finished(self) -> bool:
        """Whether every place has its answer."""
        return self.next_position is None
