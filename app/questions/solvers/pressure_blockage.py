"""What airspeed indicator, altimeter and vertical speed indicator do with a blocked pitot or static side."""

from collections.abc import Callable, Mapping
from typing import Any

from app.figures.model import FigureCall
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution, Step
from app.questions.solvers.pressure_blocked_numbers import rate, speed, statements
from app.questions.solvers.registry import solver
from app.questions.solvers.subsets import few_of

INSTRUMENTS = ("asi", "altimeter", "vsi")
GROUPS = ("works", "reads-high", "reads-low", "stands-still", "stays-zero")
# Behaviour of the airspeed indicator by fault and by where the aircraft is from the level at which it was blocked.
TRAPPED_RAM = {"level": "stands-still", "above": "reads-high", "below": "reads-low"}
TRAPPED_STATIC = {"level": "works", "above": "reads-low", "below": "reads-high"}
CLIMBS = {"above": 1, "below": -1}
# What is wrongly put where: (fault, instrument) -> group -> misconception.
AS_IF_RAM = dict.fromkeys(GROUPS, "altimeter-uses-ram")
STATIC_SHUT = {
    "altimeter": {
        "works": "static-forgotten", "reads-high": "static-forgotten", "reads-low": "static-forgotten",
        "stays-zero": "altimeter-falls",
    },
    "vsi": {
        "works": "static-forgotten", "stands-still": "rate-frozen", "reads-high": "static-forgotten",
        "reads-low": "static-forgotten",
    },
}  # fmt: skip
SLIPS: dict[str, dict[str, dict[str, str]]] = {
    "ram": {
        "asi": {"stands-still": "drain-ignored", "reads-high": "drain-ignored", "reads-low": "drain-ignored",
                "works": "ram-not-needed"},
        "altimeter": AS_IF_RAM,
        "vsi": AS_IF_RAM,
    },
    "ram-drain": {
        "asi": {"stays-zero": "drain-taken-open", "reads-high": "trapped-ram-turned", "reads-low": "trapped-ram-turned",
                "stands-still": "trapped-ram-still", "works": "ram-not-needed"},
        "altimeter": AS_IF_RAM,
        "vsi": AS_IF_RAM,
    },
    "static": {
        "asi": {"reads-high": "trapped-static-turned", "reads-low": "trapped-static-turned",
                "stands-still": "asi-frozen-by-static", "stays-zero": "asi-frozen-by-static",
                "works": "asi-without-static"},
        **STATIC_SHUT,
    },
    "all": {
        "asi": {"stays-zero": "drain-taken-open", "reads-high": "one-side-only", "reads-low": "one-side-only",
                "works": "ram-not-needed"},
        **STATIC_SHUT,
    },
    "alternate": {
        "asi": {"reads-low": "cabin-turned", "works": "cabin-as-outside", "stands-still": "alternate-as-blocked",
                "stays-zero": "alternate-as-blocked"},
        "altimeter": {"reads-low": "cabin-turned", "works": "cabin-as-outside", "stands-still": "alternate-as-blocked",
                      "stays-zero": "alternate-as-blocked"},
        "vsi": {"reads-high": "climb-stays", "reads-low": "climb-stays", "stays-zero": "alternate-as-blocked",
                "stands-still": "alternate-as-blocked"},
    },
}  # fmt: skip


# Cases to sort: what is blocked, and where the aircraft is from the level at which it blocked.
CASES = {
    "case-ram": ("ram", "level"),
    "case-ram-drain-level": ("ram-drain", "level"),
    "case-ram-drain-above": ("ram-drain", "above"),
    "case-ram-drain-below": ("ram-drain", "below"),
    "case-static-level": ("static", "level"),
    "case-static-above": ("static", "above"),
    "case-static-below": ("static", "below"),
    "case-all-above": ("all", "above"),
    "case-alternate": ("alternate", "cruise"),
}
CASES_SORTED = 6


