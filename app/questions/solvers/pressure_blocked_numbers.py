"""What a blocked pitot or static side leaves of speed and rate as numbers, and what is true of blockages in words."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from app.figures.model import FigureCall
from app.questions.model import Redraw, Solution
from app.questions.solvers.ticks import to_tick

SHUT_STATIC = frozenset({"static", "all"})
LEAST_CHANGE_KT = 12
LEAST_CHANGE_FT_MIN = 200
TRUE_OF_BLOCKAGES = (
    "drain-lets-out", "ram-shut-climb-more", "static-shut-above-less", "static-shut-altimeter-still",
    "cabin-altimeter-high", "cabin-rate-recovers",
)  # fmt: skip
FALSE_OF_BLOCKAGES = {
    "drain-keeps": "drain-ignored", "ram-shut-speed-follows": "ram-not-needed", "ram-shut-zero": "drain-taken-open",
    "ram-shut-climb-less": "trapped-ram-turned", "ram-shut-still": "trapped-ram-still",
    "static-shut-above-more": "trapped-static-turned", "static-shut-speed-still": "asi-frozen-by-static",
    "static-shut-speed-right": "asi-without-static", "all-shut-climb-more": "one-side-only",
    "static-shut-rate-works": "static-forgotten", "static-shut-altimeter-zero": "altimeter-falls",
    "static-shut-rate-stays": "rate-frozen", "ram-shut-altimeter-still": "altimeter-uses-ram",
    "cabin-altimeter-low": "cabin-turned", "cabin-no-error": "cabin-as-outside",
    "cabin-altimeter-still": "alternate-as-blocked", "cabin-rate-stays": "climb-stays",
}  # fmt: skip
TICKED, UNTICKED = 2, 5


def speed(parameters: Mapping[str, Any]) -> Solution:
    """Ask what the airspeed indicator shows when the speed has changed at the level where something blocked."""
    fault, before, now = parameters["fault"], parameters["ias_kt"], parameters["cas_kt"]
    if fault == "alternate" or abs(before - now) < LEAST_CHANGE_KT:
        raise Redraw("the speed must change after a blockage")
    key, wrong = {
        "ram": (0, {"drain-ignored": before, "ram-not-needed": now}),
        "ram-drain": (before, {"drain-taken-open": 0, "ram-not-needed": now}),
        "static": (now, {"asi-frozen-by-static": before}),
        "all": (before, {"drain-taken-open": 0, "ram-not-needed": now}),
    }[fault]
    return _number("speed", fault, {"ias_kt": before, "cas_kt": now}, key, wrong)


def rate(parameters: Mapping[str, Any]) -> Solution:
    """Ask what the vertical speed indicator shows when the rate has changed since something blocked."""
    fault, before, now = parameters["fault"], parameters["rate_ft_min"], parameters["later_rate_ft_min"]
    if fault == "alternate" or abs(before - now) < LEAST_CHANGE_FT_MIN:
        raise Redraw("the rate must change after a blockage")
    shut = fault in SHUT_STATIC
    key, wrong = (0, {"rate-frozen": before, "static-forgotten": now}) if shut else (now, {"altimeter-uses-ram": 0})
    return _number("rate", fault, {"rate_ft_min": before, "later_rate_ft_min": now}, key, wrong)


def _number(ask: str, fault: str, given: Mapping[str, Any], key: int, wrong: Mapping[str, int]) -> Solution:
    return Solution(
        key=key,
        given={"ask": ask, "fault": fault, **given},
        figures=(FigureCall("plumbing", {"fault": fault}),),
        wrong=dict(wrong),
        steps=(f"{ask}-{fault}",) if ask == "speed" else ("rate-shut" if fault in SHUT_STATIC else "rate-open",),
        model_notes=("needle",),
        scene=ask,
        features={"static": float(fault in SHUT_STATIC)},
    )


def statements(shuffle: int) -> Solution:
    """Ask which of several statements about blockages and the alternate source are true."""
    true = dict.fromkeys(TRUE_OF_BLOCKAGES, "")
    counts = (TICKED, UNTICKED)
    solution = to_tick("statements", (true, FALSE_OF_BLOCKAGES), counts, shuffle, features={"static": 0.0})
    cabin = any(each.startswith("cabin") for each in solution.key)
    return replace(solution, scene="statements", model_notes=("alternate-table" if cabin else "needle",))
