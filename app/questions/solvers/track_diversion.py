"""A diversion estimated in the air: track and distance off the chart, quick drift, heading, time and fuel."""

from collections.abc import Mapping
from math import hypot
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import atan2_deg, cos_deg, difference, shown, whole
from app.physics.track import minutes_for
from app.physics.wind import drift_by_clock_deg, max_drift_deg
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution
from app.questions.solvers.registry import solver

SQUARE_NM = 10
SHORTEST_NM, LONGEST_NM = 25, 80
LEAST_TURN_DEG, LEAST_FARTHER_NM, LEAST_DRIFT_DEG, LEAST_LEG_NM = 20, 8, 5, 20


@solver("diversion-estimate")
def diversion_estimate(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: track and distance from the position, correction by the clock rule, magnetic heading, minutes, litres."""
    here, there, start = (_place(parameters, name) for name in ("_a", "_b", ""))
    wind, knots, tas, variation, burn = (
        parameters[name] for name in ("wind_from_deg", "wind_kt", "tas_kt", "variation_deg", "burn_l_h")
    )
    track, distance = _from_to(here, there)
    other_track, other_distance = _from_to(start, there)
    if not SHORTEST_NM <= distance <= LONGEST_NM or _from_to(start, here)[1] < LEAST_LEG_NM:
        raise Redraw("the alternate is very near or far, or the flight has hardly begun")
    if abs(difference(track, other_track)) < LEAST_TURN_DEG or abs(distance - other_distance) < LEAST_FARTHER_NM:
        raise Redraw("from the departure it would be nearly the same")
    angle = difference(wind, track)
    off = min(abs(angle), 180 - abs(angle))
    drift = whole(drift_by_clock_deg(tas, knots, off))
    if drift < LEAST_DRIFT_DEG:
        raise Redraw("hardly any drift")
    correction = drift if angle > 0 else -drift
    gs = whole(tas - knots * cos_deg(angle))
    heading, minutes = shown(track + correction - variation), whole(minutes_for(distance, gs))
    spots = [_spot("D", "field", start), _spot("P", "aircraft", here), _spot("X", "field", there)]
    chart = FigureCall("chart-sketch", {"square_nm": SQUARE_NM, "spots": spots})
    return Solution(
        key={"track": track, "distance": distance, "correction": correction, "heading": heading, "minutes": minutes,
             "fuel": whole(burn * minutes / 60)},
        given={"wind_from_deg": wind, "wind_kt": knots, "tas_kt": tas, "variation_deg": variation, "gs_kt": gs,
               "burn_l_h": burn, **chart.parameters},
        wrong={
            "from-departure": {"track": other_track},
            "turned-round": {"track": shown(track + 180)},
            "distance-from-departure": {"distance": other_distance},
            "squares": {"distance": whole(distance / SQUARE_NM)},
            "no-wind": {"correction": 0},
            "wrong-side": {"correction": -correction},
            "no-variation": {"heading": shown(track + correction)},
            "variation-turned": {"heading": shown(track + correction + variation)},
            "hundredths": {"minutes": whole(100 * distance / gs)},
            "an-hour": {"fuel": burn},
        },
        quantities={"east_gap_nm": there[0] - here[0], "north_gap_nm": there[1] - here[1], "track_deg": track,
                    "distance_nm": distance, "off_deg": off, "most_deg": whole(max_drift_deg(tas, knots)),
                    "drift_deg": drift, "true_deg": shown(track + correction), "key_deg": heading,
                    "wind_side": "right" if correction > 0 else "left",
                    "key_min": minutes, "fuel_l": whole(burn * minutes / 60)},
        steps=("track", "distance", "most-drift", "share-full" if off >= 60 else "share",
               "into-right" if correction > 0 else "into-left",
               "variation-east" if variation > 0 else "variation-west", "time", "fuel"),
        figures=(chart,),
        verdict_figures=(chart.with_parameters(lines=[{"from": "P", "bearing_deg": track}]),),
        follow=lambda earlier: _follow(earlier, variation, gs, burn),
        features={"crosses-north": float(abs(track + correction - variation - heading) > 180)},
    )  # fmt: skip


def _follow(earlier: Mapping[str, Any], variation: int, gs: int, burn: int) -> dict[str, Any]:
    """Return what the later boxes hold on the student's own earlier values."""
    return {
        "heading": shown(earlier["track"] + earlier["correction"] - variation),
        "minutes": whole(minutes_for(earlier["distance"], gs)),
        "fuel": whole(burn * earlier["minutes"] / 60),
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
