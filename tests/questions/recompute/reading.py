"""Keys of the families about reading the compass and its card, worked again from what a printed draw shows.

Sources of the facts: FAA-H-8083-15B ch. 5 (on a drum, 33 stands to the right of N; labels every 30 degrees).
"""

from collections.abc import Mapping
from itertools import pairwise
from math import floor
from typing import Any

Draw = Mapping[str, Any]

# The labels in the order in which a pilot meets them from left to right on a vertical card; a drum shows the mirror.
LEFT_TO_RIGHT = [360, 30, 60, 90, 120, 150, 180, 210, 240, 270, 300, 330]


def compass_face(draw: Draw) -> int:
    return int(draw["parameters"]["reading_deg"])


def neighbour(draw: Draw) -> str:
    given = draw["parameters"]
    if given["ask"] == "turn":
        clockwise = (given["target_deg"] - given["reading_deg"]) % 360
        return "right" if clockwise < 180 else "left"
    row = LEFT_TO_RIGHT if given["face"] == "vertical-card" else LEFT_TO_RIGHT[::-1]
    offsets = {label: (label - given["reading_deg"] + 180) % 360 - 180 for label in row}
    seen_right = 1 if given["face"] == "vertical-card" else -1
    wanted = seen_right if given["side"] == "right" else -seen_right
    on_that_side = [label for label in row if offsets[label] * wanted > 0]
    return f"label-{min(on_that_side, key=lambda label: abs(offsets[label]))}"


def half_up(value: float) -> int:
    """Round a heading once, at the end; noise of the ninth decimal must not decide a half."""
    return floor(round(value, 9) + 0.5) % 360 or 360


def rows_of(given: Mapping[str, Any]) -> list[tuple[int, int]]:
    """Return (FOR, STEER) of the row in use, both counted on past 360 so that they only grow, once round and a bit."""
    steer = "steer_off_deg" if given["card_state"] == "radios-off" else "steer_deg"
    first = []
    for entry in given["card"]:
        wanted = entry["for_deg"] % 360
        first.append((wanted, wanted + (entry[steer] - wanted + 180) % 360 - 180))
    return [(wanted + turn, steered + turn) for turn in (-360, 0, 360) for wanted, steered in first]


def between(points: list[tuple[int, int]], value: float) -> float:
    """Return what belongs to a value by a straight line between the two points round it."""
    for (x, y), (next_x, next_y) in pairwise(points):
        if x <= value <= next_x:
            return y + (next_y - y) * (value - x) / (next_x - x)
    raise AssertionError(f"{value} lies outside the card")


def for_steer(draw: Draw) -> int:
    """Steer along the straight line from entry to entry, which interpolates the deviation too."""
    given = draw["parameters"]
    return half_up(between(rows_of(given), given["magnetic_deg"]))


def steer_back(draw: Draw) -> int:
    given = draw["parameters"]
    return half_up(between([(steered, wanted) for wanted, steered in rows_of(given)], given["compass_deg"]))


def middle(draw: Draw) -> int:
    given = draw["parameters"]
    return half_up(given["low_deg"] + (given["high_deg"] - given["low_deg"]) % 360 / 2)


def two_states(draw: Draw) -> int:
    given = draw["parameters"]
    entry = next(each for each in given["card"] if each["for_deg"] == given["magnetic_deg"])
    change = entry["steer_off_deg"] - entry["steer_deg"]
    if given["card_state"] == "radios-on":
        change = -change
    return int((change + 180) % 360 - 180)


RECOMPUTE = {
    "read-compass-face": compass_face,
    "card-neighbour": neighbour,
    "card-for-steer": for_steer,
    "card-steer-back": steer_back,
    "mean-of-swing": middle,
    "card-two-states": two_states,
}