@solver("pitot-static-blockage")
def pitot_static_blockage(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: for each instrument, whether it works, reads high or low, stands still or stays at zero; or a number."""
    if parameters["ask"] == "statements":
        return statements(parameters["shuffle"])
    if parameters["ask"] == "airspeed":
        return _airspeed(parameters["shuffle"])
    if parameters["ask"] != "behaviour":
        return NUMBERS[parameters["ask"]](parameters)
    fault, phase = parameters["fault"], parameters["phase"]
    if (fault == "alternate") != (phase == "cruise"):
        raise Redraw("the alternate source is opened in level flight, and blocked lines need a level they blocked at")
    key = _behaviour(fault, phase)
    slips = {
        (instrument, group): name
        for instrument, groups in SLIPS[fault].items()
        for group, name in groups.items()
        if group != key[instrument]
    }
    return Solution(
        key=key,
        given={"ask": "behaviour", "fault": fault, "phase": phase},
        figures=(FigureCall("plumbing", {"fault": fault}),),
        options=INSTRUMENTS,
        slips=slips,
        steps=tuple(Step(_line(instrument, fault, phase), {"found": key[instrument]}) for instrument in INSTRUMENTS),
        model_notes=("alternate-table",) if fault == "alternate" else ("needle",),
        scene="alternate" if fault == "alternate" else "blocked",
        features={"static": 1.0 if fault in {"static", "all"} else 0.0},
    )


def _airspeed(shuffle: int) -> Solution:
    """Sort cases by what the airspeed indicator does in each of them."""
    cases = few_of(tuple(CASES), CASES_SORTED, shuffle)
    key = {case: _behaviour(*CASES[case])["asi"] for case in cases}
    return Solution(
        key=key,
        given={"ask": "airspeed"},
        options=cases,
        slips={
            (case, group): name
            for case in cases
            for group, name in SLIPS[CASES[case][0]]["asi"].items()
            if group != key[case]
        },
        steps=tuple(Step(_line("asi", *CASES[case]), {"found": key[case]}) for case in cases),
        model_notes=("alternate-table",) if "case-alternate" in cases else ("needle",),
        scene="airspeed",
        features={"static": 0.0},
    )


def _altimeter(parameters: Mapping[str, Any]) -> Solution:
    """Return what the altimeter shows at another level: the old number with static shut, the new one with it free."""
    fault, phase, level = parameters["fault"], parameters["phase"], parameters["level_ft"]
    if fault == "alternate" or phase not in CLIMBS:
        raise Redraw("the aircraft must change its level after a blockage")
    there = level + CLIMBS[phase] * parameters["gap_ft"]
    shut = fault in {"static", "all"}
    mirrored = {"altimeter-mirrored": 2 * level - there}
    return Solution(
        key=level if shut else there,
        given={"ask": "altimeter", "fault": fault, "level_ft": level, "next_level_ft": there},
        figures=(FigureCall("plumbing", {"fault": fault}),),
        wrong=mirrored | ({"static-forgotten": there, "altimeter-falls": 0} if shut else {"altimeter-uses-ram": level}),
        steps=("number-shut" if shut else "number-open",),
        model_notes=("needle",),
        scene="altimeter",
        features={"static": float(shut)},
    )


NUMBERS: Mapping[str, Callable[[Mapping[str, Any]], Solution]] = {
    "altimeter": _altimeter, "speed": speed, "rate": rate,
}  # fmt: skip


def _behaviour(fault: str, phase: str) -> dict[str, str]:
    if fault == "alternate":
        return {"asi": "reads-high", "altimeter": "reads-high", "vsi": "works"}
    shut = fault in {"static", "all"}
    others = {"altimeter": "stands-still", "vsi": "stays-zero"} if shut else {"altimeter": "works", "vsi": "works"}
    asi = {
        "ram": "stays-zero",
        "ram-drain": TRAPPED_RAM.get(phase, ""),
        "static": TRAPPED_STATIC.get(phase, ""),
        "all": "stands-still",
    }[fault]
    return {"asi": asi, **others}


def _line(instrument: str, fault: str, phase: str) -> str:
    if instrument != "asi":
        side = "cabin" if fault == "alternate" else "shut" if fault in {"static", "all"} else "open"
        return f"{instrument}-{side}"
    return f"asi-{fault}-{phase}" if fault in {"ram-drain", "static"} else f"asi-{fault}"
