"""The marks of the airspeed indicator and its correction table: what an arc says, which end is which, CAS from IAS."""

from collections.abc import Mapping
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import round_half_up
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution
from app.questions.solvers.registry import solver
from app.questions.solvers.ticks import to_tick

ROW_STEP_KT = 20
# A needle's correction, and how far the other row's is from it: each slip must show beyond the tolerance.
SMALLEST_KT, ROWS_APART_KT = 2.2, 2.2
LEAST_SHRINK_KT = 3
# What each mark says, and what is wrongly read into it.
MEANINGS: dict[str, tuple[str, dict[str, str]]] = {
    "white-arc": (
        "flap-range",
        {"white-is-normal": "normal-range", "white-is-clean": "flaps-up-range", "white-is-stall": "stalled-range"},
    ),
    "green-arc": (
        "normal-range",
        {"green-is-smooth": "smooth-air-range", "green-is-any": "full-control-range", "green-is-flaps": "flap-range"},
    ),
    "yellow-arc": (
        "smooth-air-range",
        {"yellow-is-normal": "rough-air-range", "yellow-forbidden": "never-exceed", "yellow-is-slow": "slow-range"},
    ),
    "red-line": (
        "never-exceed",
        {"red-is-caution": "smooth-air-limit", "red-is-rough": "rough-air-limit", "red-is-level": "level-limit"},
    ),
}
TRUE_OF_MARKS = {f"{mark}-{key}": "" for mark, (key, _) in MEANINGS.items()}
FALSE_OF_MARKS = {f"{mark}-{said}": belief for mark, (_, wrong) in MEANINGS.items() for belief, said in wrong.items()}
TICKED, UNTICKED = 2, 5
# The speed asked for -> the end of an arc that gives it, and the ends wrongly read.
ENDS: dict[str, tuple[str, dict[str, str]]] = {
    "landing-stall": ("white_low_kt", {"arcs-swapped": "green_low_kt", "other-end": "white_high_kt"}),
    "clean-stall": ("green_low_kt", {"arcs-swapped": "white_low_kt", "other-end": "green_high_kt"}),
    "flaps-limit": ("white_high_kt", {"arcs-swapped": "green_high_kt", "other-end": "white_low_kt"}),
    "rough-air-top": (
        "green_high_kt", {"arcs-swapped": "white_high_kt", "other-end": "green_low_kt", "yellow-is-normal": "red_kt"},
    ),
    "never-top": ("red_kt", {"yellow-forbidden": "green_high_kt", "flaps-limit-for-all": "white_high_kt"}),
}  # fmt: skip
END_NAMES = ("white_low_kt", "white_high_kt", "green_low_kt", "green_high_kt", "red_kt")


@solver("asi-marks-and-errors")
def asi_marks_and_errors(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: what marks mean, the speed one gives in knots, or CAS in knots by the table's share between two rows."""
    if parameters["ask"] == "meaning":
        mark, ends = parameters["mark"], _ends(parameters)
        key, wrong = MEANINGS[mark]
        return Solution(
            key=key,
            given={"ask": "meaning", "mark": mark, **ends},
            figures=(FigureCall("airspeed", ends),),
            wrong=dict(wrong),
            steps=(f"says-{mark}",),
            model_notes=("manual",),
            features={"table": -1.0},
        )
    if parameters["ask"] == "statements":
        return to_tick("statements", (TRUE_OF_MARKS, FALSE_OF_MARKS), (TICKED, UNTICKED), parameters["shuffle"],
                       model_notes=("manual",), features={"table": -1.0})  # fmt: skip
    return _end(parameters) if parameters["ask"] == "speed" else _calibrated(parameters)


def _ends(parameters: Mapping[str, Any]) -> dict[str, int]:
    ends = {name: parameters[name] for name in END_NAMES}
    if ends["green_low_kt"] - ends["white_low_kt"] < 5:
        raise Redraw("flaps lower the stalling speed by more than that")
    return ends


def _end(parameters: Mapping[str, Any]) -> Solution:
    ends = _ends(parameters)
    wanted = parameters["object"]
    end, wrong = ENDS[wanted]
    return Solution(
        key=ends[end],
        given={"ask": "speed", "object": wanted, **ends},
        figures=(FigureCall("airspeed", ends),),
        wrong={name: ends[other] for name, other in wrong.items()},
        quantities={"speed_kt": ends[end]},
        steps=(f"end-{wanted}",),
        model_notes=("manual",),
        features={"table": -1.0},
    )


def _calibrated(parameters: Mapping[str, Any]) -> Solution:
    """Between two entries of a sample table: slow, the needle shows too little; faster, it comes close to right."""
    low, gone, flaps = parameters["low_ias_kt"], parameters["fraction"], parameters["flaps"]
    high, ias = low + ROW_STEP_KT, low + gone
    table = {f"{row}_{end}_cas_kt": at + parameters[f"{row}_{end}_cas_kt"]
             for row in ("up", "down") for end, at in (("low", low), ("high", high))}  # fmt: skip
    up, down = ((table[f"{row}_low_cas_kt"], table[f"{row}_high_cas_kt"]) for row in ("up", "down"))
    mine, other = (up, down) if flaps == "flaps-up" else (down, up)
    cas, other_cas = _between(mine, gone), _between(other, gone)
    if ROW_STEP_KT - max(row[1] - row[0] for row in (up, down)) < LEAST_SHRINK_KT:
        raise Redraw("the needle comes closer to right as the speed grows")
    if abs(cas - ias) < SMALLEST_KT or abs(cas - other_cas) < ROWS_APART_KT:
        raise Redraw("rows too near each other or to nothing")
    nearest, far = mine if gone <= ROW_STEP_KT / 2 else mine[::-1]
    return Solution(
        key=round_half_up(cas, 1),
        figures=(FigureCall("airspeed", {"ias_kt": ias}),),
        given={"ask": "calibrated", "flaps": flaps, "ias_kt": ias, "low_ias_kt": low, "high_ias_kt": high, **table},
        wrong={
            "ias-as-cas": ias,
            "correction-turned": round_half_up(2 * ias - cas, 1),
            "other-row": round_half_up(other_cas, 1),
            "nearest-entry": nearest,
            "far-entry": far,
            "share-from-above": round_half_up(_between(mine, ROW_STEP_KT - gone), 1),
        },
        quantities={"low_cas_kt": mine[0], "high_cas_kt": mine[1], "gone_kt": gone, "rise_kt": mine[1] - mine[0],
                    "row_kt": ROW_STEP_KT, "cas_kt": round_half_up(cas, 1), "other_flaps": _other(flaps)},
        steps=("row", "share"),
        model_notes=("table", "slow-end"),
        features={"table": 1.0},
    )  # fmt: skip


def _between(entries: tuple[int, int], gone_kt: int) -> float:
    """Return a row's calibrated airspeed so far beyond its lower entry, both in knots."""
    return entries[0] + (entries[1] - entries[0]) * gone_kt / ROW_STEP_KT


def _other(flaps: str) -> str:
    return "flaps-down" if flaps == "flaps-up" else "flaps-up"
