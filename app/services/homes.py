"""A wish for a home place and house rules, and the conventions it gives."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any, get_args

from app.packs.spec import Language
from app.physics.errors import OutOfRange, require
from app.physics.field import MODEL_FROM, MODEL_TO
from app.questions.conventions import (
    Conventions,
    PressureUnit,
    RateRule,
    Region,
    RolloutRule,
    conventions_at,
    pressure_unit_in,
)
from app.services.errors import Invalid
from app.services.messages import say, say_number
from app.services.places import find_place, list_places, region_near

FIRST_DAY = date(int(MODEL_FROM), 1, 1)
LAST_DAY = date(int(MODEL_TO), 1, 1)

# The house rules a visitor may choose, with the values each accepts.
RULES: Mapping[str, tuple[str | int, ...]] = {
    "region": get_args(Region),
    "rollout_rule": get_args(RolloutRule),
    "allowance_deg": (20, 25, 30),
    "rate_rule": get_args(RateRule),
    "pressure_unit": get_args(PressureUnit),
    "feet_per_hpa": (27, 30),
    "hi_limit_deg": (3, 4, 5),
    "check_limit_deg": (5, 10),
    "card_limit_deg": (8, 10),
}


@dataclass(frozen=True, slots=True)
class HomeWish:
    """Either a demo airfield by `place_id`, or coordinates in degrees, north and east positive.

    `rules` holds house rules by their name in RULES. What is not in it keeps its default: the airspace rules are
    those of the place, the pressure unit that of the airspace rules.
    """

    when: date
    place_id: str | None = None
    latitude_deg: float | None = None
    longitude_deg: float | None = None
    rules: Mapping[str, str | int] = field(default_factory=dict)


def default_home(today: date) -> HomeWish:
    """Return the first demo airfield, today, or on the nearest day on which the magnetic model holds."""
    return HomeWish(min(max(today, FIRST_DAY), LAST_DAY), place_id=list_places("en")[0].id)


def conventions_for(wish: HomeWish, language: Language) -> Conventions:
    """Return the conventions of a home; Invalid names the value and what is accepted."""
    rules = _checked_rules(wish.rules, language)
    try:
        name, latitude_deg, longitude_deg, region = _where(wish, language)
        region = rules.pop("region", region)
        unit = rules.pop("pressure_unit", pressure_unit_in(region))
        return conventions_at(name, latitude_deg, longitude_deg, wish.when, region=region, pressure_unit=unit, **rules)
    except OutOfRange as error:
        raise _out_of_range(error, wish, language) from error


def _where(wish: HomeWish, language: Language) -> tuple[str, float, float, Region]:
    if wish.place_id:
        place = find_place(wish.place_id)
        if place is None:
            example = list_places(language)[0].name
            raise Invalid(say("unknown-place", language, value=wish.place_id, example=example), "place_id")
        return place.name, place.latitude_deg, place.longitude_deg, place.region
    latitude_deg, longitude_deg = wish.latitude_deg, wish.longitude_deg
    if latitude_deg is None or longitude_deg is None:
        missing = "latitude_deg" if latitude_deg is None and longitude_deg is not None else "longitude_deg"
        nothing = latitude_deg is None and longitude_deg is None
        raise Invalid(say("no-home", language), "place_id" if nothing else missing)
    require("latitude_deg", latitude_deg, -90.0, 90.0)
    require("longitude_deg", longitude_deg, -180.0, 180.0)
    name = f"{latitude_deg:.2f}, {longitude_deg:.2f}"
    return name, latitude_deg, longitude_deg, region_near(latitude_deg, longitude_deg)


def _checked_rules(rules: Mapping[str, str | int], language: Language) -> dict[str, Any]:
    for name, value in rules.items():
        if name not in RULES:
            raise Invalid(say("unknown-rule", language, value=name, accepted=", ".join(RULES)), name)
        if value not in RULES[name]:
            accepted = ", ".join(map(str, RULES[name]))
            raise Invalid(say("rule", language, name=name, value=value, accepted=accepted), name)
    return dict(rules)


def _out_of_range(error: OutOfRange, wish: HomeWish, language: Language) -> Invalid:
    if error.name == "year":
        days = {"value": wish.when, "low": FIRST_DAY, "high": LAST_DAY, "example": date(2026, 9, 1)}
        return Invalid(say("date", language, **days), "when")
    quantity = error.name.removesuffix("_deg")
    return Invalid(say(quantity, language, value=say_number(error.value, language)), error.name)
