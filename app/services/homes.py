"""A wish for a home place, and the conventions it gives."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from app.packs.spec import Language
from app.questions.conventions import Conventions


@dataclass(frozen=True, slots=True)
class HomeWish:
    """Either a demo airfield by `place_id`, or coordinates in degrees, north and east positive.

    `rules` holds house rules by their name in Conventions; what is not in it keeps its default.
    """

    when: date
    place_id: str | None = None
    latitude_deg: float | None = None
    longitude_deg: float | None = None
    rules: Mapping[str, str | int] = field(default_factory=dict)


def conventions_for(wish: HomeWish, language: Language) -> Conventions:
    """Return the conventions of a home; Invalid names the value and what is accepted."""
    raise NotImplementedError
