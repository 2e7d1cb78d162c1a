"""The field of a bench flight: a place's own, by the magnetic model, or one with a dip of one's own."""

from typing import NamedTuple

from app.packs.spec import Language
from app.physics.angles import cos_deg
from app.physics.field import zone
from app.questions.conventions import LEVEL_FIELD_DIP_DEG, ROLLOUT_LIMIT_DIP_DEG, WEAK_HORIZONTAL_NT
from app.services.errors import Invalid
from app.services.homes import HomeWish, conventions_for
from app.services.messages import say, say_number

OWN_TOTAL_NT = 50_000.0  # of a field with a dip of one's own; chosen
USUAL_ALLOWANCE_DEG = 30


class BenchField(NamedTuple):
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
