"""Altimeter settings of a flight in Canada as numbers, and moments sorted by what is set: CAR 602.35 to 602.37."""

from collections.abc import Mapping
from typing import Any

from app.questions.model import Redraw, Solution
from app.questions.solvers.subsets import few_of

STANDARD_INHG = 29.92
FEET_AN_INCH = 1000
FARTHEST_APART_NM = 150
LEAST_APART_HUNDREDTHS = 3
SORTED = 6
GROUND = ("sr-take-off", "spr-take-off")
# Moment under way -> whose setting is right, and what each misconception sets.
ON_THE_WAY: dict[str, tuple[str, dict[str, str]]] = {
    "sr-landing": ("destination", {
        "standard-in-setting-region": "standard", "once-for-all": "departure", "stays-en-route": "station",
    }),
    "spr-descent": ("destination", {
        "standard-everywhere-north": "standard", "aerodrome-too-late": "standard", "once-for-all": "departure",
        "station-in-standard-region": "station",
    }),
    "spr-final": ("destination", {
        "standard-everywhere-north": "standard", "once-for-all": "departure", "station-in-standard-region": "station",
    }),
    "spr-level": ("standard", {
        "once-for-all": "departure", "station-in-standard-region": "station", "destination-early": "destination",
    }),
    "spr-holding": ("standard", {
        "once-for-all": "departure", "station-in-standard-region": "station", "aerodrome-too-early": "destination",
    }),
    "spr-nearly-level": ("standard", {
        "standard-too-late": "departure", "once-for-all": "departure", "station-in-standard-region": "station",
        "destination-early": "destination",
    }),
    "line-ahead": ("station", {
        "wrong-side": "standard", "standard-in-setting-region": "standard", "once-for-all": "departure",
        "destination-early": "destination",
    }),
    "line-behind": ("standard", {
        "station-in-standard-region": "station", "once-for-all": "departure",
        "destination-early": "destination",
    }),
    "crossing-out": ("station", {
        "wrong-side": "standard", "standard-in-setting-region": "standard", "once-for-all": "departure",
        "destination-early": "destination",
    }),
}  # fmt: skip
PASSING = "passing-stations"
WINDOWS = (*GROUND, PASSING, *ON_THE_WAY)
# Moment -> what is set then, and what sorting it elsewhere shows, where it shows one thing alone.
MOMENT_GROUPS: dict[str, tuple[str, dict[str, str]]] = {
    "at-sr-take-off": ("aerodrome", {"standard": "standard-in-setting-region"}),
    "at-sr-cruise": ("station", {"standard": "standard-in-setting-region"}),
    "at-sr-landing": ("aerodrome", {"standard": "standard-in-setting-region", "station": "stays-en-route"}),
    "at-line-ahead": ("station", {"standard": "wrong-side"}),
    "at-spr-take-off": ("aerodrome", {"standard": "standard-everywhere-north"}),
    "at-nearly-level": ("standard", {"aerodrome": "standard-too-late", "station": "station-in-standard-region"}),
    "at-spr-cruise": ("standard", {"station": "station-in-standard-region"}),
    "at-hold": ("standard", {"aerodrome": "aerodrome-too-early", "station": "station-in-standard-region"}),
    "at-spr-final": ("aerodrome", {
        "standard": "standard-everywhere-north", "station": "station-in-standard-region",
    }),
}  # fmt: skip


def window(parameters: Mapping[str, Any]) -> Solution:
    """Ask for the number in the window at one moment of a flight, where several numbers are at hand."""
    moment = WINDOWS[parameters["shuffle"] % len(WINDOWS)]
    if moment in GROUND:
        return _on_the_ground(moment, parameters)
    settings = _settings(parameters)
    if moment == PASSING:
        return _passing(settings, parameters["distance_nm"])
    whose, beliefs = ON_THE_WAY[moment]
    given = {f"{name}_inhg": settings[name] for name in ("departure", "station", "destination")}
    return _solution(
        {"flight": moment, **given}, settings[whose], {name: settings[wrong] for name, wrong in beliefs.items()},
        (f"where-{moment}", f"so-{whose}"), "way",
    )  # fmt: skip


def _settings(parameters: Mapping[str, Any]) -> dict[str, float]:
    """Return the settings along a flight, falling or rising all the way, all of them clear of the standard."""
    first, step = parameters["setting_hundredths"], parameters["gap_hundredths"]
    if abs(step) < LEAST_APART_HUNDREDTHS:
        raise Redraw("so near together the settings would be mixed up")
    hundredths = {
        "departure": first,
        "station": first + step,
        "side": first + 2 * step,
        "destination": first + 3 * step,
    }
    if any(abs(each - 100 * STANDARD_INHG) < LEAST_APART_HUNDREDTHS for each in hundredths.values()):
        raise Redraw("a local setting would pass for the standard")
    return {"standard": STANDARD_INHG, **{name: each / 100 for name, each in hundredths.items()}}


def _on_the_ground(moment: str, parameters: Mapping[str, Any]) -> Solution:
    settings = _settings(parameters)
    aerodrome, found, elevation = settings["departure"], settings["destination"], parameters["elevation_ft"]
    standard = "standard-in-setting-region" if moment.startswith("sr-") else "standard-everywhere-north"
    wrong = {
        standard: STANDARD_INHG,
        "left-as-found": found,
        "zero-on-ground": round(aerodrome - elevation / FEET_AN_INCH, 2),
    }
    given = {"flight": moment, "setting_inhg": aerodrome, "found_inhg": found, "elevation_ft": elevation}
    return _solution(given, aerodrome, wrong, (f"where-{moment}", "so-aerodrome"), "ground")


def _passing(settings: Mapping[str, float], apart_nm: int) -> Solution:
    far = apart_nm > FARTHEST_APART_NM
    whose, other = ("side", "station") if far else ("station", "side")
    wrong = {
        "gap-misjudged": settings[other], "once-for-all": settings["departure"],
        "destination-early": settings["destination"], "standard-in-setting-region": STANDARD_INHG,
    }  # fmt: skip
    given = {f"{name}_inhg": value for name, value in settings.items() if name != "standard"}
    steps = ("where-en-route", "far-apart" if far else "near-enough")
    return _solution({"distance_nm": apart_nm, **given}, settings[whose], wrong, steps, "passing")


def _solution(
    given: Mapping[str, Any], key: float, wrong: Mapping[str, Any], steps: tuple[str, ...], told: str
) -> Solution:
    return Solution(
        key=key, given={"ask": "window", **given}, wrong=dict(wrong), steps=steps, scene=f"window-{told}",
        model_notes=("current-text",), features={"boundary": float("line" in str(given.get("flight")))},
    )  # fmt: skip


def sort_moments(shuffle: int) -> Solution:
    """Ask what is set at each of several moments: an aerodrome's setting, a station's, or the standard."""
    moments = few_of(tuple(MOMENT_GROUPS), SORTED, shuffle)
    return Solution(
        key={moment: MOMENT_GROUPS[moment][0] for moment in moments},
        given={"ask": "sort"},
        options=moments,
        slips={(moment, group): belief for moment in moments for group, belief in MOMENT_GROUPS[moment][1].items()},
        steps=("sorted-aerodrome", "sorted-station", "sorted-standard"),
        model_notes=("current-text",),
        features={"boundary": 0.0},
    )
