"""Pressure families of words and rules: their tables written anew, from the printed draw alone."""

import math
import re
from collections.abc import Callable, Mapping
from typing import Any

from app.figures import draw_figure
from app.figures.model import FigureCall

TIP = re.compile(r'd="M(\S+) ([^L]+)L[^"]*" fill="[^"]*" stroke="#000" stroke-width="(?:1\.75|2\.25|5)"')

AGREE = {
    "pressure-indicated": "standard-in-window",
    "density-pressure": "standard-temperature",
    "absolute-true": "over-the-sea",
    "true-indicated": "on-the-apron",
}


def kinds(draw: Mapping[str, Any]) -> Any:
    p = draw["parameters"]
    if p["ask"] == "sort":
        return {described: described.rsplit("-", 1)[0] for described in draw["options"]}
    if p["ask"] == "agree-sort":
        return {pair: AGREE[pair] for pair in draw["options"]}
    if p["ask"] == "name":
        return p["object"].rsplit("-", 1)[0]
    if p["ask"] == "definition":
        return f"def-{p['altitude_kind']}"
    pair = p["comparison"]
    if p["ask"] == "agree":
        return AGREE[pair]
    first, second = pair.split("-")
    if pair == "pressure-indicated":
        more = 29.92 - p["setting_inhg"]
    else:
        height = p["pressure_altitude_ft"] if pair == "density-pressure" else p["indicated_ft"]
        more = p["oat_c"] - (15 - height / 500)
    return "same" if abs(more) < 0.001 else first if more > 0 else second


# CAR 602.35 (setting region), 602.36 (standard pressure region), 602.37 (between them): Justice Laws text.
SETTINGS = {
    "sr-take-off": "aerodrome",
    "sr-take-off-none": "elevation",
    "sr-landing": "landing-aerodrome",
    "spr-take-off": "aerodrome",
    "spr-take-off-none": "elevation",
    "spr-climb": "standard-before-level",
    "spr-landing": "aerodrome-before-descent",
    "spr-hold": "aerodrome-below-hold",
    "entering": "standard-after-line",
    "climbing-in": "standard-after-line",
    "leaving": "station-before-line",
    "descending-out": "station-before-line",
}


# The same as numbers: whose setting, or the standard; and as groups.
WHOSE = {
    "sr-take-off": "setting_inhg",
    "spr-take-off": "setting_inhg",
    "sr-landing": "destination_inhg",
    "spr-descent": "destination_inhg",
    "spr-final": "destination_inhg",
    "line-ahead": "station_inhg",
    "crossing-out": "station_inhg",
}
AT_AERODROMES = {"at-sr-take-off", "at-sr-landing", "at-spr-take-off", "at-spr-final"}
AT_STATIONS = {"at-sr-cruise", "at-line-ahead"}


def setting(draw: Mapping[str, Any]) -> Any:
    p = draw["parameters"]
    if p["ask"] == "sort":
        return {
            each: "aerodrome" if each in AT_AERODROMES else "station" if each in AT_STATIONS else "standard"
            for each in draw["options"]
        }
    if p["ask"] == "window":
        if "distance_nm" in p:
            return p["side_inhg" if p["distance_nm"] > 150 else "station_inhg"]
        return p[WHOSE[p["flight"]]] if p["flight"] in WHOSE else 29.92
    if p["ask"] == "en-route":
        return "near-route" if p["distance_nm"] > 150 else "along-route"
    return SETTINGS[p["flight"]]


# FAA-H-8083-25C chapter 8 (from memory), as pressures: what is true of the statements to tick.
TRUE_OF_BLOCKAGES = {
    "drain-lets-out",
    "ram-shut-climb-more",
    "static-shut-above-less",
    "static-shut-altimeter-still",
    "cabin-altimeter-high",
    "cabin-rate-recovers",
}


