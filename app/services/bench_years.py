"""How the field at a place changes: since 1900 by one model, over the present model's life by the other."""

from collections.abc import Sequence
from datetime import date
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from app.physics.angles import difference, round_half_up
from app.physics.field import MODEL_FROM, MODEL_TO, Field, field_for_place
from app.physics.past_field import DEFINITIVE_FROM, DEFINITIVE_TO, EPOCHS, past_field_at
from app.services.bench_field import BenchField


class YearOfField(NamedTuple):
    """Variation and dip on 1 January, and the change a year to the next row in minutes, east positive.

    `definitive` is False where the past's model may still be revised; None in the present model.
    """

    year: int
    variation_deg: float
    dip_deg: float
    change_min: int | None
    definitive: bool | None = None


class Years(NamedTuple):
    """The past every five years to 2025, the present model every year, and how far they are apart where they meet."""

    past: Sequence[YearOfField]
    present: Sequence[YearOfField]
    apart_min: int


def years_of(field: BenchField) -> Years | None:
    """Return how the field changes at a place; nothing for a field of one's own."""
    if field.latitude_deg is None or field.longitude_deg is None:
        return None
    return _years_at(field.latitude_deg, field.longitude_deg)


@lru_cache(maxsize=256)
def _years_at(latitude_deg: float, longitude_deg: float) -> Years:
    past = {year: past_field_at(latitude_deg, longitude_deg, year) for year in EPOCHS}
    ahead = range(int(MODEL_FROM), int(MODEL_TO) + 1)
    present = {year: field_for_place(latitude_deg, longitude_deg, date(year, 1, 1)) for year in ahead}
    meet = ahead[0]
    apart = difference(present[meet].declination_deg, past[meet].declination_deg)
    sure = {year: DEFINITIVE_FROM <= year <= DEFINITIVE_TO for year in past}
    return Years(_rows(past, sure), _rows(present, {}), _minutes(abs(apart)))


def _rows(found: dict[int, Field], sure: dict[int, bool]) -> Sequence[YearOfField]:
    years = list(found)
    turned = [
        _minutes(difference(found[b].declination_deg, found[a].declination_deg) / (b - a)) for a, b in pairwise(years)
    ]
    return tuple(
        YearOfField(year, at.declination_deg, at.dip_deg, change, sure.get(year))
        for (year, at), change in zip(found.items(), [*turned, None], strict=True)
    )


def _minutes(angle_deg: float) -> int:
    return int(round_half_up(60 * angle_deg))
