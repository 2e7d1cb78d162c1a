"""Keys of the track families worked again from the printed numbers alone: one degree is a mile in sixty, plain sums."""

import math
from collections.abc import Callable
from typing import Any

Draw = dict[str, Any]


def circle(deg: float) -> int:
    return (math.floor(deg + 0.5) - 1) % 360 + 1


def track_error(draw: Draw) -> int:
    p = draw["parameters"]
    towards = p["off_nm"] / p["gone_nm"] * 60 + p["off_nm"] / p["left_nm"] * 60
    turn = round(towards) if p["side"] == "left" else -round(towards)
    return turn if p["ask"] == "change" else circle(p["heading_deg"] + turn)


def time_speed_distance(draw: Draw) -> int:
    """Statute mile 1609.344 m, nautical mile 1852 m, both exact by definition."""
    p = draw["parameters"]
    if p["ask"] == "distance":
        return math.floor(p["gs_kt"] * p["minutes"] / 60 + 0.5)
    miles = p["distance_nm"] * (1609.344 / 1852 if p["distance_unit"] == "sm" else 1)
    return math.floor(60 * miles / (p["gs_kt"] if p["ask"] == "time" else p["minutes"]) + 0.5)


def bearing(draw: Draw) -> int:
    p = draw["parameters"]
    if p["ask"] == "relative":
        return circle(p["bearing_deg"] - p["magnetic_deg"])
    return circle(p["magnetic_deg"] + p["relative_bearing_deg"] + (180 if p["ask"] == "from-station" else 0))


def way_home(draw: Draw) -> int:
    p = draw["parameters"]
    correction = (p["heading_deg"] - p["track_true_deg"] + 180) % 360 - 180
    return circle(p["track_true_deg"] + 180 - correction)


def fuel(draw: Draw) -> int:
    p = draw["parameters"]
    return math.floor(round(p["usable_fuel"] * 60 / p["burn_per_h"], 9)) - p["reserve_min"]


def eta(draw: Draw) -> int:
    p = draw["parameters"]
    arrival = math.floor(p["time_utc"] + p["minutes"] + p["left_nm"] * p["minutes"] / p["gone_nm"] + 0.5)
    return (arrival + round(60 * p.get("offset_h", 0))) % 1440


def double_error(draw: Draw) -> dict[str, int]:
    p = draw["parameters"]
    back = -p["track_error_deg"] if p["side"] == "right" else p["track_error_deg"]
    heading = p["magnetic_deg"]
    return {"regain": circle(heading + 2 * back), "minutes": p["minutes"], "hold": circle(heading + back)}


def ten_degree_lines(draw: Draw) -> int:
    """Ten degrees to a line; seen from the other end the same miles off count in the ratio of the distances."""
    p = draw["parameters"]
    behind, ahead = round(10 * p["fraction"]), math.floor(10 * p["fraction"] * p["gone_nm"] / p["left_nm"] + 0.5)
    if p["ask"] == "change":
        return behind + ahead if p["side"] == "left" else -(behind + ahead)
    size = behind if p["ask"] == "error" else ahead
    return size if p["side"] == "right" else -size


def position_line_fix(draw: Draw) -> str | int:
    """The ring from which both landmarks bear as read: azimuths by atan2, the least error; or the bearing of A."""
    p = draw["parameters"]
    to_true = p["variation_deg"]
    if p["ask"].endswith("by-compass"):  # the card's own entry for what the compass shows: FOR less STEER
        entry = next(each for each in p["card"] if each["steer_deg"] == p["compass_deg"])
        to_true += entry["for_deg"] - entry["steer_deg"]
        read = {name: p.get(f"compass_bearing_{name}_deg", 0) + to_true for name in "ab"}
    else:
        read = {name: p.get(f"relative_bearing_{name}_deg", 0) + p["magnetic_deg"] + to_true for name in "ab"}
    if p["ask"].startswith("bearing"):
        return int(read["a"] - 1) % 360 + 1
    marks = {spot["label"]: spot for spot in p["spots"]}

    def error(ring: Draw) -> float:
        worst = 0.0
        for name in "ab":
            mark = marks[name.upper()]
            to = math.degrees(math.atan2(mark["east_nm"] - ring["east_nm"], mark["north_nm"] - ring["north_nm"]))
            worst = max(worst, abs((to - read[name] + 180) % 360 - 180))
        return worst

    rings = [spot for spot in p["spots"] if spot["mark"] == "ring"]
    return f"ring-{min(rings, key=error)['label']}"


def diversion(draw: Draw) -> dict[str, int]:
    """Places as complex numbers, north real; maximum drift and clock rule as the question prints them."""
    p = draw["parameters"]
    at = {spot["label"]: complex(spot["north_nm"], spot["east_nm"]) for spot in p["spots"]}
    leg = at["X"] - at["P"]
    track = circle(math.degrees(math.atan2(leg.imag, leg.real)))
    distance = math.floor(abs(leg) + 0.5)
    wind = (p["wind_from_deg"] - track + 180) % 360 - 180
    off = abs(wind) if abs(wind) <= 90 else 180 - abs(wind)
    drift = math.floor(min(off, 60) * p["wind_kt"] / p["tas_kt"] + 0.5)
    correction = drift if wind > 0 else -drift
    minutes = math.floor(60 * distance / p["gs_kt"] + 0.5)
    return {
        "track": track,
        "distance": distance,
        "correction": correction,
        "heading": circle(track + correction - p["variation_deg"]),
        "minutes": minutes,
        "fuel": math.floor(p["burn_per_h"] * minutes / 60 + 0.5),
    }


def measured(draw: Draw) -> int:
    """Middle of the three angles by size; the NM edge of the chart's scale; minutes along the meridian."""
    p = draw["parameters"]
    if p["ask"] in {"track", "back"}:
        middle = sorted(p[f"angle_{name}_deg"] for name in "abc")[1]
        return circle(middle + (180 if p["ask"] == "back" else 0))
    return int(p["latitude_min"] if p["ask"] == "dividers" else p[f"nm_{p['chart_scale'] // 1000}"])


DEEDS = {
    "landmark-ahead": "fly-to-it",
    "fix-in-haze": "work-it",
    "landmark-abeam-nose": "fly-to-it",
    "fix-behind-hills": "work-it",
    "late-on-the-line": "wait",
    "card-disagrees": "check-instruments",
    "on-the-line": "wait",
    "off-at-once": "check-instruments",
}


def set_heading(draw: Draw) -> Any:
    """Common practice, no source: what each situation needs stands in a table of its own."""
    p = draw["parameters"]
    if p["ask"] == "log":
        return sorted(p[f"{name}_min"] for name in ("takeoff", "first_pass", "overhead", "checkpoint"))[2]
    if p["ask"] == "deed":
        return DEEDS[p["situation"]]
    if p["ask"] == "deeds":
        return {situation: DEEDS[situation] for situation in draw["options"]}
    return circle(p["heading_deg"] + (p["track_error_deg"] if p["side"] == "left" else -p["track_error_deg"]))


RECOMPUTE: dict[str, Callable[[Draw], Any]] = {
    "track-error": track_error,
    "time-speed-distance": time_speed_distance,
    "bearing-convert": bearing,
    "return-to-departure": way_home,
    "fuel-endurance-and-reserve": fuel,
    "eta-revision": eta,
    "double-track-error": double_error,
    "ten-degree-lines": ten_degree_lines,
    "position-line-fix": position_line_fix,
    "set-heading-and-alter": set_heading,
    "diversion-estimate": diversion,
    "measure-track-on-chart": measured,
}
