"""Measuring a leg on the chart: the track at the meridian half way, the length by the right edge or a meridian."""

from collections.abc import Mapping
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import cos_deg, shown, whole
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution
from app.questions.solvers.registry import solver

# Miles of 1852 m and 1609.344 m, both by definition.
KM_IN_NM, MI_IN_NM = 1.852, 1852 / 1609.344
SMALL, LARGE = 500_000, 250_000


@solver("measure-track-on-chart")
def measure_track(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key by ask: the middle meridian's angle, from A or turned round from B; the NM edge of the scale; latitude."""
    ask = parameters["ask"]
    if ask in {"track", "back"}:
        return _track(parameters, north=conventions.latitude_deg >= 0)
    return _by_ruler(parameters) if ask == "ruler" else _by_dividers(parameters)


def _track(parameters: Mapping[str, Any], *, north: bool) -> Solution:
    """Meridians draw together toward the near pole: eastbound the angle grows in the north, falls in the south."""
    ask, middle, gap = (parameters[name] for name in ("ask", "angle_b_deg", "spacing_deg"))
    growth = gap if (middle < 180) == north else -gap
    first, last = middle - growth, middle + growth
    angles = {"angle_a_deg": first, "angle_b_deg": middle, "angle_c_deg": last}
    turned = 180 if ask == "back" else 0
    values = {
        "other-way": middle + 180 + turned,
        "start-meridian": first + turned,
        "end-meridian": last + turned,
        "start-and-other-way": first + 180 + turned,
        "end-and-other-way": last + 180 + turned,
        "anticlockwise": 360 - middle + turned,
    }
    sketch = FigureCall("meridians", angles)
    return Solution(
        key=shown(middle + turned),
        given={"ask": ask, **angles},
        wrong={name: shown(value) for name, value in values.items()},
        quantities={"key_deg": shown(middle + turned)},
        steps=("half-way", *(("reciprocal",) if turned else ())),
        figures=(sketch,),
        model_notes=("great-circle",),
        scene=ask,
        features={"turned": float(ask == "back")},
    )


def _by_ruler(parameters: Mapping[str, Any]) -> Solution:
    scale, miles = parameters["chart_scale"], parameters["distance_nm"]
    on_small = miles if scale == SMALL else 2 * miles
    edges = {
        f"{unit}_{name}": whole(on_small * share * size)
        for name, share in (("250", 0.5), ("500", 1))
        for unit, size in (("nm", 1), ("mi", MI_IN_NM), ("km", KM_IN_NM))
    }
    if on_small % 2:
        raise Redraw("the other edge would not read a whole mile")
    right, other = ("500", "250") if scale == SMALL else ("250", "500")
    return Solution(
        key=miles,
        given={"ask": "ruler", "chart_scale": scale, **edges},
        wrong={
            "other-scale": edges[f"nm_{other}"],
            "statute": edges[f"mi_{right}"],
            "kilometres": edges[f"km_{right}"],
            "other-scale-statute": edges[f"mi_{other}"],
            "other-scale-kilometres": edges[f"km_{other}"],
        },
        quantities={"key_nm": miles},
        steps=("right-scale", "right-unit"),
        scene="ruler",
    )


def _by_dividers(parameters: Mapping[str, Any]) -> Solution:
    miles, latitude = parameters["distance_nm"], parameters["latitude_deg"]
    longitude = whole(miles / cos_deg(latitude))
    return Solution(
        key=miles,
        given={"ask": "dividers", "latitude_min": miles, "longitude_min": longitude, "latitude_deg": latitude},
        wrong={
            "longitude-as-miles": longitude,
            "shrunk-latitude": whole(miles * cos_deg(latitude)),
            "into-statute": whole(miles * MI_IN_NM),
            "out-of-statute": whole(miles / MI_IN_NM),
            "into-kilometres": whole(miles * KM_IN_NM),
            "mean-of-both": whole((miles + longitude) / 2),
            "out-of-kilometres": whole(miles / KM_IN_NM),
        },
        quantities={"key_nm": miles},
        steps=("minute-of-latitude", "so-many"),
        scene="dividers",
    )
