"""GPS track and heading: the compass gives the heading, GPS the track; true or magnetic as it is set. East positive."""

from collections.abc import Mapping
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import shown, whole
from app.physics.headings import magnetic_from_compass_heading, true_from_magnetic
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution, Wrong
from app.questions.solvers.datum_conversions import variation_fits
from app.questions.solvers.registry import solver

LEAST_VARIATION_DEG = 8


@solver("gps-track-vs-heading")
def gps_track_vs_heading(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: the magnetic heading C + D, the track GPS shows (that plus drift, plus variation if true), or the drift."""
    ask, compass, d, drift = (parameters[name] for name in ("ask", "compass_deg", "deviation_deg", "drift_deg"))
    v, at_home = _variation(parameters, conventions)
    in_true = parameters["gps_north"] == "true-north"
    if len({abs(v), abs(d), 2 * abs(d), abs(drift), 0}) < 5 or 0 in {drift + v, drift - v, drift + 2 * v}:
        raise Redraw("angles of like size hide which was used")
    magnetic = shown(magnetic_from_compass_heading(compass, d))
    over_ground = shown(magnetic + drift)
    track = shown(true_from_magnetic(over_ground, v)) if in_true else over_ground
    wrong = {
        "heading": _wrong_headings(magnetic, drift, v, in_true=in_true),
        "track": {"no-drift": track - drift, "drift-sign": track - 2 * drift}
        | _variation_slips(track, v, in_true=in_true),
        "drift": {"drift-sign": -drift} | _variation_slips(drift, -v, in_true=in_true),
    }[ask]
    toward = 1 if ask == "drift" else -1  # a heading read too low makes the drift look larger
    key = {"heading": magnetic, "track": track, "drift": drift}[ask]
    wrong |= {"raw-compass": key + toward * d, "deviation-sign": key + toward * 2 * d}
    return Solution(
        key=key,
        given={"ask": ask, "compass_deg": compass, "deviation_deg": d, "variation_deg": v,
               "gps_north": parameters["gps_north"],
               **({"drift_deg": drift} if ask == "track" else {"gps_track_deg": track})},
        wrong={name: Wrong(value if ask == "drift" else shown(value), figure=_slip(ask, name, compass, value))
               for name, value in wrong.items()},
        quantities={"magnetic_deg": magnetic, "over_ground_deg": over_ground, "gps_track_deg": track,
                    "drift_deg": drift},
        verdict_figures=(_ladder(compass, magnetic, d),) if ask == "heading" else (),
        steps=_steps(ask, drift, in_true=in_true),
        scene="home" if at_home else "",
        features={"gps-true": float(in_true)},
    )  # fmt: skip


def _ladder(compass: int, magnetic: int, d: int) -> FigureCall:
    parameters = {"compass_deg": compass, "deviation_deg": d, "key": [compass, magnetic]}
    return FigureCall("ladder", {"ask": "magnetic-from-compass", **parameters})


def _slip(ask: str, name: str, compass: int, value: int) -> dict[str, Any]:
    """Return the student's path where it starts from the compass; what GPS was believed to say has none."""
    if ask != "heading" or name not in {"raw-compass", "deviation-sign"}:
        return {}
    return {"yours": [compass, shown(value)], "first_wrong": "C-M"}


def _variation(parameters: Mapping[str, Any], conventions: Conventions) -> tuple[int, bool]:
    own = whole(conventions.variation_deg)
    at_home = parameters["at_home"] and variation_fits(conventions) and abs(own) >= LEAST_VARIATION_DEG
    return (own, True) if at_home else (parameters["variation_deg"], False)


def _wrong_headings(magnetic: int, drift: int, v: int, *, in_true: bool) -> dict[str, int]:
    """Headings of a student who believes GPS, as it stands or with variation taken off."""
    if in_true:
        return {"gps-true": magnetic + drift + v, "track-converted": magnetic + drift}
    return {"gps-magnetic": magnetic + drift, "double-variation": magnetic + drift - v}


def _variation_slips(value: int, v: int, *, in_true: bool) -> dict[str, int]:
    """Values with variation left out or turned where GPS is true, or applied where it is not; `v` as it should add."""
    if in_true:
        return {"variation-left-out": value - v, "variation-sign": value - 2 * v}
    return {"double-variation": value + v}


def _steps(ask: str, drift: int, *, in_true: bool) -> tuple[str, ...]:
    side = "right" if drift > 0 else "left"
    if ask == "track":
        return ("heading", f"drift-{side}", *(("plus-variation",) if in_true else ()))
    if ask == "drift":
        return ("heading", *(("less-variation",) if in_true else ()), f"found-{side}")
    return ("heading", "track-is-not")
