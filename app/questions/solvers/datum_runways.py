"""Runway numbers: from a direction, at the other end, for a wind, and when variation has moved on. East positive."""

from collections.abc import Mapping
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import difference, shown
from app.physics.headings import magnetic_from_true, reciprocal_runway, runway_number, true_from_magnetic
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution, Step
from app.questions.solvers.datum_rules import (
    counts_from_true,
    north_name,
    region_and_variation,
    two_roses,
)
from app.questions.solvers.registry import solver

OFF_WIND_DEG = range(20, 71)  # neither along the runway nor right across it
REASONS = ("changes-by-magnetic", "stays-same-ten", "stays-not-rebuilt", "changes-by-true")
REASONS_IN_THE_NORTH = ("stays-from-true", "changes-by-magnetic", "stays-same-ten", "changes-by-true")


@solver("runway-designator")
def runway_designator(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: the nearest ten of the runway's azimuth by the region's north, or what becomes of it, and why."""
    asked = {"for-wind": _for_wind, "renumbered": _renumbered}.get(parameters["ask"], _number)
    return asked(parameters, conventions)


def _number(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    region, v, at_home = region_and_variation(parameters, conventions)
    true = parameters["runway_true_deg"]
    azimuth, facing, quantities = _facing(region, true, v)
    other_end = parameters["ask"] == "other-end"
    number = runway_number(azimuth)
    plan = _plan(true, v, "far" if other_end else "near")
    wrong = {name: reciprocal_runway(value) if other_end else value for name, value in facing.items()}
    return Solution(
        key=reciprocal_runway(number) if other_end else number,
        given={"ask": parameters["ask"], "runway_true_deg": true, "variation_deg": v, "region": region},
        wrong=wrong | {"other-end": number if other_end else reciprocal_runway(number)},
        quantities=quantities,
        steps=_runway_steps(true, azimuth, other_end=other_end),
        figures=(plan,),
        verdict_figures=(plan.with_parameters(runway=number), *two_roses(true, v)),
        scene="home" if at_home else "",
        features={"in-the-north": float(azimuth == true), "rounds-up": float(azimuth % 10 > 5)},
    )


def _plan(true_deg: int, variation_deg: int, part: str) -> FigureCall:
    """Return the runway from above with the number asked hidden at its end."""
    shown_on_it = {"runway_true_deg": true_deg, "variation_deg": variation_deg, "part": part}
    return FigureCall("runway-plan", shown_on_it)


def _facing(region: str, true: int, v: int) -> tuple[int, dict[str, int], dict[str, Any]]:
    """Return the azimuth that counts, the numbers wrongly made of this direction, and what the texts say of both."""
    magnetic, turned = shown(magnetic_from_true(true, v)), shown(true_from_magnetic(true, v))
    if 5 in {true % 10, magnetic % 10, turned % 10} or runway_number(true) == runway_number(magnetic):
        raise Redraw("half-way between two numbers, or both norths give the same number")
    azimuth, other = (true, magnetic) if counts_from_true(region) else (magnetic, true)
    facing = {"wrong-datum": runway_number(other), "v-wrong-way": runway_number(turned)}
    if azimuth % 10 > 5:
        facing["truncates"] = azimuth // 10 or 36
    number = runway_number(azimuth)
    return azimuth, facing, {
        "azimuth_deg": azimuth, "other_deg": other, "turned_deg": turned, "number": number,
        "far_number": reciprocal_runway(number), "right_north": north_name(true_there=azimuth == true),
        "other_north": north_name(true_there=azimuth != true),
    }  # fmt: skip


def _runway_steps(true: int, azimuth: int, *, other_end: bool) -> tuple[Step | str, ...]:
    steps: list[Step | str] = ["stays-true" if azimuth == true else "to-magnetic"]
    steps.append("nearest-ten")
    if azimuth < 5:
        steps.append("north-is-36")
    if other_end:
        number = runway_number(azimuth)
        steps.append(Step("less-18" if number > 18 else "plus-18", {"number": number}))
    return tuple(steps)


def _for_wind(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Choose the end with the wind on the nose; a spoken wind is in the runway's own north."""
    region, v, _ = region_and_variation({**parameters, "at_home": False}, conventions)
    true, wind = parameters["runway_true_deg"], parameters["wind_from_deg"]
    azimuth, facing, quantities = _facing(region, true, v)
    off = abs(difference(wind, azimuth))
    into_wind = off < 90
    off = off if into_wind else 180 - off
    if round(off) not in OFF_WIND_DEG:
        raise Redraw("the wind lies along the runway, or right across it")
    numbers = facing if into_wind else {name: reciprocal_runway(value) for name, value in facing.items()}
    key = runway_number(azimuth) if into_wind else reciprocal_runway(runway_number(azimuth))
    wind_number = runway_number(wind)
    numbers["wind-as-runway"] = wind_number
    last = "other-end-faces" if not into_wind else "this-end-faces"
    figure = FigureCall("runway-wind", {"runway": key, "wind_from_deg": wind, "wind_kt": parameters["wind_kt"]})
    return Solution(
        key=key,
        given={"ask": "for-wind", "runway_true_deg": true, "variation_deg": v, "region": region,
               "wind_from_deg": wind, "wind_kt": parameters["wind_kt"]},
        wrong=numbers | {"wind-from-behind": reciprocal_runway(key)},
        quantities={**quantities, "key_number": key, "off_deg": off, "wind_number": wind_number},
        steps=(*_runway_steps(true, azimuth, other_end=False), "same-north", last),
        figures=(_plan(true, v, "both"),),
        verdict_figures=two_roses(true, v) if counts_from_true(region) else (figure,),
        features={"in-the-north": float(azimuth == true), "rounds-up": float(azimuth % 10 > 5)},
    )  # fmt: skip


def _renumbered(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Say whether the number has changed while variation moved on, and why."""
    region, then, _ = region_and_variation({**parameters, "at_home": False}, conventions)
    true, now = parameters["runway_true_deg"], then + parameters["shift_deg"]
    azimuths = [shown(magnetic_from_true(true, v)) for v in (then, now)]
    if 5 in {true % 10, *(each % 10 for each in azimuths)}:
        raise Redraw("half-way between two numbers")
    before, after = (runway_number(each) for each in azimuths)
    north = counts_from_true(region)
    if north and before == after:
        raise Redraw("in the north only a number that magnetic would change is a fair question")
    key, wrong = _reason(changed=before != after, north=north)
    steps = ("not-by-magnetic",) if north else ("then", "now", "changed" if before != after else "unchanged")
    return Solution(
        key=key,
        given={"ask": "renumbered", "runway_true_deg": true, "region": region,
               "variation_a_deg": then, "variation_b_deg": now,
               "printed_year": parameters["printed_year"], "year": parameters["year"]},
        wrong=wrong,
        options=REASONS_IN_THE_NORTH if north else REASONS,
        quantities={"then_deg": azimuths[0], "now_deg": azimuths[1], "before": before, "after": after,
                    "number": runway_number(true)},
        steps=steps,
        verdict_figures=two_roses(true, now),
        features={"in-the-north": float(north), "rounds-up": float(azimuths[1] % 10 > 5)},
    )  # fmt: skip


def _reason(*, changed: bool, north: bool) -> tuple[str, dict[str, str]]:
    if north:
        return "stays-from-true", {"magnetic-in-the-north": "changes-by-magnetic", "runway-turned": "changes-by-true",
                                   "same-ten-misread": "stays-same-ten"}  # fmt: skip
    wrong = {"never-repainted": "stays-not-rebuilt", "runway-turned": "changes-by-true"}
    if changed:
        return "changes-by-magnetic", wrong | {"same-ten-misread": "stays-same-ten"}
    return "stays-same-ten", wrong | {"any-change-repaints": "changes-by-magnetic"}
