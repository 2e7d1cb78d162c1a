"""Keys of the heading indicator, of bank and of a measured turn worked again from the printed numbers alone.

Sources: CASA AC 43-17(0) (deviation is added to the compass reading); TC AIM (true headings in the Northern Domestic
Airspace, secondary); gyroscope theory (15 degrees an hour times the sine of the latitude); one-in-sixty and the limit
in 15 minutes: common practice; FAA-H-8083-15B ch. 7 (15 % of TAS); mechanics of a level co-ordinated turn.
"""

from collections.abc import Callable
from math import atan, degrees, floor, pi, radians, sin
from typing import Any

Draw = dict[str, Any]


def half_up(value: float, decimals: int = 0) -> float:
    scale = 10**decimals
    return (1 if value >= 0 else -1) * floor(round(abs(value) * scale, 8) + 0.5) / scale


def set_value(draw: Draw) -> Any:
    given = draw["parameters"]
    compass = given.get("compass_deg", given.get("reading_deg"))
    heading = compass + given["deviation_deg"]
    if given["region"] == "ca-north":
        heading += given["variation_deg"]
    if given["ask"] == "value":
        return (heading - 1) % 360 + 1
    return "set-correct" if given["flight"] == "steady" else "not-yet"


def drift_rate(draw: Draw) -> Any:
    given = draw["parameters"]
    a_minute = given["indicator_error_deg"] / given["minutes"]
    if given["ask"] == "forecast":
        return half_up(a_minute * given["later_minutes"], 1)
    rate = half_up(a_minute * 15, 1)
    return [rate, "within" if a_minute * 15 <= given["limit_deg"] else "beyond"] if given["ask"] == "verdict" else rate


def earth_rate(draw: Draw) -> float:
    given = draw["parameters"]
    return half_up(-15 * sin(radians(given["latitude_deg"])) * given["minutes"] / 60, 1)


def wrong_effect(draw: Draw) -> float:
    """Miles to the right; an indicator that shows more than the heading takes one to the left."""
    given = draw["parameters"]
    return half_up(-given["indicator_error_deg"] * given["distance_nm"] / 60, 1)


def rate_one_bank(draw: Draw) -> float:
    given = draw["parameters"]
    tas = given["tas_kt"]
    if given["rate_rule"] == "fifteen-percent":
        return half_up(tas / 10 + tas / 20)
    if given["rate_rule"] == "tenth-plus-seven":
        return half_up(tas / 10 + 7)
    return half_up(degrees(atan(tas * 1852 / 3600 * 3 * pi / 180 / 9.80665)))


def calibration(draw: Draw) -> Any:
    given = draw["parameters"]
    if given["ask"] == "deflection":
        return "-".join("less" if given[f"turned_{side}_deg"] > 30 else "more" for side in ("left", "right"))
    return half_up(given["planned_turn_deg"] * 10 / given[f"turned_{given['turn']}_deg"])


RECOMPUTE: dict[str, Callable[[Draw], Any]] = {
    "hi-set-value": set_value,
    "hi-drift-rate": drift_rate,
    "hi-earth-rate": earth_rate,
    "hi-wrong-effect": wrong_effect,
    "rate-one-bank": rate_one_bank,
    "turn-coordinator-calibration": calibration,
}
