"""Rate and bank of a turn, and what a turn instrument's mark is worth. Degrees, seconds, knots true."""

from collections.abc import Callable, Mapping
from math import radians
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import atan_deg, round_half_up, whole
from app.physics.turning import (
    HALF_RATE_DEG_S,
    RATE_ONE_DEG_S,
    TurnSide,
    bank_fifteen_percent_deg,
    bank_for_rate_deg,
    bank_tenth_plus_seven_deg,
    calibrated_rate_deg_s,
    turn_seconds,
)
from app.physics.units import KNOT_MS, STANDARD_GRAVITY_MS2
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution, Wrong
from app.questions.solvers.registry import solver

RULES: Mapping[str, Callable[[float], float]] = {
    "exact": bank_for_rate_deg,
    "fifteen-percent": bank_fifteen_percent_deg,
    "tenth-plus-seven": bank_tenth_plus_seven_deg,
}
PLUS_SEVEN_KT = range(120, 161)  # where a tenth of TAS plus 7 lies within a degree of the exact bank
STEEPEST_DEG = 45
AT_RATE_ONE = FigureCall(
    "turn-instrument", {"instrument": "turn-coordinator", "turn": "right", "mark": "on-the-mark", "ball": "ball-centre"}
)
TIMED_S = 10
IDEAL_DEG = 30  # rate one for ten seconds
CLEAR_OF_IDEAL_DEG = 3


