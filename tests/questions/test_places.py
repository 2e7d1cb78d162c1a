"""Every family anywhere: each continent, both magnetic hemispheres, level field, caution and blackout zones."""

import pytest

from app.packs.spec import LANGUAGES
from app.questions.draw import draw, offered_forms
from app.questions.model import NotOffered
from tests.questions.engine import home, library

SEEDS = range(1, 5)
# Round numbers on each continent, then level field and the zones of the World Magnetic Model (horizontal field under
# 6000 nT, and under 2000 nT). Regions as the rules of the air there; outside ours, EASA's.
PLACES = {
    "north-america": (40.0, -105.0, "us"),
    "south-america": (-34.7, -58.8, "easa"),
    "europe": (48.0, 11.0, "easa"),
    "britain": (52.0, -1.0, "uk"),
    "africa": (-33.9, 18.6, "easa"),
    "asia": (35.0, 104.0, "easa"),
    "australia": (-25.0, 134.0, "au"),
    "new-zealand": (-43.5, 172.6, "nz"),
    "antarctica": (-77.8, 166.7, "easa"),
    "level-field": (-11.9, -76.9, "easa"),
    "south-end-down-north-of-the-equator": (9.0, 7.3, "easa"),
    "caution-zone": (74.7, -94.9, "ca-north"),
    "blackout-zone": (86.0, 140.0, "ca-north"),
    "magnetic-south": (-64.0, 136.0, "easa"),
    "date-line": (-17.0, 180.0, "nz"),
}


@pytest.mark.parametrize("place", PLACES)
def test_no_draw_fails(place: str) -> None:
    conventions = home(*PLACES[place])
    silent = []
    for family in library().families.values():
        for form in offered_forms(family):
            for seed in SEEDS:
                try:
                    assert draw(library(), family.id, seed, conventions, form).options is not None
                except NotOffered as outcome:
                    silent += [outcome.reason for language in LANGUAGES if not library().word(outcome.reason, language)]
    assert silent == []


def test_zones_are_what_their_names_say() -> None:
    assert home(*PLACES["level-field"]).hemisphere == "none"
    assert home(*PLACES["south-end-down-north-of-the-equator"]).hemisphere == "south"
    assert 2000 < home(*PLACES["caution-zone"]).horizontal_nt < 6000
    assert home(*PLACES["blackout-zone"]).horizontal_nt < 2000
    assert home(*PLACES["magnetic-south"]).horizontal_nt < 2000
    assert home(*PLACES["magnetic-south"]).hemisphere == "south"


def test_no_invented_airfield_of_a_scene_is_named_like_home() -> None:
    conventions = home()
    assert conventions.place in library().shared.airfields
    drawn = [draw(library(), "read-compass-face", seed, conventions).scenery for seed in range(100)]
    assert all(conventions.place not in (each["field"], each["other_field"]) for each in drawn)
    assert all(each["field"] != each["other_field"] for each in drawn)


def test_no_scene_stands_at_one_field_and_gives_the_numbers_of_another() -> None:
    scenes = [scene.text.en for family in library().families.values() for scene in family.scenes]
    assert [scene for scene in scenes if "{{ field }}" in scene and "{{ where | word }}" in scene] == []


@pytest.mark.parametrize("family", ["runway-designator", "wind-datum"])
@pytest.mark.parametrize("place", ["australia", "new-zealand"])
def test_variation_is_east_where_every_chart_has_it_east(family: str, place: str) -> None:
    drawn = [draw(library(), family, seed, home(*PLACES[place])).parameters for seed in range(40)]
    assert all(each.get("variation_deg", each.get("variation_a_deg")) > 0 for each in drawn)
