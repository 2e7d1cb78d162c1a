"""A diversion estimated in the air: track and distance off the chart, quick drift, heading, time and fuel."""

from collections.abc import Mapping
from math import hypot
from typing import Any, NamedTuple

from app.figures.model import FigureCall
from app.physics.angles import atan2_deg, difference, shown, whole
from app.physics.track import minutes_for
from app.physics.wind import drift_by_clock_deg, ground_speed_kt, max_drift_deg
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution
from app.questions.solvers.fuel_units import counted, fuel_unit_in
from app.questions.solvers.registry import solver

SQUARE_NM = 10
FULL_DEG = 60
SHORTEST_NM, LONGEST_NM = 25, 80
LEAST_TURN_DEG, LEAST_FARTHER_NM, LEAST_DRIFT_DEG, LEAST_LEG_NM = 20, 8, 5, 20
LITRES_AN_HOUR_A_KNOT = (0.22, 0.34)  # light aeroplanes in cruise: common practice, no source
LEAST_APART_NM = 18  # the labels of two places on the chart, which is 120 wide, keep clear of each other


class Plan(NamedTuple):
    """The boxes: degrees true, miles, correction right positive, degrees magnetic, minutes, litres or US gallons."""

    track: int
    distance: int
    correction: int
    heading: int
    minutes: int
    fuel: int


@solver("diversion-estimate")
def diversion_estimate(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: track and distance from the position, correction by the clock rule, magnetic heading, minutes, fuel."""
    here, there, start = (_place(parameters, name) for name in ("_a", "_b", ""))
    given = {name: parameters[name] for name in ("wind_from_deg", "wind_kt", "tas_kt", "variation_deg")}
    least, most = LITRES_AN_HOUR_A_KNOT
    if not least <= parameters["burn_l_h"] / given["tas_kt"] <= most:
        raise Redraw("no aeroplane of that speed burns so little or so much")
    unit = fuel_unit_in(conventions.region)
    given["burn_per_h"] = counted(parameters["burn_l_h"], unit)
    leg, other = _from_to(here, there), _from_to(start, there)
    if not SHORTEST_NM <= leg[1] <= LONGEST_NM or _from_to(start, here)[1] < LEAST_LEG_NM:
        raise Redraw("the alternate is very near or far, or the flight has hardly begun")
    if other[1] < LEAST_APART_NM:
        raise Redraw("the departure and the alternate lie on top of each other")
    if abs(difference(leg[0], other[0])) < LEAST_TURN_DEG or abs(leg[1] - other[1]) < LEAST_FARTHER_NM:
        raise Redraw("from the departure it would be nearly the same")
    angle = difference(given["wind_from_deg"], leg[0])
    off = min(abs(angle), 180 - abs(angle))
    given["gs_kt"] = whole(ground_speed_kt(leg[0], given["tas_kt"], given["wind_from_deg"], given["wind_kt"]))
    plan = _plan(leg, angle, off, given)
    spots = [_spot("D", "field", start), _spot("P", "aircraft", here), _spot("X", "field", there)]
    chart = FigureCall("chart-sketch", {"square_nm": SQUARE_NM, "spots": spots})
    return Solution(
        key=plan._asdict(),
        given={**given, "fuel_unit": unit, **chart.parameters},
        wrong=_wrong_boxes(plan, other, given),
        quantities={**_quantities(plan, (there[0] - here[0], there[1] - here[1]), off, given),
                    "wind_end": "from-ahead" if abs(angle) < 90 else "from-behind"},
        steps=("track", "distance", "most-drift", "share-full" if off >= FULL_DEG else "share",
               "into-right" if plan.correction > 0 else "into-left",
               "variation-east" if given["variation_deg"] > 0 else "variation-west", "time", "fuel"),
        figures=(chart,),
        verdict_figures=(chart.with_parameters(lines=[{"from": "P", "to": "X"}]),),
        follow=lambda earlier: _follow(earlier, given),
        features={"crosses-north": float(abs(plan.track - plan.heading) > 180)},
    )  # fmt: skip


def _plan(leg: tuple[int, int], angle: float, off: float, given: Mapping[str, int]) -> Plan:
    drift = whole(drift_by_clock_deg(given["tas_kt"], given["wind_kt"], off))
    if drift < LEAST_DRIFT_DEG:
        raise Redraw("hardly any drift")
    correction = drift if angle > 0 else -drift
    minutes = whole(minutes_for(leg[1], given["gs_kt"]))
    heading = shown(leg[0] + correction - given["variation_deg"])
    return Plan(*leg, correction, heading, minutes, whole(given["burn_per_h"] * minutes / 60))


def _wrong_boxes(plan: Plan, other: tuple[int, int], given: Mapping[str, int]) -> dict[str, Any]:
    """Return what each slip writes into the first box it spoils."""
    return {
        "from-departure": {"track": other[0]},
        "turned-round": {"track": shown(plan.track + 180)},
        "distance-from-departure": {"distance": other[1]},
        "squares": {"distance": whole(plan.distance / SQUARE_NM)},
        "no-wind": {"correction": 0},
        "wrong-side": {"correction": -plan.correction},
        "no-variation": {"heading": shown(plan.track + plan.correction)},
        "variation-turned": {"heading": shown(plan.track + plan.correction + given["variation_deg"])},
        "hundredths": {"minutes": whole(100 * plan.distance / given["gs_kt"])},
        "an-hour": {"fuel": given["burn_per_h"]},
    }


def _quantities(plan: Plan, gap_nm: tuple[int, int], off: float, given: Mapping[str, int]) -> dict[str, Any]:
    return {
        "east_gap_nm": gap_nm[0],
        "north_gap_nm": gap_nm[1],
        "track_deg": plan.track,
        "distance_nm": plan.distance,
        "off_deg": off,
        "most_deg": whole(max_drift_deg(given["tas_kt"], given["wind_kt"])),
        "drift_deg": abs(plan.correction),
        "true_deg": shown(plan.track + plan.correction),
        "wind_side": "right" if plan.correction > 0 else "left",
        "key_deg": plan.heading,
        "key_min": plan.minutes,
        "fuel": plan.fuel,
    }


def _follow(earlier: Mapping[str, Any], given: Mapping[str, int]) -> dict[str, Any]:
    """Return what the later boxes hold on the student's own earlier values."""
    return {
        "heading": shown(earlier["track"] + earlier["correction"] - given["variation_deg"]),
        "minutes": whole(minutes_for(earlier["distance"], given["gs_kt"])) if earlier["distance"] > 0 else 0,
        "fuel": whole(given["burn_per_h"] * earlier["minutes"] / 60),
    }


def _place(parameters: Mapping[str, Any], name: str) -> tuple[int, int]:
    return parameters[f"east{name}_nm"], parameters[f"north{name}_nm"]


def _from_to(start: tuple[int, int], end: tuple[int, int]) -> tuple[int, int]:
    """Return whole degrees true and whole miles from one place to another; the same place has no direction."""
    if start == end:
        raise Redraw("two places are one")
    east, north = end[0] - start[0], end[1] - start[1]
    return shown(atan2_deg(east, north)), whole(hypot(east, north))


def _spot(label: str, mark: str, place: tuple[int, int]) -> dict[str, Any]:
    return {"label": label, "mark": mark, "east_nm": place[0], "north_nm": place[1]}
