"""The demo airfields: invented names at real coordinates, read once from places.toml."""

import tomllib
from collections.abc import Sequence
from functools import cache
from math import cos, radians
from pathlib import Path
from typing import Any, NamedTuple

from app.packs.spec import Language, typeset
from app.questions.conventions import Region

PLACES = Path(__file__).with_name("places.toml")
BORDER_TOWNS = Path(__file__).with_name("border_towns.toml")
ACROSS_A_BORDER: tuple[tuple[float, float, Region], ...] = (  # towns whose nearest demo airfield is another country's
    (46.8, -71.2, "ca-south"),  # Québec
    (47.5, -122.3, "us"),  # Seattle
)


class Place(NamedTuple):
    """An invented airfield; `near` says where on the earth it stands, `area` in which group it is listed."""

    id: str
    name: str
    near: str
    area: str
    latitude_deg: float
    longitude_deg: float
    region: Region


@cache
def list_places(language: Language) -> Sequence[Place]:
    """Return all demo airfields, the default home first, grouped by area."""
    return tuple(_place(entry, area, language) for area in _areas() for entry in area["place"])


def find_place(place_id: str) -> Place | None:
    """Return a demo airfield, in English; its name is the same in every language."""
    return next((place for place in list_places("en") if place.id == place_id), None)


def region_near(latitude_deg: float, longitude_deg: float) -> Region:
    """Return the region of the nearest demo airfield or border town: a first guess at whose rules hold there."""

    def squared_distance(known: tuple[float, float, Region]) -> float:
        north = known[0] - latitude_deg
        east = (known[1] - longitude_deg + 180) % 360 - 180
        return north**2 + (east * cos(radians(latitude_deg))) ** 2

    airfields = ((place.latitude_deg, place.longitude_deg, place.region) for place in list_places("en"))
    return min((*airfields, *_border_towns()), key=squared_distance)[2]


def _place(entry: dict[str, Any], area: dict[str, Any], language: Language) -> Place:
    near, title = typeset(entry["near"][language]), typeset(area["title"][language])
    return Place(**{**entry, "near": near}, area=title)


@cache
def _border_towns() -> tuple[tuple[float, float, Region], ...]:
    regions: dict[Region, dict[str, list[float]]] = tomllib.loads(BORDER_TOWNS.read_text("utf-8"))  # type: ignore[assignment]
    return tuple((north, east, region) for region, towns in regions.items() for north, east in towns.values())


@cache
def _areas() -> list[dict[str, Any]]:
    areas: list[dict[str, Any]] = tomllib.loads(PLACES.read_text("utf-8"))["area"]
    return areas
