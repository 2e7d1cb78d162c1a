"""Wind keys worked again from the printed numbers, with vectors on an east and north grid."""

import math
from collections.abc import Callable, Mapping
from itertools import pairwise
from typing import Any


def half_up(x: float, places: int = 0) -> float:
    scale = 10**places
    return math.copysign(math.floor(abs(round(x * scale, 7)) + 0.5) / scale, x)


def vector(direction_deg: float, size: float) -> complex:
    """East as real, north as imaginary part."""
    angle = math.radians(direction_deg)
    return size * complex(math.sin(angle), math.cos(angle))


def direction(v: complex) -> float:
    return math.degrees(math.atan2(v.real, v.imag)) % 360


def heading_and_speed(p: Mapping[str, Any]) -> tuple[float, float]:
    """Search the heading whose ground vector lies along the track."""
    track, wind = p["track_true_deg"], vector(p["wind_from_deg"] + 180, p["wind_kt"])
    low, high = track - 60.0, track + 60.0

    def off(heading: float) -> float:
        ground = vector(heading, p["tas_kt"]) + wind
        return (direction(ground) - track + 180) % 360 - 180

    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if off(middle) < 0 else (low, middle)
    return low % 360, abs(vector(low, p["tas_kt"]) + wind)


def shown(deg: float) -> float:
    return half_up(deg % 360) % 360 or 360


def triangle(draw: Mapping[str, Any]) -> Any:
    heading, gs = heading_and_speed(draw["parameters"])
    answers = {
        "pair": [shown(heading), half_up(gs)],
        "boxes": {"heading": shown(heading), "gs": half_up(gs)},
        "heading": shown(heading),
        "gs": half_up(gs),
    }
    return answers[draw["parameters"]["ask"]]


def by_card(card: list[dict[str, int]], magnetic: float) -> float:
    """Return the deviation on a straight line between the entries on either side, FOR less STEER."""
    entries = sorted(
        (entry["for_deg"] % 360, (entry["for_deg"] - entry["steer_deg"] + 180) % 360 - 180) for entry in card
    )
    entries = [(entries[-1][0] - 360, entries[-1][1]), *entries, (entries[0][0] + 360, entries[0][1])]
    for (before, d_before), (after, d_after) in pairwise(entries):
        if before <= magnetic % 360 <= after:
            return d_before + (d_after - d_before) * (magnetic % 360 - before) / (after - before)
    raise AssertionError(magnetic)


def leg(draw: Mapping[str, Any]) -> Any:
    """Work the log row with whole numbers in every box."""
    p = draw["parameters"]
    heading, gs = (half_up(value) for value in heading_and_speed(p))
    magnetic = heading - p["variation_deg"]
    return {
        "heading": shown(heading),
        "magnetic": shown(magnetic),
        "compass": shown(magnetic - by_card(p["card"], magnetic)),
        "gs": gs,
        "minutes": half_up(60 * p["distance_nm"] / gs),
    }


def find_wind(draw: Mapping[str, Any]) -> Any:
    p = draw["parameters"]
    wind = vector(p["track_true_deg"], p["gs_kt"]) - vector(p["heading_deg"], p["tas_kt"])
    found = [shown(direction(-wind)), half_up(abs(wind))]
    return found if p["ask"] == "pair" else {"direction": found[0], "speed": found[1]}


def pushed_to(heading_deg: float, wind_from_deg: float, wind_kt: float) -> str:
    pushed = vector(heading_deg, 100) + vector(wind_from_deg + 180, wind_kt)
    drift = (direction(pushed) - heading_deg + 180) % 360 - 180
    return "drift-none" if abs(drift) < 0.01 else "drift-right" if drift > 0 else "drift-left"


def drift_sense(draw: Mapping[str, Any]) -> str | dict[str, str]:
    p = draw["parameters"]
    if p["ask"] == "winds":
        return {w: pushed_to(p["heading_deg"], p[f"wind_from_{w[-1]}_deg"], p["wind_kt"]) for w in draw["options"]}
    drift = (p["track_true_deg"] - p["heading_deg"] + 180) % 360 - 180
    return "drift-right-turn-left" if drift > 0 else "drift-left-turn-right"


def max_drift(draw: Mapping[str, Any]) -> float:
    p = draw["parameters"]
    size = 60 * p["wind_kt"] / p["tas_kt"] * min(p["bearing_deg"], 60) / 60
    return half_up(size if p["side"] == "left" else -size, 1)


def crosswind(draw: Mapping[str, Any]) -> float:
    p = draw["parameters"]
    speed = p.get("gust_kt", p["wind_kt"])
    blowing_from = vector(p["wind_from_deg"] - p.get("variation_deg", 0), speed)
    wanted = vector(10 * p["runway"] + (0 if p["ask"] == "along" else 90), 1)
    return half_up(blowing_from.real * wanted.real + blowing_from.imag * wanted.imag)


RECOMPUTE: dict[str, Callable[[Mapping[str, Any]], Any]] = {
    "wind-triangle": triangle,
    "leg-compass-heading": leg,
    "find-wind": find_wind,
    "drift-sense": drift_sense,
    "max-drift-mental": max_drift,
    "crosswind-component": crosswind,
}
