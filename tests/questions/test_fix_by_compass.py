"""A fix by compass bearings: each wrong ring lies where the slip behind it sees both landmarks, by plain azimuths."""

from math import atan2, degrees
from typing import Any

import pytest

from app.questions.draw import draw
from app.questions.model import Item
from tests.questions.engine import home, library

# What each slip makes of a compass bearing on its way to true: shares of deviation and of variation.
SLIPS = {
    "deviation-turned": (-1, 1),
    "no-deviation": (0, 1),
    "both-turned": (-1, -1),
    "variation-turned": (1, -1),
    "no-variation": (1, 0),
    "as-read": (0, 0),
}
ROUNDING_DEG = 2.1  # places are drawn to a tenth of a mile, 2.6 miles away at least


def off_deg(ring: dict[str, Any], mark: dict[str, Any], bearing_deg: float) -> float:
    to = degrees(atan2(mark["east_nm"] - ring["east_nm"], mark["north_nm"] - ring["north_nm"]))
    return abs((to - bearing_deg + 180) % 360 - 180)


def by_compass() -> list[Item]:
    items = (draw(library(), "position-line-fix", seed, home()) for seed in range(80))
    return [item for item in items if item.ask == "by-compass"]


@pytest.mark.parametrize("slip", SLIPS)
def test_a_ring_lies_where_its_slip_leads(slip: str) -> None:
    met = 0
    for item in by_compass():
        p = item.parameters
        spots = {f"ring-{spot['label']}" if spot["mark"] == "ring" else spot["label"]: spot for spot in p["spots"]}
        entry = next(each for each in p["card"] if each["steer_deg"] == p["compass_deg"])
        deviation = (entry["for_deg"] - entry["steer_deg"] + 180) % 360 - 180
        rings = [wrong.value for name, wrong in item.wrong_values() if name == slip]
        met += len(rings)
        for ring in rings:
            turned = SLIPS[slip][0] * deviation + SLIPS[slip][1] * p["variation_deg"]
            for name in "ab":
                bearing = p[f"compass_bearing_{name}_deg"] + turned
                assert off_deg(spots[ring], spots[name.upper()], bearing) < ROUNDING_DEG
    assert met


def test_the_deviation_is_that_of_the_heading() -> None:
    """Deviation hangs on where the aircraft heads, not on what is sighted: common practice, no source."""
    for item in by_compass():
        p = item.parameters
        entry = next(each for each in p["card"] if each["steer_deg"] == p["compass_deg"])
        key = next(spot for spot in p["spots"] if f"ring-{spot['label']}" == item.key)
        for name in "ab":
            mark = next(spot for spot in p["spots"] if spot["label"] == name.upper())
            to_true = entry["for_deg"] - entry["steer_deg"] + p["variation_deg"]
            assert off_deg(key, mark, p[f"compass_bearing_{name}_deg"] + to_true) < ROUNDING_DEG
