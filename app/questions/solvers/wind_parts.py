"""Drift in words, drift in the head, and the wind across a runway."""

from collections.abc import Mapping
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import difference, round_half_up, shown, whole
from app.physics.wind import drift_by_clock_deg, max_drift_deg, runway_wind
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution
from app.questions.solvers.registry import solver

OTHER = {"left": "right", "right": "left"}
LEAST_ACROSS_KT = 4


@solver("drift-sense")
def drift_sense(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: drift is track less heading, right positive, and one turns the other way; none on nose and tail."""
    ask, heading = parameters["ask"], parameters["heading_deg"]
    if ask == "wind":
        return _drift_of_wind(heading, parameters["relative_bearing_deg"], parameters["wind_kt"])
    drift = parameters["drift_deg"]
    track = shown(heading + drift)
    side = "right" if drift > 0 else "left"
    turn = OTHER[side]
    return Solution(
        key=f"drift-{side}-turn-{turn}",
        given={"ask": ask, "heading_deg": heading, "track_true_deg": track},
        wrong={
            "side": f"drift-{OTHER[side]}-turn-{side}",
            "drift-for-correction": f"drift-{OTHER[side]}-turn-{turn}",
            "steers-with-it": f"drift-{side}-turn-{side}",
        },
        options=("drift-right-turn-left", "drift-right-turn-right", "drift-left-turn-right", "drift-left-turn-left"),
        quantities={"size_deg": abs(drift), "drift_side": side, "turn_side": turn},
        steps=("drift", "correct"),
        features={"crosses-north": float(abs(track - heading) > 180)},
    )


def _drift_of_wind(heading: int, relative: int, wind: int) -> Solution:
    side = "none" if relative in {0, 180} else "left" if relative < 180 else "right"
    other = {"left": "right", "right": "left", "none": "left"}[side]
    wrong = {"side": f"drift-{other}"} if side != "none" else {}
    third = {"left": "none", "right": "none", "none": "right"}[side]
    wrong["nose-tail" if side == "none" else "no-drift"] = f"drift-{third}"
    if side == "none":
        wrong["head-wind-drift"] = "drift-left"
    return Solution(
        key=f"drift-{side}",
        given={"ask": "wind", "heading_deg": heading, "wind_from_deg": shown(heading + relative), "wind_kt": wind},
        wrong=wrong,
        options=("drift-left", "drift-none", "drift-right"),
        quantities={"wind_side": {"left": "right", "right": "left", "none": "none"}[side], "relative_deg": relative},
        steps=("from-nose-tail",) if side == "none" else ("blown",),
        features={"crosses-north": 0.0},
    )


@solver("max-drift-mental")
def max_drift(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: 60 w / TAS times the clock share of the angle (a full share from 60 degrees on), one decimal."""
    tas, wind, angle = (parameters[name] for name in ("tas_kt", "wind_kt", "bearing_deg"))
    most = max_drift_deg(tas, wind)
    key = round_half_up(drift_by_clock_deg(tas, wind, angle), 1)
    if most < 8 or wind > 0.4 * tas or key < 3:
        raise Redraw("too little drift to tell the slips apart")
    values = {
        "no-scale": most,
        "other-part": most * min(1.0, (90 - angle) / 60),
        "wind-as-degrees": wind * min(1.0, angle / 60),
        "ninety": most * angle / 90,
        "angle-as-drift": float(angle),
    }
    wrong = {name: round_half_up(value, 1) for name, value in values.items() if abs(value - key) > 1.1}
    if len(wrong) < 2:
        raise Redraw("too few slips show")
    return Solution(
        key=key,
        given={"tas_kt": tas, "wind_kt": wind, "bearing_deg": angle},
        wrong=wrong,
        quantities={"most_deg": round_half_up(most, 1), "key_deg": key},
        steps=("most", "full-share" if angle >= 60 else "share"),
        model_notes=("sine",),
        features={"small-angle": float(angle < 30)},
    )


@solver("crosswind-component")
def crosswind(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: w sin (wind - runway), right positive; runway direction is its number times ten; one datum for both."""
    ask, runway, wind_from, wind, gust, v = (
        parameters[name] for name in ("ask", "runway", "wind_from_deg", "wind_kt", "gust_kt", "variation_deg")
    )
    magnetic = wind_from - v if ask == "text" else wind_from
    angle = difference(magnetic, 10 * runway)
    blowing = wind + gust if ask == "gust" else wind
    found = runway_wind(10 * runway, magnetic, blowing)
    if not 15 <= abs(angle) <= 75 or 40 <= abs(angle) <= 50 or abs(found.crosswind_kt) < LEAST_ACROSS_KT:
        raise Redraw("the parts of the wind are too alike, or too small")
    key = whole(found.crosswind_kt)
    sign = 1 if key > 0 else -1
    wrong: dict[str, Any] = {"side": -key, "swap": sign * whole(found.headwind_kt), "whole-wind": sign * blowing}
    if ask == "text":
        wrong["datum"] = whole(runway_wind(10 * runway, wind_from, wind).crosswind_kt)
        wrong["v-sign"] = whole(runway_wind(10 * runway, wind_from + v, wind).crosswind_kt)
    if ask == "gust":
        wrong["mean-not-gust"] = whole(runway_wind(10 * runway, magnetic, wind).crosswind_kt)
        wrong["gust-alone"] = whole(runway_wind(10 * runway, magnetic, gust).crosswind_kt)
    if any(abs(value - key) < 1.5 for value in wrong.values()):
        raise Redraw("a slip hides in the tolerance")
    given = {"ask": ask, "runway": runway, "wind_from_deg": wind_from, "wind_kt": wind}
    seen = {"runway": runway, "wind_from_deg": shown(magnetic), "wind_kt": wind}
    figure = (FigureCall("runway-wind", seen | ({"gust_kt": wind + gust} if ask == "gust" else {})),)
    return Solution(
        key=key,
        given=given | ({"gust_kt": wind + gust} if ask == "gust" else {"variation_deg": v} if ask == "text" else {}),
        wrong=wrong,
        figures=() if ask == "text" else figure,  # bringing the wind to magnetic is what the text asks
        verdict_figures=figure,
        quantities={"runway_deg": 10 * runway, "magnetic_deg": shown(magnetic), "angle_deg": abs(whole(angle)),
                    "across_kt": abs(key), "blowing_kt": blowing, "wind_side": "right" if key > 0 else "left",
                    "v_deg": v},
        steps=(*((f"datum-{'east' if v > 0 else 'west'}",) if ask == "text" else ()), "angle", "across"),
        features={"gust": float(ask == "gust"), "datum": float(ask == "text")},
    )  # fmt: skip
