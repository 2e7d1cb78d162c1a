"""Keys of the datum families worked again from the printed numbers alone, east positive.

Sources: CASA Australia AC 43-17(0), deviation is added to the compass reading to get magnetic; true is magnetic plus
variation (Transport Canada TP 12880, Pilot Navigation 8 and 9).
"""

from collections.abc import Callable
from typing import Any

Draw = dict[str, Any]


def on_circle(degrees: float) -> float:
    return (degrees - 1) % 360 + 1


def short_way(degrees: float) -> float:
    return (degrees + 180) % 360 - 180


def true_to_compass(draw: Draw) -> float:
    given = draw["parameters"]
    start = given["magnetic_deg"] if given["ask"] == "compass-from-magnetic" else given["true_deg"]
    return on_circle(start - given.get("variation_deg", 0) - given.get("deviation_deg", 0))


def compass_to_true(draw: Draw) -> float:
    given = draw["parameters"]
    start = given["magnetic_deg"] if given["ask"] == "true-from-magnetic" else given["compass_deg"]
    return on_circle(start + given.get("variation_deg", 0) + given.get("deviation_deg", 0))


def find_variation_deviation(draw: Draw) -> float:
    given = draw["parameters"]
    if given["ask"] == "variation":
        return short_way(given["true_deg"] - given["magnetic_deg"])
    if given["ask"] == "deviation":
        return short_way(given["magnetic_deg"] - given["compass_deg"])
    both = short_way(given["true_deg"] - given["compass_deg"])
    return both - given.get("deviation_deg", 0) - given.get("variation_deg", 0)


def isogonal_read(draw: Draw) -> float:
    """Take the weighted mean of the two lines, the nearer one weighing more."""
    given = draw["parameters"]
    near, far = given.get("gone_nm", 1), given.get("left_nm", 1)
    return round((given["isogonal_deg"] * far + given["next_isogonal_deg"] * near) / (near + far), 6)


def variation_update(draw: Draw) -> float:
    given = draw["parameters"]
    minutes = given["printed_variation_min"]
    for _ in range(given["printed_year"], given["year"]):
        minutes += given["annual_change_min"]
    if given["ask"] == "minutes":
        return minutes
    halves = int((abs(minutes) + 15) // 30)
    return halves / 2 if minutes > 0 else -halves / 2


def gps_track_vs_heading(draw: Draw) -> float:
    given = draw["parameters"]
    heading = given["compass_deg"] + given["deviation_deg"]
    north = given["variation_deg"] if given["gps_north"] == "true-north" else 0
    if given["ask"] == "heading":
        return on_circle(heading)
    if given["ask"] == "track":
        return on_circle(heading + given["drift_deg"] + north)
    return short_way(given["gps_track_deg"] - north - heading)


RECOMPUTE: dict[str, Callable[[Draw], Any]] = {
    "true-to-compass": true_to_compass,
    "compass-to-true": compass_to_true,
    "find-variation-deviation": find_variation_deviation,
    "isogonal-read": isogonal_read,
    "variation-update": variation_update,
    "gps-track-vs-heading": gps_track_vs_heading,
}
