"""The variation of scenes set in a region, against the field of towns at that region's edges."""

from datetime import date

import pytest

from app.physics.field import field_for_place
from app.questions.conventions import Region
from app.questions.draw import draw
from app.questions.model import NotOffered
from app.questions.solvers.regional_variation import LARGEST_VARIATION_DEG, SPAN_DEG
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
