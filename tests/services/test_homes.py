from dataclasses import replace
from datetime import date
from math import inf, nan

import pytest

from app.packs.spec import Language
from app.services.errors import Invalid
from app.services.homes import RULES, HomeWish, conventions_for, default_home
from app.services.places import list_places

DAY = date(2026, 9, 1)
OTTAWA = HomeWish(DAY, latitude_deg=45.32, longitude_deg=-75.67)


def refusal(wish: HomeWish, language: Language = "en") -> Invalid:
    with pytest.raises(Invalid) as caught:
        conventions_for(wish, language)
    return caught.value


def test_demo_airfield_gives_its_name_region_and_field() -> None:
    found = conventions_for(HomeWish(DAY, place_id="lastcairn"), "en")
    assert (found.place, found.region, found.date) == ("Lastcairn", "ca-north", "2026-09-01")
    assert found.beyond_rules


def test_typed_place_goes_by_its_coordinates_and_the_nearest_region() -> None:
    found = conventions_for(OTTAWA, "en")
    assert (found.place, found.region) == ("45.32, -75.67", "ca-south")
    assert found.variation_deg == conventions_for(HomeWish(DAY, place_id="otterlea"), "en").variation_deg
    across_the_date_line = HomeWish(DAY, latitude_deg=-37.0, longitude_deg=-179.0)
    assert conventions_for(across_the_date_line, "en").region == "nz"


def test_place_is_the_same_in_every_language() -> None:
    for place in list_places("fr"):
        wish = HomeWish(DAY, place_id=place.id)
        assert conventions_for(wish, "en") == conventions_for(wish, "fr")


@pytest.mark.parametrize("name", RULES)
def test_every_value_of_every_rule_is_taken(name: str) -> None:
    for value in RULES[name]:
        assert getattr(conventions_for(replace(OTTAWA, rules={name: value}), "en"), name) == value


def test_rules_that_do_not_exist_are_named() -> None:
    unknown = refusal(replace(OTTAWA, rules={"dip_deg": 0}))
    assert (unknown.field, "“dip_deg”" in unknown.message, "rollout_rule" in unknown.message) == ("dip_deg", True, True)
    wrong = refusal(replace(OTTAWA, rules={"allowance_deg": 45}))
    assert (wrong.field, wrong.message) == ("allowance_deg", "allowance_deg cannot be “45”. Accepted: 20, 25, 30.")


@pytest.mark.parametrize("value", [90.01, -95.0, nan, inf, -inf, 1e300])
def test_latitude_off_the_earth_is_named(value: float) -> None:
    found = refusal(replace(OTTAWA, latitude_deg=value))
    assert found.field == "latitude_deg"
    assert found.message == (
        f"The latitude {value:g} is not on the earth. Accepted: -90 to 90 degrees, north positive, such as 45.32."
    )


@pytest.mark.parametrize("value", [180.5, -181.0, nan])
def test_longitude_off_the_earth_is_named(value: float) -> None:
    found = refusal(replace(OTTAWA, longitude_deg=value), "fr")
    assert found.field == "longitude_deg"
    assert f"La longitude {value:g}".replace(".", ",") in found.message
    assert "de -180 à 180 degrés" in found.message


@pytest.mark.parametrize("latitude_deg", [90.0, -90.0])
def test_poles_are_on_the_earth(latitude_deg: float) -> None:
    assert conventions_for(replace(OTTAWA, latitude_deg=latitude_deg), "en").latitude_deg == latitude_deg


@pytest.mark.parametrize("when", [date(2024, 12, 31), date(2030, 1, 2), date(1, 1, 1)])
def test_date_outside_the_model_is_named(when: date) -> None:
    found = refusal(replace(OTTAWA, when=when))
    assert found.field == "when"
    assert found.message == (
        f"The magnetic model does not hold on {when}. Accepted: 2025-01-01 to 2030-01-01, such as 2026-09-01."
    )


@pytest.mark.parametrize("when", [date(2025, 1, 1), date(2030, 1, 1)])
def test_first_and_last_day_of_the_model_hold(when: date) -> None:
    assert conventions_for(replace(OTTAWA, when=when), "en").date == when.isoformat()


def test_unknown_place_is_named_and_cut() -> None:
    found = refusal(HomeWish(DAY, place_id="atlantis" * 1000))
    assert found.field == "place_id"
    assert len(found.message) < 200
    assert "such as Otterlea" in found.message


@pytest.mark.parametrize(
    ("wish", "field"),
    [
        (HomeWish(DAY), "place_id"),
        (HomeWish(DAY, latitude_deg=45.0), "longitude_deg"),
        (HomeWish(DAY, longitude_deg=-75.0), "latitude_deg"),
    ],
)
def test_missing_coordinates_are_asked_for(wish: HomeWish, field: str) -> None:
    assert refusal(wish).field == field


@pytest.mark.parametrize(
    ("today", "day"),
    [("2026-03-04", "2026-03-04"), ("2020-01-01", "2025-01-01"), ("2038-01-19", "2030-01-01")],
)
def test_default_home_stays_within_the_life_of_the_model(today: str, day: str) -> None:
    assert conventions_for(default_home(date.fromisoformat(today)), "en").date == day
