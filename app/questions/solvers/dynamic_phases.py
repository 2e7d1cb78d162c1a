"""Phases of flight by what they do to the speed, and so to the compass: wings level, the sign of the model."""

from collections.abc import Mapping
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import difference, sin_deg, whole
from app.physics.card import Swing, speed_change_reading_deg, speed_swing
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution
from app.questions.solvers.dynamic_sites import Site, heading_circle, site_of
from app.questions.solvers.dynamic_speed import CLEAR_DEG, OTHER_POLE, pace_g
from app.questions.solvers.registry import solver
from app.questions.solvers.subsets import few_of

SPEED_IN = {
    "take-off-roll": "faster",
    "level-off-climb": "faster",
    "go-around": "faster",
    "level-off-descent": "slower",
    "flap-down": "slower",
    "power-off": "slower",
    "approach-slowing": "slower",
    "steady-climb": "steady",
    "steady-descent": "steady",
}
ANSWERS = ("north", "south", "none", "follows-bank")
SORTED = 5


@solver("phase-to-error")
def phase_to_error(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: toward which pole the compass swings in a phase of flight, or none; or that of several phases."""
    phase, heading = parameters["phase"], parameters["heading_deg"]
    site = site_of(parameters, conventions)
    if parameters["ask"] == "sort":
        return _sorted_by_swing(few_of(tuple(SPEED_IN), SORTED, parameters["shuffle"]), heading, site)
    change = SPEED_IN[phase]
    swing = speed_swing(heading, site.dip_deg, pace_g(change)) if site.hemisphere != "none" else "none"
    off = abs(difference(speed_change_reading_deg(heading, site.dip_deg, pace_g(change)), heading))
    if swing != "none" and off < CLEAR_DEG:
        raise Redraw("a swing this small is no fair question")
    return Solution(
        key=swing,
        given={"ask": "swing", "phase": phase, "heading_deg": heading, **site.given},
        options=ANSWERS,
        wrong=_wrong(heading, swing, site, change),
        quantities={**site.words, "off_deg": whole(off), "pole": swing, "change": f"speed-{change}"},
        steps=_steps(swing, site, change),
        figures=(FigureCall("heading-circle", {"heading_deg": heading}),),
        verdict_figures=heading_circle(site, heading, speed_change=change)[1],
        model_notes=("size",) if swing != "none" else ("steady",) if change == "steady" else ("nothing",),
        features={"between-points": float(heading % 90 != 0), "southern": float(site.hemisphere == "south"),
                  "steady": float(change == "steady")},
    )  # fmt: skip


def _wrong(heading: int, swing: Swing, site: Site, change: str) -> dict[str, str]:
    wrong: dict[str, str] = {"turn-rule": "follows-bank"}
    if swing != "none":
        return wrong | {"opposite": OTHER_POLE[swing], "no-link": "none"}
    when_faster: Swing = "south" if site.hemisphere == "south" else "north"
    when_slower = OTHER_POLE[when_faster]
    if change == "steady":
        return wrong | {"pitch-as-faster": when_faster, "pitch-as-slower": when_slower}
    by_rule, against = (when_faster, when_slower) if change == "faster" else (when_slower, when_faster)
    kind = "level-field" if site.hemisphere == "none" and sin_deg(heading) != 0 else "any-heading"
    return wrong | {kind: by_rule, f"{kind}-reversed": against}


def _sorted_by_swing(phases: tuple[str, ...], heading: int, site: Site) -> Solution:
    """Ask it of several phases on one heading, where a change of speed does swing the compass."""
    off = abs(difference(speed_change_reading_deg(heading, site.dip_deg, pace_g("slower")), heading))
    if site.hemisphere == "none" or off < CLEAR_DEG:
        raise Redraw("a swing this small is no fair question")
    key = {phase: speed_swing(heading, site.dip_deg, pace_g(SPEED_IN[phase])) for phase in phases}
    slips = {(phase, pole): name for phase, swing in key.items()
             for name, pole in _wrong(heading, swing, site, SPEED_IN[phase]).items()}  # fmt: skip
    return Solution(
        key=key,
        given={"ask": "sort", "heading_deg": heading, **site.given},
        options=phases,
        slips=slips,
        quantities=dict(site.words),
        steps=("sort-speed", f"sort-{site.hemisphere}", *(("no-tilt",) if "none" in key.values() else ())),
        figures=(FigureCall("heading-circle", {"heading_deg": heading}),),
        model_notes=("nothing",),
        features={"between-points": float(heading % 90 != 0), "southern": float(site.hemisphere == "south"),
                  "steady": float("none" in key.values())},
    )  # fmt: skip


def _steps(swing: Swing, site: Site, change: str) -> tuple[str, ...]:
    first = f"speed-{change}"
    if change == "steady":
        return (first, "no-tilt")
    if site.hemisphere == "none":
        return (first, "no-dip")
    if swing == "none":
        return (first, "along-the-needle")
    return (first, f"{site.hemisphere}-end-{'forward' if change == 'faster' else 'aft'}")
