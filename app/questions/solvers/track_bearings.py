"""Bearings from the nose and from north, the way home, and how long the fuel lasts."""

from collections.abc import Mapping
from typing import Any

from app.physics.angles import difference, shown, whole
from app.physics.fuel import endurance_min
from app.physics.track import bearing_from_relative, relative_from_bearing
from app.physics.wind import heading_home_deg
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution
from app.questions.solvers.fuel_units import counted, fuel_unit_in
from app.questions.solvers.registry import solver

LEAST_MINUTES_APART = 4


@solver("bearing-convert")
def bearing_convert(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: bearing = heading + relative bearing, relative = bearing - heading, reciprocal = bearing + 180; whole."""
    ask, heading, relative = (parameters[name] for name in ("ask", "magnetic_deg", "relative_bearing_deg"))
    bearing = shown(bearing_from_relative(heading, relative))
    given: dict[str, Any] = {"magnetic_deg": heading, "relative_bearing_deg": relative}
    if ask == "to-station":
        key, values = bearing, {
            "minus": heading - relative, "relative-as-bearing": relative, "other-way": bearing + 180,
            "from-tail": heading + relative + 90, "left-of-nose": heading + 360 - relative + 180,
        }  # fmt: skip
    elif ask == "from-station":
        key, values = shown(bearing + 180), {
            "other-way": bearing, "minus": heading - relative + 180, "relative-as-bearing": relative + 180,
            "ninety": bearing + 90, "two-hundred": bearing + 200,
        }  # fmt: skip
    else:
        given = {"magnetic_deg": heading, "bearing_deg": bearing}
        key, values = shown(relative_from_bearing(heading, bearing)), {
            "sum": heading + bearing, "turned-round": heading - bearing, "bearing-as-relative": bearing,
            "other-way": bearing - heading + 180, "ninety": bearing - heading + 90,
        }  # fmt: skip
    wrong = {name: shown(value) for name, value in values.items()}
    if abs(difference(relative, 180)) <= 5 or any(abs(difference(value, key)) <= 2 for value in wrong.values()):
        raise Redraw("a slip gives nearly the right bearing")
    return Solution(
        key=key,
        given={"ask": ask, **given},
        wrong=wrong,
        quantities={"magnetic_deg": heading, "relative_bearing_deg": relative, "bearing_deg": bearing, "key_deg": key},
        steps=("add", "reciprocal") if ask == "from-station" else ("add",) if ask == "to-station" else ("subtract",),
        features={"crosses-north": float(heading + relative > 360)},
    )


@solver("return-to-departure")
def return_to_departure(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: reciprocal of the track less the outbound correction; whole degrees true."""
    track, wca = parameters["track_true_deg"], parameters["wca_deg"]
    out, key = shown(track + wca), shown(heading_home_deg(track, wca))
    return Solution(
        key=key,
        given={"track_true_deg": track, "heading_deg": out},
        wrong={
            "heading-turned": shown(track + wca + 180),
            "track-turned": shown(track + 180),
            "doubled-wrong-way": shown(track + 180 + 3 * wca),
            "not-turned": shown(track - wca),
            "doubled": shown(track + 180 - 2 * wca),
        },
        quantities={"wca_size_deg": abs(wca), "wca_side": "right" if wca > 0 else "left",
                    "home_side": "left" if wca > 0 else "right", "back_deg": shown(track + 180), "home_deg": key},
        steps=("out-right" if wca > 0 else "out-left", "turn-track", "home-left" if wca > 0 else "home-right"),
        features={"crosses-north": float(abs(track - out) > 180)},
    )  # fmt: skip


@solver("fuel-endurance-and-reserve")
def fuel_endurance(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: minutes the usable fuel lasts with the stated reserve still in the tanks; rounded down."""
    unit, reserve = fuel_unit_in(conventions.region), parameters["reserve_min"]
    usable, burn = (counted(parameters[name], unit) for name in ("usable_l", "burn_l_h"))
    lasts = endurance_min(usable, burn, reserve)
    key = int(lasts)
    whole_tank = int(endurance_min(usable, burn))
    hours = usable / burn
    wrong = {
        "reserve-forgotten": whole_tank,
        "hundredths": whole(100 * hours) - reserve,
        "hundredths-no-reserve": whole(100 * hours),
        "reserve-added": whole_tank + reserve,
        "reserve-twice": whole_tank - 2 * reserve,
        "reserve-as-fuel": int(endurance_min(usable - reserve, burn)),
        "sixty-an-hour": whole(hours) * 60 - reserve,
    }
    wrong = {name: value for name, value in wrong.items() if value > 0 and abs(value - key) > LEAST_MINUTES_APART}
    if not 60 <= key <= 330:
        raise Redraw("no flight, or a very long one")
    return Solution(
        key=key,
        given={"usable_fuel": usable, "burn_per_h": burn, "fuel_unit": unit, "reserve_min": reserve},
        wrong=wrong,
        quantities={"tank_min": endurance_min(usable, burn), "whole_min": whole_tank, "key_min": key},
        steps=("whole", "less-reserve"),
        model_notes=("reserve",),
        features={},
    )
