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
SMALLEST_KT, LARGEST_KT, ROWS_APART_KT = 3, 8, 3
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
    low, flaps = parameters["low_ias_kt"], parameters["flaps"]
    high, ias = low + ROW_STEP_KT, low + parameters["fraction"]
    up, down = (_corrections(parameters, row) for row in ("up", "down"))
    mine, other = (up, down) if flaps == "flaps-up" else (down, up)
    correction, other_correction = _share(mine, ias - low), _share(other, ias - low)
    if not _fair(mine, other) or abs(correction - other_correction) < ROWS_APART_KT:
        raise Redraw("rows too near each other or to nothing")
    nearest = low + mine[0] if ias - low <= ROW_STEP_KT / 2 else high + mine[1]
    table = {"up_low_cas_kt": low + up[0], "up_high_cas_kt": high + up[1],
             "down_low_cas_kt": low + down[0], "down_high_cas_kt": high + down[1]}  # fmt: skip
    return Solution(
        key=round_half_up(ias + correction, 1),
        figures=(FigureCall("airspeed", {"ias_kt": ias}),),
        given={"ask": "calibrated", "flaps": flaps, "ias_kt": ias, "low_ias_kt": low, "high_ias_kt": high, **table},
        wrong={
            "ias-as-cas": ias,
            "correction-turned": round_half_up(ias - correction, 1),
            "other-row": round_half_up(ias + other_correction, 1),
            "nearest-entry": nearest,
            "far-entry": low + high + mine[0] + mine[1] - nearest,
        },
        quantities={"low_cas_kt": low + mine[0], "high_cas_kt": high + mine[1], "gone_kt": ias - low,
                    "rise_kt": ROW_STEP_KT + mine[1] - mine[0], "row_kt": ROW_STEP_KT,
                    "cas_kt": round_half_up(ias + correction, 1), "other_flaps": _other(flaps)},
        steps=("row", "share"),
        model_notes=("table",),
        features={"table": 1.0},
    )  # fmt: skip


def _corrections(parameters: Mapping[str, Any], row: str) -> tuple[int, int]:
    """Return a row's corrections at its two entries: the first is drawn, and how far the second is from it."""
    first = parameters[f"{row}_low_cas_kt"]
    return first, first + parameters[f"{row}_high_cas_kt"]


def _share(corrections: tuple[int, int], gone_kt: int) -> float:
    return corrections[0] + (corrections[1] - corrections[0]) * gone_kt / ROW_STEP_KT


def _fair(mine: tuple[int, int], other: tuple[int, int]) -> bool:
    """Whether both rows hold corrections of one sign each, and the row in use of a size worth applying."""
    same_sign = mine[0] * mine[1] > 0 and other[0] * other[1] > 0
    return same_sign and all(SMALLEST_KT <= abs(each) <= LARGEST_KT for each in mine)


def _other(flaps: str) -> str:
    return "flaps-down" if flaps == "flaps-up" else "flaps-up"