def blockage(draw: Mapping[str, Any]) -> Any:
    """Work it from pressures, as differences from what they should be: one unit of pressure for the height moved.

    FAA-H-8083-25C chapter 8 (from memory): what a capsule compares is pitot with static, or static with a vacuum.
    """
    p = draw["parameters"]
    if p["ask"] == "altimeter":
        return p["level_ft"] if p["fault"] in {"static", "all"} else p["next_level_ft"]
    if p["ask"] == "statements":
        return [each for each in draw["options"] if each in TRUE_OF_BLOCKAGES]
    if p["ask"] == "rate":
        return 0 if p["fault"] in {"static", "all"} else p["later_rate_ft_min"]
    if p["ask"] == "speed":
        pitot_moves, leaks = p["fault"] == "static", p["fault"] == "ram"
        return 0 if leaks else p["cas_kt"] if pitot_moves else p["ias_kt"]
    if p["ask"] == "airspeed":
        return {case: _behaviour(*CASE.fullmatch(case).groups())["asi"] for case in draw["options"]}  # type: ignore[union-attr]
    return _behaviour(p["fault"], p["phase"])


CASE = re.compile("case-(ram-drain|ram|static|all|alternate)-?(level|above|below)?")


def _behaviour(fault: str, phase: str | None) -> dict[str, str]:
    if fault == "alternate":
        return {"asi": "reads-high", "altimeter": "reads-high", "vsi": "works"}
    outside = {None: 0, "level": 0, "above": -1, "below": 1}[phase]
    pitot_shut, static_shut = fault in {"ram", "ram-drain", "all"}, fault in {"static", "all"}
    static_found = 0 if static_shut else outside
    pitot_found = 0 if pitot_shut else outside
    excess = pitot_found - static_found
    if fault == "ram":
        asi = "stays-zero"
    elif excess:
        asi = "reads-high" if excess > 0 else "reads-low"
    else:
        asi = "stands-still" if pitot_shut else "works"
    return {
        "asi": asi,
        "altimeter": "stands-still" if static_shut else "works",
        "vsi": "stays-zero" if static_shut else "works",
    }


# FAA-H-8083-25C chapter 8 (from memory): colours of the airspeed indicator.
MARKS = {
    "white-arc": "flap-range",
    "green-arc": "normal-range",
    "yellow-arc": "smooth-air-range",
    "red-line": "never-exceed",
}


def airspeed(draw: Mapping[str, Any]) -> Any:
    p = draw["parameters"]
    if p["ask"] == "statements":
        return [each for each in draw["options"] if each in {f"{mark}-{said}" for mark, said in MARKS.items()}]
    if p["ask"] == "meaning":
        return MARKS[p["mark"]]
    if p["ask"] == "speed":
        return {
            "landing-stall": p["white_low_kt"],
            "clean-stall": p["green_low_kt"],
            "flaps-limit": p["white_high_kt"],
            "rough-air-top": p["green_high_kt"],
            "never-top": p["red_kt"],
        }[p["object"]]
    row = "up" if p["flaps"] == "flaps-up" else "down"
    low, high = p[f"{row}_low_cas_kt"], p[f"{row}_high_cas_kt"]
    exact = low + (high - low) * (p["ias_kt"] - p["low_ias_kt"]) / (p["high_ias_kt"] - p["low_ias_kt"])
    return math.floor(exact * 10 + 0.5) / 10


def altimeter(draw: Mapping[str, Any]) -> int:
    """Read the dial as a pilot does: from each hand's place in the drawing, the numeral it has passed."""
    drawn = draw_figure(FigureCall("altimeter", draw["parameters"])).markup
    tips = [(float(x) - 160, 160 - float(y)) for x, y in TIP.findall(drawn)]
    rim, short, long = (math.degrees(math.atan2(x, y)) % 360 / 36 for x, y in tips)
    hundreds = 20 * round(5 * long) % 1000
    thousands = round(short - hundreds / 1000) % 10
    return 10_000 * round(rim - (1000 * thousands + hundreds) / 10_000) + 1000 * thousands + hundreds


RECOMPUTE: dict[str, Callable[[Mapping[str, Any]], Any]] = {
    "altitude-kinds": kinds,
    "altimeter-setting-region": setting,
    "pitot-static-blockage": blockage,
    "asi-marks-and-errors": airspeed,
    "read-altimeter": altimeter,
}
