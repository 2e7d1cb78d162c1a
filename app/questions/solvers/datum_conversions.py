"""Conversions between true, magnetic and compass headings: T = M + V, M = C + D, east positive, whole degrees."""

from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import shown, signed, whole
from app.physics.headings import (
    compass_from,
    magnetic_from_compass_heading,
    magnetic_from_true,
    true_from_magnetic,
)
from app.questions.conventions import WEAK_HORIZONTAL_NT, Conventions
from app.questions.model import Redraw, Solution, Wrong
from app.questions.solvers.registry import solver

LEAST_VARIATION_DEG = 4
LARGEST_VARIATION_DEG = 25

NAMES = {"T": "true_deg", "M": "magnetic_deg", "C": "compass_deg"}
# The ladder's rows an ask walks along, first to last.
_ROWS = {
    "compass": "TMC", "magnetic": "TM", "compass-from-magnetic": "MC",
    "true": "CMT", "true-from-magnetic": "MT", "magnetic-from-compass": "CM",
}  # fmt: skip

_OF_TWO_STEPS = frozenset({"both-signs", "forward-sign", "skips-variation", "skips-deviation"})


def variation_fits(conventions: Conventions) -> bool:
    """Whether the home place's own variation makes a fair conversion.

    It must not be so small that a wrong sign hides in it, nor stand where headings are flown true or the compass fails.
    """
    usable = conventions.region != "ca-north" and conventions.horizontal_nt >= WEAK_HORIZONTAL_NT
    return usable and LEAST_VARIATION_DEG <= abs(whole(conventions.variation_deg)) <= LARGEST_VARIATION_DEG


@solver("true-to-compass")
def true_to_compass(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key C = T - V - D (or one of the two steps alone)."""
    ask, true = parameters["ask"], parameters["true_deg"]
    v, d, at_home = variation_and_deviation(parameters, conventions, needs_variation=ask != "compass-from-magnetic")
    magnetic = shown(magnetic_from_true(true, v))
    turned = shown(magnetic_from_true(true, -v))
    key = {"T": true, "M": magnetic, "C": shown(compass_from(magnetic, d))}
    paths = {
        "v-sign": {"T": true, "M": turned, "C": shown(compass_from(turned, d))},
        "d-sign": key | {"C": shown(compass_from(magnetic, -d))},
        "both-signs": {"T": true, "M": turned, "C": shown(compass_from(turned, -d))},
        "stops-at-magnetic": key | {"C": magnetic},
        "skips-variation": {"T": true, "M": true, "C": shown(compass_from(true, d))},
    }
    return _walk(ask, key, paths, (v, d), at_home=at_home)


@solver("compass-to-true")
def compass_to_true(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key T = C + D + V (or one of the two steps alone)."""
    ask, compass = parameters["ask"], parameters["compass_deg"]
    v, d, at_home = variation_and_deviation(parameters, conventions, needs_variation=ask != "magnetic-from-compass")
    magnetic = shown(magnetic_from_compass_heading(compass, d))
    turned = shown(magnetic_from_compass_heading(compass, -d))
    key = {"C": compass, "M": magnetic, "T": shown(true_from_magnetic(magnetic, v))}
    paths = {
        "forward-sign": {"C": compass, "M": turned, "T": shown(true_from_magnetic(turned, -v))},
        "v-sign": key | {"T": shown(true_from_magnetic(magnetic, -v))},
        "d-sign": {"C": compass, "M": turned, "T": shown(true_from_magnetic(turned, v))},
        "stops-at-magnetic": key | {"T": magnetic},
        "skips-deviation": {"C": compass, "M": compass, "T": shown(true_from_magnetic(compass, v))},
    }
    return _walk(ask, key, paths, (v, d), at_home=at_home)


def variation_and_deviation(
    parameters: Mapping[str, Any], conventions: Conventions, *, needs_variation: bool
) -> tuple[int, int, bool]:
    """Return variation, deviation and whether the variation is the home place's own."""
    v, d = parameters["variation_deg"], parameters["deviation_deg"]
    at_home = parameters["at_home"] and needs_variation and variation_fits(conventions)
    if at_home:
        v = whole(conventions.variation_deg)
    if abs(v) in {abs(d), 2 * abs(d)}:
        raise Redraw("variation and deviation of like size hide which was used")
    return v, d, at_home


def _walk(
    ask: str, key: Mapping[str, int], paths: Mapping[str, Mapping[str, int]], errors: tuple[int, int], *, at_home: bool
) -> Solution:
    """Return the solution of a walk along the ladder: from the first row of the ask to its last."""
    rows = _ROWS[ask]
    v, d = errors
    steps = {"variation_deg": v} if "T" in rows else {}
    steps |= {"deviation_deg": d} if "C" in rows else {}
    given = {NAMES[rows[0]]: key[rows[0]], **steps}
    spread = sum(map(abs, steps.values()))
    toward_compass = rows in "TMC"
    return Solution(
        key=key[rows[-1]],
        given={"ask": ask, **given},
        wrong=dict(_wrong_walks(rows, key, paths)),
        quantities={
            **{name: key[row] for row, name in NAMES.items()},
            "variation_deg": v,
            "deviation_deg": d,
            **_turned("v", v, toward_compass=toward_compass),
            **_turned("d", d, toward_compass=toward_compass),
        },
        steps=tuple(_walk_steps(rows, v, d)),
        verdict_figures=(FigureCall("ladder", {**given, "ask": ask, "key": [key[row] for row in rows]}),),
        model_notes=("steady",),
        scene="home" if at_home else "",
        features={"crosses-north": float(abs(signed(key[rows[0]])) < spread), "opposite-signs": float(v * d < 0)},
    )


def _turned(name: str, error: int, *, toward_compass: bool) -> dict[str, str]:
    """Return what the wrong sign does with an error and what is right: toward the compass, east comes off."""
    comes_off = (error > 0) == toward_compass
    done, due = ("adds", "taken-off") if comes_off else ("takes-off", "added")
    return {f"{name}_done": done, f"{name}_due": due}


def _wrong_walks(
    rows: str, key: Mapping[str, int], paths: Mapping[str, Mapping[str, int]]
) -> Iterator[tuple[str, Wrong]]:
    """Give each misconception's path over these rows; one that agrees with the key along them does not apply.

    In a single step there is nothing to skip and only one sign to turn.
    """
    for name, path in paths.items():
        yours = [path[row] for row in rows]
        wrong_at = next((i for i in range(1, len(rows)) if yours[i] != key[rows[i]]), 0)
        if yours[0] != key[rows[0]] or not wrong_at or (len(rows) == 2 and name in _OF_TWO_STEPS):
            continue
        first_wrong = f"{rows[wrong_at - 1]}-{rows[wrong_at]}"
        yield name, Wrong(yours[-1], {"m_turned": path["M"]}, {"yours": yours, "first_wrong": first_wrong})


def _walk_steps(rows: str, v: int, d: int) -> Iterator[str]:
    for start, end in pairwise(rows):
        name, size = ("variation", v) if "T" in start + end else ("deviation", d)
        yield f"{name}-{'east' if size > 0 else 'west'}"
