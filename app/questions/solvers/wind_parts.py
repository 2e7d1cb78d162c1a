"""Drift in words, drift in the head, and the parts of the wind along and across a runway. Degrees, knots."""

from collections.abc import Mapping
from math import ceil
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import difference, round_half_up, shown, whole
from app.physics.headings import magnetic_from_true
from app.physics.wind import RunwayWind, clock_fraction, drift_by_clock_deg, max_drift_deg, runway_wind
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution, Step
from app.questions.solvers.datum_conversions import variation_fits
from app.questions.solvers.registry import solver
from app.questions.solvers.subsets import few_of

OTHER = {"left": "right", "right": "left"}
LEAST_PART_KT = 4
LEAST_HOME_VARIATION_DEG = 12
LARGEST_SHARE_OF_TAS = 0.4
HALF = 0.5
WINDS, DRIFTS = "abcde", ("left", "none", "right")
STRAIGHT_DEG = (0, 180)
ROUND_THE_NOSE_DEG = (*STRAIGHT_DEG, 20, 60, 120, 160, 200, 240, 300, 340)
LEAST_MAXIMUM_DEG, LEAST_DRIFT_DEG = 9, 3


@solver("drift-sense")
def drift_sense(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: drift is track less heading, right positive, and one turns the other way; none on nose and tail."""
    ask, heading = parameters["ask"], parameters["heading_deg"]
    if ask == "winds":
        return _drift_of_winds(10 * ceil(heading / 10), parameters["wind_kt"], parameters["shuffle"])
    drift = parameters["drift_deg"]
    track = shown(heading + drift)
    side = "right" if drift > 0 else "left"
    turn = OTHER[side]
    plain = track - heading
    crosses: tuple[Step | str, ...] = () if plain == drift else ("add-360" if plain < 0 else "take-off-360",)
    return Solution(
        key=f"drift-{side}-turn-{turn}",
        given={"ask": ask, "heading_deg": heading, "track_true_deg": track},
        wrong={
            "side": f"drift-{OTHER[side]}-turn-{side}",
            "drift-for-correction": f"drift-{OTHER[side]}-turn-{turn}",
            "steers-with-it": f"drift-{side}-turn-{side}",
        },
        options=("drift-right-turn-left", "drift-right-turn-right", "drift-left-turn-right", "drift-left-turn-left"),
        quantities={"size_deg": abs(drift), "plain_deg": plain, "signed_deg": drift, "drift_side": side,
                    "turn_side": turn},
        steps=("difference", *crosses, "correct"),
        features={"crosses-north": float(bool(crosses))},
    )  # fmt: skip


def _drift_of_winds(heading: int, wind_kt: int, shuffle: int) -> Solution:
    """Sort winds by the side to which they drift. A wind is given in tens of degrees, so the heading is one as well."""
    around = few_of(ROUND_THE_NOSE_DEG, len(WINDS), shuffle)
    sides = {wind: "none" if deg in STRAIGHT_DEG else "left" if deg < 180 else "right"
             for wind, deg in zip(WINDS, around, strict=True)}  # fmt: skip
    if len(set(sides.values())) < len(DRIFTS):
        raise Redraw("one side, or none, has no wind")
    winds = {f"wind_from_{wind}_deg": shown(heading + deg) for wind, deg in zip(WINDS, around, strict=True)}
    slips = {(f"wind-{wind}", f"drift-{other}"): _drift_belief(side, other)
             for wind, side in sides.items() for other in DRIFTS if other != side}  # fmt: skip
    return Solution(
        key={f"wind-{wind}": f"drift-{side}" for wind, side in sides.items()},
        given={"ask": "winds", "heading_deg": heading, "wind_kt": wind_kt, **winds},
        options=tuple(f"wind-{wind}" for wind in WINDS),
        slips=slips,
        quantities={"tail_deg": shown(heading + 180)},
        steps=("along-it", "from-left", "from-right"),
        features={"crosses-north": 0.0},
    )


def _drift_belief(side: str, answered: str) -> str:
    if side == "none":
        return "head-wind-drift"
    return "no-drift" if answered == "none" else "side"


@solver("max-drift-mental")
def max_drift(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: 60 w / TAS times the clock share of the angle (a full share from 60 degrees on), to the lee side."""
    tas, wind, angle, side = (parameters[name] for name in ("tas_kt", "wind_kt", "bearing_deg", "side"))
    most, drift = max_drift_deg(tas, wind), drift_by_clock_deg(tas, wind, angle)
    if most < LEAST_MAXIMUM_DEG or wind > LARGEST_SHARE_OF_TAS * tas or drift < LEAST_DRIFT_DEG:
        raise Redraw("too little drift to tell the slips apart, or too much wind")
    if round_half_up(round_half_up(most, 2) * clock_fraction(angle), 1) != round_half_up(drift, 1):
        raise Redraw("the working's hundredths would give another tenth")
    to_lee = 1 if side == "left" else -1
    sizes = {
        "side": -drift,
        "other-part": most * clock_fraction(90 - angle),
        "wind-as-degrees": wind * clock_fraction(angle),
        "ninety": most * angle / 90,
        "angle-as-drift": float(angle),
        **({"no-share": most} if angle < 60 else {}),
    }
    return Solution(
        key=round_half_up(to_lee * drift, 1),
        given={"tas_kt": tas, "wind_kt": wind, "bearing_deg": angle, "side": side},
        wrong={name: round_half_up(to_lee * size, 1) for name, size in sizes.items()},
        quantities={"most_deg": most, "size_deg": drift, "lee_side": OTHER[side]},
        steps=("most", "full-share" if angle >= 60 else "share", "to-lee"),
        model_notes=("sine",),
        features={"small-angle": float(angle < 30)},
    )


@solver("crosswind-component")
def crosswind(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: w sin a across, right positive, or w cos a along, headwind positive; wind and runway in one north."""
    ask, runway = parameters["ask"], parameters["runway"]
    written = ask in {"text", "along"}
    at_home = written and parameters["at_home"] and _variation_is_clear(conventions)
    v = whole(conventions.variation_deg) if at_home else parameters["variation_deg"]
    wind_from = _wind_from(parameters, v if written else 0)
    magnetic = shown(magnetic_from_true(wind_from, v)) if written else wind_from
    angle = abs(difference(magnetic, 10 * runway))
    off = min(angle, 180 - angle)
    wind = parameters["wind_kt"]
    blowing = wind + parameters["gust_kt"] if ask == "gust" else wind
    found = runway_wind(10 * runway, magnetic, blowing)
    if not 15 <= off <= 75 or 40 <= off <= 50 or min(abs(found.crosswind_kt), abs(found.headwind_kt)) < LEAST_PART_KT:
        raise Redraw("the parts of the wind are too alike, or too small")
    asked = _along if ask == "along" else _across
    exact = found.headwind_kt if ask == "along" else found.crosswind_kt
    if round_half_up(abs(exact), 1) % 1 == HALF:
        raise Redraw("the working's tenths would not say which way to round")
    further = {"variation_deg": v} if written else {"gust_kt": blowing} if ask == "gust" else {}
    figure = (FigureCall("runway-wind", {"runway": runway, "wind_from_deg": magnetic, "wind_kt": wind,
                                         **({"gust_kt": blowing} if ask == "gust" else {})}),)  # fmt: skip
    return Solution(
        key=whole(exact),
        given={"ask": ask, "runway": runway, "wind_from_deg": wind_from, "wind_kt": wind, **further},
        wrong=asked(found, blowing) | _other_winds(parameters, ask, wind_from, v),
        figures=() if written else figure,  # bringing the wind to magnetic is what the text asks
        verdict_figures=figure,
        quantities={**_told(runway, magnetic, found), "blowing_kt": blowing, "v_deg": v, "part_kt": abs(exact),
                    "turned_deg": shown(wind_from + v), "where": "where-home" if at_home else "where-field"},
        steps=(*((f"datum-{'east' if v > 0 else 'west'}",) if written else ()), "angle",
               *(("off-tail",) if angle > 90 else ()), "along" if ask == "along" else "across", "to-the-knot"),
        features={"gust": float(ask == "gust"), "datum": float(written)},
    )  # fmt: skip


def _variation_is_clear(conventions: Conventions) -> bool:
    return variation_fits(conventions) and abs(whole(conventions.variation_deg)) >= LEAST_HOME_VARIATION_DEG


def _wind_from(parameters: Mapping[str, Any], v: int) -> int:
    """Return the wind's direction in tens that meets the runway at about the drawn angle; ahead, but for `along`."""
    relative = parameters["relative_bearing_deg"]
    if parameters["ask"] != "along" and abs(relative) > 90:
        relative = 180 - relative
    return shown(10 * whole((10 * parameters["runway"] + relative + v) / 10))


def _across(found: RunwayWind, blowing: int) -> dict[str, Any]:
    key = whole(found.crosswind_kt)
    sign = 1 if key > 0 else -1
    return {"side": -key, "swap": sign * abs(whole(found.headwind_kt)), "whole-wind": sign * blowing}


def _along(found: RunwayWind, blowing: int) -> dict[str, Any]:
    key = whole(found.headwind_kt)
    sign = 1 if key > 0 else -1
    return {"turned": -key, "swap-along": sign * abs(whole(found.crosswind_kt)), "whole-along": sign * blowing}


def _other_winds(parameters: Mapping[str, Any], ask: str, wind_from: int, v: int) -> dict[str, Any]:
    """Return what comes of a wind in the wrong north, or of the wrong strength."""
    runway, wind = 10 * parameters["runway"], parameters["wind_kt"]
    if ask == "gust":
        return {name: whole(runway_wind(runway, wind_from, kt).crosswind_kt)
                for name, kt in (("mean-not-gust", wind), ("gust-alone", parameters["gust_kt"]))}  # fmt: skip
    if ask == "spoken":
        number = whole(runway_wind(parameters["runway"], wind_from, wind).crosswind_kt)
        return (
            {"number-as-degrees": number} if abs(number - runway_wind(runway, wind_from, wind).crosswind_kt) > 2 else {}
        )
    winds = {"datum": runway_wind(runway, wind_from, wind), "v-sign": runway_wind(runway, wind_from + v, wind)}
    return {name: whole(each.headwind_kt if ask == "along" else each.crosswind_kt) for name, each in winds.items()}


def _told(runway: int, magnetic: int, found: RunwayWind) -> dict[str, Any]:
    angle = difference(magnetic, 10 * runway)
    return {
        "magnetic_deg": magnetic,
        "runway_deg": 10 * runway,
        "angle_deg": whole(abs(angle)),
        "off_deg": whole(min(abs(angle), 180 - abs(angle))),
        "wind_side": "right" if angle > 0 else "left",
        "end": "headwind" if found.headwind_kt > 0 else "tailwind",
    }
