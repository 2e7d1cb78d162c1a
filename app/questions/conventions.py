"""A school's house rules: the home place with its field, and which rules of thumb the questions are keyed on."""

from dataclasses import dataclass
from datetime import date
from typing import Any, Literal, get_args

from app.physics.field import field_for_place

RolloutRule = Literal["latitude", "allowance"]
RateRule = Literal["exact", "fifteen-percent", "tenth-plus-seven"]
PressureUnit = Literal["inhg", "hpa"]
Region = Literal["ca-south", "ca-north", "us", "uk", "easa", "nz", "au"]
Hemisphere = Literal["north", "south", "none"]

INHG_REGIONS: frozenset[Region] = frozenset({"ca-south", "ca-north", "us"})
ROLLOUT_LIMIT_DIP_DEG = 72.0
WEAK_HORIZONTAL_NT = 6000.0
LEVEL_FIELD_DIP_DEG = 5.0


@dataclass(frozen=True, slots=True)
class Conventions:
    """House rules that change which items are drawn; the same for every language.

    The field (variation and dip in degrees, east and down positive; horizontal and total strength in nT) is worked out
    once, when the place is chosen, and kept with the item, so that an item never depends on a later model.
    """

    place: str
    latitude_deg: float
    longitude_deg: float
    date: str
    variation_deg: float
    dip_deg: float
    horizontal_nt: float
    total_nt: float
    region: Region = "ca-south"
    rollout_rule: RolloutRule = "latitude"
    allowance_deg: int = 30
    rate_rule: RateRule = "fifteen-percent"
    card_limit_deg: int = 10
    check_limit_deg: int = 5
    hi_limit_deg: int = 3
    pressure_unit: PressureUnit = "inhg"
    feet_per_hpa: int = 30
    most_options: int | None = None  # of a choice, as an exam has it; what is picked on a figure stays whole

    @property
    def hemisphere(self) -> Hemisphere:
        """The sign of the dip, never the latitude, says how a compass errs; "none" within 5 degrees of level."""
        if abs(self.dip_deg) <= LEVEL_FIELD_DIP_DEG:
            return "none"
        return "north" if self.dip_deg > 0 else "south"

    @property
    def beyond_rules(self) -> bool:
        """Whether the handbook's turning rules fail here: dip over 72 degrees, or under 6000 nT of level field."""
        return abs(self.dip_deg) > ROLLOUT_LIMIT_DIP_DEG or self.horizontal_nt < WEAK_HORIZONTAL_NT

    def as_json(self) -> dict[str, Any]:
        """Return plain values for storing; `from_json` takes them back."""
        return {name: getattr(self, name) for name in self.__slots__}

    @classmethod
    def from_json(cls, stored: dict[str, Any]) -> "Conventions":
        """Take back what `as_json` gave."""
        return cls(**stored)


def pressure_unit_in(region: Region) -> PressureUnit:
    """Return the unit of altimeter settings: inches of mercury in Canada and the United States, else hectopascals.

    Source: ICAO Annex 5, and common practice in North America (both from memory).
    """
    return "inhg" if region in INHG_REGIONS else "hpa"


def conventions_at(place: str, latitude_deg: float, longitude_deg: float, when: date, **rules: Any) -> Conventions:
    """Return the conventions of a home place, its field by the World Magnetic Model, rounded to 0.1 degree and 1 nT.

    Raises OutOfRange for coordinates or a date outside the model, ValueError for a rule that does not exist.
    """
    field = field_for_place(latitude_deg, longitude_deg, when)
    accepted: dict[str, tuple[Any, ...]] = {
        "region": get_args(Region),
        "rollout_rule": get_args(RolloutRule),
        "rate_rule": get_args(RateRule),
        "pressure_unit": get_args(PressureUnit),
        "allowance_deg": (20, 25, 30),
        "feet_per_hpa": (27, 30),
    }
    for name, value in rules.items():
        if name in accepted and value not in accepted[name]:
            raise ValueError(f"{name} is {value!r}; accepted: {', '.join(map(str, accepted[name]))}")
    return Conventions(
        place=place,
        latitude_deg=latitude_deg,
        longitude_deg=longitude_deg,
        date=when.isoformat(),
        variation_deg=round(field.declination_deg, 1),
        dip_deg=round(field.dip_deg, 1),
        horizontal_nt=round(field.horizontal_nt),
        total_nt=round(field.total_nt),
        **rules,
    )
