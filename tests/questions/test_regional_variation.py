"""The variation of scenes set in a region, against the field of towns at that region's edges."""

from datetime import date
from typing import Any

import pytest

from app.physics.field import field_for_place
from app.questions.conventions import Region
from app.questions.draw import draw
from app.questions.model import NotOffered
from app.questions.solvers.regional_variation import LARGEST_VARIATION_DEG, SPAN_DEG, lies_in
from app.questions.wording import word_item
from tests.questions.engine import home, library

# Towns at the edges of each region, west- and eastward by their variation; coordinates from memory, to 0.1 degree.
TOWNS = {
    "ca-south": {"Nain": (56.5, -61.7), "Halifax": (44.6, -63.6), "Whitehorse": (60.7, -135.1)},
    "ca-north": {"Alert": (82.5, -62.3), "Iqaluit": (63.8, -68.5), "Inuvik": (68.4, -133.7)},
    "us": {"Eastport": (44.9, -67.0), "Ketchikan": (55.3, -131.6), "San Diego": (32.7, -117.2)},
    "uk": {"Barra": (57.0, -7.4), "Enniskillen": (54.3, -7.6), "Dover": (51.1, 1.3), "Norwich": (52.6, 1.3)},
    "easa": {"Ísafjörður": (66.1, -23.1), "Azores": (37.7, -25.7), "Kirkenes": (69.7, 30.0), "Cyprus": (35.0, 33.6)},
    "nz": {"Kaitaia": (-35.1, 173.3), "Gisborne": (-38.7, 178.0), "Invercargill": (-46.4, 168.4)},
    "au": {"Perth": (-32.0, 115.9), "Carnarvon": (-24.9, 113.7), "Hobart": (-42.9, 147.3), "Sydney": (-33.9, 151.2)},
}  # fmt: skip
# Who may go by a region's rules without lying there; coordinates from memory.
ELSEWHERE = {
    "easa": {"Johannesburg": (-26.1, 28.2), "Bridgetown": (13.1, -59.5), "Algiers": (36.7, 3.2)},
    "us": {"Nassau": (25.0, -77.5), "Kingston": (17.9, -76.8), "Monterrey": (25.8, -100.1)},
    "nz": {"Suva": (-18.0, 178.5)}, "au": {"Port Moresby": (-9.4, 147.2)}, "ca-south": {"Honolulu": (21.3, -157.9)},
}  # fmt: skip
YEARS = (date(2025, 1, 1), date(2029, 12, 31))
HOMES = {
    "ca-south": (45.3, -75.7), "us": (40.0, -105.0), "uk": (52.0, -1.0), "easa": (48.0, 11.0), "nz": (-43.5, 172.6),
    "au": (-25.0, 134.0),
}  # fmt: skip
PLACED = ("wind-datum", "runway-designator", "hi-set-value", "cruising-altitude-datum")


@pytest.mark.parametrize("region", SPAN_DEG)
def test_spans_are_those_of_the_field(region: Region) -> None:
    found = [field_for_place(*each, when).declination_deg for each in TOWNS[region].values() for when in YEARS]
    assert SPAN_DEG[region] == pytest.approx((min(found), max(found)), abs=1.0)


@pytest.mark.parametrize("region", SPAN_DEG)
def test_a_town_lies_in_its_region(region: Any) -> None:
    assert all(lies_in(region, *town) for town in TOWNS[region].values())
    assert not any(lies_in(region, *town) for town in ELSEWHERE.get(region, {}).values())


@pytest.mark.parametrize("region", ELSEWHERE)
def test_nobody_is_said_to_lie_where_the_rules_come_from(region: str) -> None:
    for town in ELSEWHERE[region].values():
        for family in PLACED:
            for seed in range(12):
                try:
                    item = draw(library(), family, seed, home(*town, region))
                except NotOffered:
                    continue
                words = word_item(library(), item, "en").stem
                assert not (item.conventions.place in words and "region" in item.parameters), words


@pytest.mark.parametrize("region", HOMES)
def test_no_scene_has_a_variation_that_its_region_has_not(region: str) -> None:
    conventions = home(*HOMES[region], region)
    for family in PLACED:
        for seed in range(60):
            try:
                given = draw(library(), family, seed, conventions).parameters
            except NotOffered:
                continue
            if "region" in given and "variation_deg" in given:
                west, east = SPAN_DEG[given["region"]]
                assert west <= given["variation_deg"] <= east, (family, seed)
                assert 0 < abs(given["variation_deg"]) <= LARGEST_VARIATION_DEG
