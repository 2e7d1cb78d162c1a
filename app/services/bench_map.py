"""The map of the magnetic world on a day: its drawing, and the field at the demo airfields as a table of samples."""

from collections.abc import Sequence
from datetime import date
from functools import lru_cache
from typing import NamedTuple

from app.figures.world_map import draw_world
from app.packs.spec import Language
from app.physics.field import Field, Zone, field_for_place, zone
from app.physics.world_field import world_field
from app.services.bench_field import field_of
from app.services.homes import HomeWish
from app.services.places import Place, list_places


class Sample(NamedTuple):
    """An airfield, its field on the day, and the magnetic model's zone there."""

    place: Place
    field: Field
    zone: Zone


def world_map(day: date, language: Language) -> str:
    """Return the map's layers as an SVG file; Invalid for a day outside the model's life."""
    check_day(day, language)
    return _drawn(day, language)


def sample_places(day: date, language: Language) -> Sequence[Sample]:
    """Return the field at every demo airfield, from north to south; Invalid as `world_map`."""
    check_day(day, language)
    places = sorted(list_places(language), key=lambda place: -place.latitude_deg)
    found = [(place, field_for_place(place.latitude_deg, place.longitude_deg, day)) for place in places]
    return [Sample(place, field, zone(field.horizontal_nt)) for place, field in found]


def check_day(day: date, language: Language) -> None:
    """Refuse a day on which the model does not hold."""
    field_of(HomeWish(day, list_places(language)[0].id), None, language)


# The same for everybody all day: a worker draws it once.
@lru_cache(maxsize=8)
def _drawn(day: date, language: Language) -> str:
    return draw_world(world_field(day), language)
