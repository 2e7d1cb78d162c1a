"""Conversions between true, magnetic and compass: M = T - V, C = M - D, east positive."""

from collections.abc import Mapping
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import shown, signed, whole
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution, Wrong
from app.questions.solvers.registry import solver

LEAST_VARIATION_DEG = 4
LARGEST_VARIATION_DEG = 25


def variation_fits(conventions: Conventions) -> bool:
    """Whether the home place's own variation makes a fair conversion: not so small that a wrong sign hides in it."""
    return LEAST_VARIATION_DEG <= abs(whole(conventions.variation_deg)) <= LARGEST_VARIATION_DEG


@solver("true-to-compass")
def true_to_compass(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key C = T - V - D (or one of the two steps alone); whole degrees."""
    ask, true, v, d = (parameters[name] for name in ("ask", "true_deg", "variation_deg", "deviation_deg"))
    at_home = parameters["at_home"] and ask != "compass-from-magnetic" and variation_fits(conventions)
    if at_home:
        v = whole(conventions.variation_deg)
    if abs(v) in {abs(d), 2 * abs(d)}:
        raise Redraw("variation and deviation of like size hide which was used")
    magnetic, compass = shown(true - v), shown(true - v - d)
    key_path = {
        "compass": (true, magnetic, compass),
        "magnetic": (true, magnetic),
        "compass-from-magnetic": (magnetic, compass),
    }
    given = {
        "compass": {"true_deg": true, "variation_deg": v, "deviation_deg": d},
        "magnetic": {"true_deg": true, "variation_deg": v},
        "compass-from-magnetic": {"magnetic_deg": magnetic, "deviation_deg": d},
    }[ask]
    return Solution(
        key=magnetic if ask == "magnetic" else compass,
        given={"ask": ask, **given},
        wrong=_wrong_to_compass(ask, true, v, d),
        quantities={"magnetic_deg": magnetic, "compass_deg": compass, "m_turned": shown(true + v), "true_deg": true,
                    "variation_deg": v, "deviation_deg": d},
        steps=_steps(ask, v, d, true),
        verdict_figures=(FigureCall("ladder", {**given, "ask": ask, "key": list(key_path[ask])}),),
        model_notes=("steady",),
        scene="home" if at_home else "",
        features={"crosses-north": float(abs(signed(true)) < abs(v) + abs(d)), "opposite-signs": float(v * d < 0)},
    )  # fmt: skip


def _wrong_to_compass(ask: str, true: int, v: int, d: int) -> dict[str, Wrong]:
    m, turned = shown(true - v), shown(true + v)
    if ask == "magnetic":
        return {"v-sign": Wrong(turned, figure={"yours": [true, turned], "first_wrong": "T-M"})}
    reversed_d = shown(m + d)
    if ask == "compass-from-magnetic":
        return {"d-sign": Wrong(reversed_d, figure={"yours": [m, reversed_d], "first_wrong": "M-C"}),
                "stops-at-magnetic": Wrong(m, figure={"yours": [m, m], "first_wrong": "M-C"})}  # fmt: skip
    paths = {
        "v-sign": ([true, turned, shown(turned - d)], "T-M"),
        "d-sign": ([true, m, reversed_d], "M-C"),
        "both-signs": ([true, turned, shown(turned + d)], "T-M"),
        "stops-at-magnetic": ([true, m, m], "M-C"),
    }
    return {
        name: Wrong(path[-1], figure={"yours": path, "first_wrong": first}) for name, (path, first) in paths.items()
    }


def _steps(ask: str, v: int, d: int, true: int) -> tuple[str, ...]:
    first = () if ask == "compass-from-magnetic" else (f"variation-{'east' if v > 0 else 'west'}",)
    second = () if ask == "magnetic" else (f"deviation-{'east' if d > 0 else 'west'}",)
    sums = {
        "magnetic": (true, true - v),
        "compass": (true, true - v - d),
        "compass-from-magnetic": (shown(true - v), shown(true - v) - d),
    }
    through = any(not 1 <= each <= 360 for each in (*sums[ask], true - v))
    return (*first, *second, *(("through-north",) if through else ()))
