"""The field of a bench flight: a place's own, by the magnetic model, or one with a dip of one's own; and its change."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise

from app.packs.spec import Language
from app.physics.angles import cos_deg, difference, round_half_up
from app.physics.field import MODEL_FROM, MODEL_TO, field_for_place, zone
from app.questions.conventions import LEVEL_FIELD_DIP_DEG, ROLLOUT_LIMIT_DIP_DEG, WEAK_HORIZONTAL_NT
from app.services.errors import Invalid
from app.services.homes import HomeWish, conventions_for
from app.services.messages import say, say_number

OWN_TOTAL_NT = 50_000.0  # of a field with a dip of one's own; chosen
USUAL_ALLOWANCE_DEG = 30


@dataclass(frozen=True, slots=True)
class BenchField:
    """What the card feels. Coordinates and `variation_deg` are None in a field of one's own."""

    name: str
    latitude_deg: float | None
    longitude_deg: float | None
    variation_deg: float | None
    dip_deg: float
    horizontal_nt: float
    total_nt: float
    allowance_deg: int = USUAL_ALLOWANCE_DEG

    @property
    def level(self) -> bool:
        """Whether the field is as good as level: no dip to speak of."""
        return abs(self.dip_deg) <= LEVEL_FIELD_DIP_DEG

    @property
    def beyond_rules(self) -> bool:
        """Whether the handbook's turning rules fail: dip over 72 degrees, or too weak a level field."""
        return abs(self.dip_deg) > ROLLOUT_LIMIT_DIP_DEG or self.horizontal_nt < WEAK_HORIZONTAL_NT

    @property
    def zone(self) -> str:
        """The magnetic model's own zone: normal, caution or blackout."""
        return zone(self.horizontal_nt)


@dataclass(frozen=True, slots=True)
class YearOfField:
    """Variation and dip on 1 January, to 0.1 degree, and the change to the next in minutes of arc, east positive."""

    year: int
    variation_deg: float
    dip_deg: float
    change_min: int | None


def years_of(field: BenchField) -> Sequence[YearOfField]:
    """Return how variation and dip change over the model's life; nothing for a field of one's own."""
    if field.latitude_deg is None or field.longitude_deg is None:
        return ()
    years = range(int(MODEL_FROM), int(MODEL_TO) + 1)
    found = [field_for_place(field.latitude_deg, field.longitude_deg, date(year, 1, 1)) for year in years]
    variations = [each.declination_deg for each in found]
    changes = [int(round_half_up(60 * difference(b, a))) for a, b in pairwise(variations)]
    return [
        YearOfField(year, round_half_up(at.declination_deg, 1), round_half_up(at.dip_deg, 1), change)
        for year, at, change in zip(years, found, [*changes, None], strict=True)
    ]


def field_of(home: HomeWish, dip_deg: float | None, language: Language) -> BenchField:
    """Return the field at a home, or one of 50 000 nT with the given dip (-89..89); Invalid otherwise."""
    if dip_deg is not None:
        if not -89 <= dip_deg <= 89:
            said = say("bench-dip", language, value=say_number(dip_deg, language), low=-89, high=89)
            raise Invalid(said, "dip_deg")
        return BenchField("", None, None, None, dip_deg, OWN_TOTAL_NT * cos_deg(dip_deg), OWN_TOTAL_NT)
    at = conventions_for(home, language)
    found = (at.latitude_deg, at.longitude_deg, at.variation_deg, at.dip_deg, at.horizontal_nt, at.total_nt)
    return BenchField(at.place, *found, allowance_deg=at.allowance_deg)
