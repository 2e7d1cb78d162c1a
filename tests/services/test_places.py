"""The demo airfields: enough of every kind of field, each in both languages."""

from datetime import date

import pytest

from app.questions.conventions import Conventions
from app.services.homes import HomeWish, conventions_for
from app.services.places import find_place, list_places, region_near
from tests.questions.engine import library


def at(place_id: str) -> Conventions:
    return conventions_for(HomeWish(date(2026, 9, 1), place_id=place_id), "en")


def test_names_and_ids_are_used_once_and_not_by_the_stories() -> None:
    places = list_places("en")
    assert len({place.id for place in places}) == len({place.name for place in places}) == len(places)
    assert not {place.name for place in places} & set(library().shared.airfields)


def test_both_languages_list_the_same_places() -> None:
    english, french = list_places("en"), list_places("fr")
    assert [(p.id, p.name, p.latitude_deg) for p in english] == [(p.id, p.name, p.latitude_deg) for p in french]
    assert all(e.near != f.near and e.area != f.area for e, f in zip(english, french, strict=True))


def test_every_region_has_a_place() -> None:
    regions = {place.region for place in list_places("en")}
    assert regions == {"ca-south", "ca-north", "us", "uk", "easa", "nz", "au"}


def test_every_kind_of_field_has_a_place() -> None:
    """By the model: level, reversed in the north, within and beyond the rules, weak, and large variation."""
    homes = [at(place.id) for place in list_places("en")]
    assert {home.hemisphere for home in homes} == {"north", "south", "none"}
    assert [home for home in homes if home.latitude_deg > 5 and home.dip_deg < -5]
    assert [home for home in homes if home.dip_deg > 72]
    assert [home for home in homes if home.horizontal_nt < 6000]
    assert [home for home in homes if abs(home.variation_deg) > 20]


def test_default_home_is_canadian_and_within_the_rules() -> None:
    default = list_places("en")[0]
    assert default.region == "ca-south"
    assert not at(default.id).beyond_rules


@pytest.mark.parametrize("place_id", ["", "Otterlea", "atlantis"])
def test_unknown_place_is_not_found(place_id: str) -> None:
    assert find_place(place_id) is None


@pytest.mark.parametrize(
    ("latitude_deg", "longitude_deg", "region"),
    [
        (52.2, 0.1, "uk"),
        (48.9, 2.4, "easa"),
        (-45.0, 170.5, "nz"),
        (-33.9, 151.2, "au"),
        (68.4, -133.7, "ca-north"),
        (46.8, -71.4, "ca-south"),  # Québec
        (45.4, -71.9, "ca-south"),  # Sherbrooke
        (48.4, -123.4, "ca-south"),  # Victoria
        (47.6, -122.3, "us"),  # Seattle
        (44.8, -68.8, "us"),  # Bangor
        (-31.9, 115.9, "au"),  # Perth
        (-46.4, 168.3, "nz"),  # Invercargill
        # Towns beside the ones that are listed, from memory like those.
        (42.3, -83.2, "us"),  # Dearborn, beside Detroit
        (43.1, -79.1, "ca-south"),  # Niagara Falls, Ontario
        (43.2, -77.6, "us"),  # Rochester
        (44.5, -73.2, "us"),  # Burlington, Vermont
        (43.3, -79.9, "ca-south"),  # Hamilton
        (46.0, -66.6, "ca-south"),  # Fredericton
        (46.9, -96.8, "us"),  # Fargo
        (50.4, -104.6, "ca-south"),  # Regina
        (51.1, -114.1, "ca-south"),  # Calgary
        (48.4, -114.3, "us"),  # Whitefish, beside Kalispell
        (49.9, -119.5, "ca-south"),  # Kelowna
        (48.1, -123.1, "us"),  # Sequim, beside Port Angeles
        (57.1, -135.3, "us"),  # Sitka
        (56.2, -120.8, "ca-south"),  # Fort St. John
        (52.3, -7.1, "easa"),  # Waterford
        (55.0, -7.3, "uk"),  # Londonderry
        (50.6, 3.1, "easa"),  # Lille
        (50.9, 0.6, "uk"),  # Hastings
        (20.9, -156.4, "us"),  # Kahului, Hawaii
        (18.0, -66.6, "us"),  # Ponce, Puerto Rico
    ],
)
def test_region_of_a_typed_place_is_guessed(latitude_deg: float, longitude_deg: float, region: str) -> None:
    assert region_near(latitude_deg, longitude_deg) == region