@solver("rate-one-bank")
def rate_one_bank(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: bank for 3 degrees a second by the school's rule, or by the exact formula, to the nearest degree."""
    tas = parameters["tas_kt"]
    rule = conventions.rate_rule if parameters["at_home"] else "exact"
    if rule == "tenth-plus-seven" and tas not in PLUS_SEVEN_KT:
        raise Redraw("outside the speeds the rule is made for")
    bank, exact = RULES[rule](tas), bank_for_rate_deg(tas)
    tangent, from_tangent = _bank_as_written(tas)
    if rule == "exact" and whole(from_tangent) != whole(bank):
        raise Redraw("the tangent shown would give another degree")
    ias = whole(tas * parameters["fraction"])
    own = {"knots-as-metres": bank_for_rate_deg(tas / KNOT_MS)} if rule == "exact" else {
        "adds-both": bank_fifteen_percent_deg(tas) + 7
    }  # fmt: skip
    wrong: dict[str, float] = {
        "indicated-speed": RULES[rule](ias),
        "same-any-speed": 15,
        "always-thirty": 30,
        "tenth-only": tas / 10,
        "half-tenth-only": tas / 20,
        "fifth": tas / 5,
        "half-rate": bank_for_rate_deg(tas, HALF_RATE_DEG_S) if rule == "exact" else bank / 2,
        "twice-rate": bank_for_rate_deg(tas, 2 * RATE_ONE_DEG_S),
        **own,
    }
    rounded = () if bank == whole(bank) else ("to-the-degree",)
    return Solution(
        key=whole(bank),
        given={"rate_rule": rule, "tas_kt": tas, "ias_kt": ias},
        wrong={name: Wrong(whole(value), option=value <= STEEPEST_DEG) for name, value in wrong.items()},
        quantities={"tenth_deg": tas / 10, "half_tenth_deg": tas / 20, "exact_deg": exact,
                    "rule_deg": from_tangent if rule == "exact" else bank, "bank_deg": whole(bank),
                    "speed_ms": tas * KNOT_MS, "tangent": tangent, "g": STANDARD_GRAVITY_MS2, "how": f"how-{rule}"},
        steps=(f"work-{rule}", *(("work-tangent", "work-bank") if rule == "exact" else ()), *rounded),
        model_notes=() if rule == "exact" else ("exact",),
        verdict_figures=(AT_RATE_ONE,),
        by_rule=rule != "exact",
        features={"exact": float(rule == "exact")},
    )  # fmt: skip


def _bank_as_written(tas: float) -> tuple[float, float]:
    """Return tangent and bank of rate one as the working writes them, each from the figures of the line before."""
    speed_ms, g = round_half_up(tas * KNOT_MS, 1), round_half_up(STANDARD_GRAVITY_MS2, 2)
    tangent = round_half_up(speed_ms * radians(RATE_ONE_DEG_S) / g, 3)
    return tangent, round_half_up(atan_deg(tangent), 1)


@solver("turn-coordinator-calibration")
def turn_coordinator_calibration(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: seconds of a turn at the rate measured on its side, or on which side to hold less deflection."""
    return _deflection(parameters) if parameters["ask"] == "deflection" else _seconds(parameters)


def _seconds(parameters: Mapping[str, Any]) -> Solution:
    turn: TurnSide = parameters["turn"]
    other: TurnSide = "left" if turn == "right" else "right"
    here, there = parameters[f"turned_{turn}_deg"], parameters[f"turned_{other}_deg"]
    planned = parameters["planned_turn_deg"]
    if abs(here - IDEAL_DEG) < CLEAR_OF_IDEAL_DEG:
        raise Redraw("so good an instrument needs no allowance")
    exact = turn_seconds(planned, calibrated_rate_deg_s(here))
    ideal = turn_seconds(planned, RATE_ONE_DEG_S)
    wrong = {
        "ideal": ideal,
        "inverse-scale": ideal * here / IDEAL_DEG,
        "other-side": turn_seconds(planned, calibrated_rate_deg_s(there)),
        "mean-of-both": turn_seconds(planned, calibrated_rate_deg_s((here + there) / 2)),
        "both-added": turn_seconds(planned, calibrated_rate_deg_s(here + there)),
        "measurement-added": exact + TIMED_S,
        "forgets-ten": planned / here,
    }
    return Solution(
        key=whole(exact),
        given={"ask": "seconds", **_measured(parameters), "turn": turn, "planned_turn_deg": planned},
        wrong={name: whole(value) for name, value in wrong.items()},
        quantities={"turned_deg": here, "rate": calibrated_rate_deg_s(here), "exact_s": exact, "time_s": whole(exact)},
        steps=("measured-rate", "divide", *(("to-the-second",) if exact % 1 else ())),
        model_notes=("handbook",),
        features={"fast": float(here > IDEAL_DEG)},
    )


def _measured(parameters: Mapping[str, Any]) -> dict[str, Any]:
    return {name: parameters[name] for name in ("turned_left_deg", "turned_right_deg")}


def _deflection(parameters: Mapping[str, Any]) -> Solution:
    left, right = parameters["turned_left_deg"], parameters["turned_right_deg"]
    if min(abs(left - IDEAL_DEG), abs(right - IDEAL_DEG)) < CLEAR_OF_IDEAL_DEG:
        raise Redraw("so good an instrument needs no other deflection")
    fixes = _fix(left), _fix(right)
    turned = _other(fixes[0]), _other(fixes[1])
    if fixes[0] == fixes[1]:
        wrong = {"left-mirrored": (fixes[0], turned[1]), "right-mirrored": (turned[0], fixes[1])}
    else:
        wrong = {"left-for-both": (fixes[0], fixes[0]), "right-for-both": (fixes[1], fixes[1])}
    return Solution(
        key="-".join(fixes),
        given={"ask": "deflection", **_measured(parameters)},
        wrong={"fix-wrong-way": "-".join(turned), **{name: "-".join(value) for name, value in wrong.items()}},
        options=("less-less", "less-more", "more-less", "more-more"),
        steps=(f"left-{fixes[0]}", f"right-{fixes[1]}"),
        features={"fast": float(left > IDEAL_DEG)},
    )


def _fix(turned_deg: int) -> str:
    """Say which deflection brings ten seconds back to thirty degrees."""
    return "less" if turned_deg > IDEAL_DEG else "more"


def _other(fix: str) -> str:
    return "more" if fix == "less" else "less"
