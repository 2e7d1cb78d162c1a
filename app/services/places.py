"""The demo airfields: invented names at real coordinates."""

from collections.abc import Sequence
from dataclasses import dataclass

from app.packs.spec import Language
from app.questions.conventions import Region


@dataclass(frozen=True, slots=True)
class Place:
    """An invented airfield; `near` says in one language where on the earth it stands."""

    id: str
    name: str
    near: str
    area: str
    latitude_deg: float
    longitude_deg: float
    region: Region


def list_places(language: Language) -> Sequence[Place]:
    """Return all demo airfields, the default home first, grouped by area."""
    raise NotImplementedError
