"""Keys of the turning families worked again from the printed numbers alone.

Sources: three degrees a second and half of that, US Navy P-1215 and FAA-H-8083-15B; the circle's 360 degrees.
"""

from collections.abc import Callable
from typing import Any

Draw = dict[str, Any]


def turn_shortest(draw: Draw) -> float:
    given = draw["parameters"]
    to_the_right = (given["target_deg"] - given["start_deg"]) % 360
    return to_the_right if to_the_right < 180 else to_the_right - 360


def timed_turn(draw: Draw) -> float:
    given = draw["parameters"]
    right = 1 if given["turn"] == "right" else -1
    if given["ask"] == "heading":
        seconds = given.get("seconds") or given["later_clock_s"] - given["clock_s"]
        return (given["start_deg"] + right * given["rate_deg_s"] * seconds - 1) % 360 + 1
    degrees = right * (given["target_deg"] - given["start_deg"]) % 360
    return int(degrees / given["rate_deg_s"] + 0.5)


RECOMPUTE: dict[str, Callable[[Draw], Any]] = {"turn-shortest": turn_shortest, "timed-turn": timed_turn}
