"""How magnetic latitude, dip and the level part of the field go together, for a bar-magnet earth."""

from collections.abc import Mapping
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import atan_deg, cos_deg, sin_deg, tan_deg, whole
from app.physics.dipole import dip_from_magnetic_latitude_deg, horizontal_share
from app.questions.conventions import Conventions
from app.questions.model import Solution, Step
from app.questions.solvers.registry import solver
from app.questions.solvers.ticks import to_tick

LEAST_APART_DEG = 10  # two places this far apart in latitude differ plainly
EQUATOR_BELOW_DEG = 30  # a third of the latitudes drawn
TRUE_OF_DIP = dict.fromkeys(
    ("level-on-equator", "south-end-in-south", "alike-north-and-south", "firmer-near-equator", "steeper-than-latitude"),
    "",
)
FALSE_OF_DIP = {
    "firmer-near-pole": "stronger-near-pole", "firm-everywhere": "total-is-all",
    "level-everywhere": "needle-stays-level", "north-end-everywhere": "north-end-always",
    "south-end-in-north": "other-end", "south-end-on-equator": "south-end-always",
    "firmer-in-north": "north-counts-more", "firmer-in-south": "south-counts-more",
}  # fmt: skip
TICKED, UNTICKED = 2, 5


@solver("dip-from-latitude")
def dip_from_latitude(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: dip or latitude, tan I = 2 tan L; the level share, 100 cos I, and where it is larger; the end that dips."""
    ask, latitude = parameters["ask"], parameters["magnetic_latitude_deg"]
    if ask == "statements":
        return to_tick(ask, (TRUE_OF_DIP, FALSE_OF_DIP), (TICKED, UNTICKED), parameters["shuffle"],
                       features={"southern": 0.0, "share": 0.0})  # fmt: skip
    if ask == "compare":
        return _compare(latitude, parameters["other_magnetic_latitude_deg"])
    if ask == "latitude":
        return _from_dip(parameters["dip_deg"], conventions)
    size = abs(latitude)
    dip = abs(dip_from_magnetic_latitude_deg(latitude))
    common: dict[str, Any] = {
        "given": {"ask": ask, "magnetic_latitude_deg": latitude},
        "quantities": {"dip_deg": dip, "size_deg": size, "home_dip_deg": abs(conventions.dip_deg)},
        "model_notes": ("real-field",),
        "verdict_figures": (_split(dip if latitude > 0 else -dip),),
        "features": {"southern": float(latitude < 0), "share": 1.0 if ask == "share" else -1.0},
    }
    if ask == "which-end":
        return _which_end(latitude, conventions)
    if ask == "dip":
        return Solution(key=whole(dip), wrong=_wrong_dips(size, dip), steps=_dip_steps(size, dip), **common)
    share = 100.0 * horizontal_share(dip)
    steps = (*_dip_steps(size, dip), Step("level-part", {"cosine": cos_deg(dip), "share": share}))
    return Solution(key=whole(share), wrong=_wrong_shares(size, dip), steps=steps, **common)


def _from_dip(dip: int, conventions: Conventions) -> Solution:
    """Ask for the size of the magnetic latitude at which a needle dips so: tan L = tan I / 2."""
    size = abs(dip)
    latitude = atan_deg(tan_deg(size) / 2.0)
    wrong = {
        "latitude-is-dip": size,
        "tangent-doubled": atan_deg(2.0 * tan_deg(size)),
        "angle-halved": size / 2.0,
        "latitude-from-pole": 90.0 - latitude,
        "dip-from-vertical": 90.0 - size,
    }
    tangents = {"tangent": tan_deg(size), "half": tan_deg(size) / 2.0}
    return Solution(
        key=whole(latitude),
        given={"ask": "latitude", "dip_deg": dip},
        wrong={name: whole(value) for name, value in wrong.items()},
        quantities={"dip_end": "south-low" if dip < 0 else "north-low", "home_dip_deg": abs(conventions.dip_deg)},
        verdict_figures=(_split(dip),),
        steps=("rule", Step("half-tangent", tangents), Step("latitude-angle", {"found_deg": latitude})),
        model_notes=("real-field",),
        features={"southern": float(dip < 0), "share": -1.0},
    )


def _split(dip_deg: float) -> FigureCall:
    """Return a needle along the field, with the field's level and upright parts."""
    return FigureCall("dip-needles", {"dip_a_deg": dip_deg, "show_parts": True})


def _wrong_dips(size: float, dip: float) -> dict[str, int]:
    wrong = {
        "dip-equals-latitude": size,
        "complement": 90.0 - dip,
        "from-the-pole": 90.0 - size,
        "halved": atan_deg(tan_deg(size) / 2.0),
    }
    if size <= 45:
        wrong["double-angle"] = 2.0 * size
    return {name: whole(value) for name, value in wrong.items()}


def _wrong_shares(size: float, dip: float) -> dict[str, int]:
    wrong = {
        "dip-equals-latitude": cos_deg(size),
        "sine-for-cosine": sin_deg(dip),
        "straight-line": 1.0 - dip / 90.0,
        "halved": cos_deg(atan_deg(tan_deg(size) / 2.0)),
    }
    if size < 45:
        wrong["double-angle"] = cos_deg(2.0 * size)
    return {name: whole(100.0 * value) for name, value in wrong.items()}


def _dip_steps(size: float, dip: float) -> tuple[Step | str, ...]:
    tangent = tan_deg(size)
    return ("rule", Step("tangent", {"tangent": tangent, "twice": 2.0 * tangent}), Step("angle", {"dip_deg": dip}))


def _which_end(latitude: int, conventions: Conventions) -> Solution:
    """Ask which end of a free needle dips; the lowest latitudes drawn stand for the magnetic equator itself."""
    at_equator = abs(latitude) < EQUATOR_BELOW_DEG
    drawn = 0 if at_equator else latitude
    key = "neither-end" if at_equator else "north-end" if drawn > 0 else "south-end"
    wrong = {"north-end-always": "north-end"} if key != "north-end" else {"other-end": "south-end"}
    wrong |= {"south-end-always": "south-end"} if at_equator else {"needle-stays-level": "neither-end"}
    return Solution(
        key=key,
        given={"ask": "which-end", "magnetic_latitude_deg": drawn},
        verdict_figures=(_split(dip_from_magnetic_latitude_deg(drawn)),),
        quantities={"home_dip_deg": abs(conventions.dip_deg)},
        options=("north-end", "south-end", "neither-end"),
        wrong=wrong,
        steps=(f"dips-{key}",),
        model_notes=("real-field",),
        scene="equator" if at_equator else "",
        features={"southern": float(drawn < 0), "share": 0.0},
    )


def _compare(first: int, second: int) -> Solution:
    """Compare two places of one total field: the one nearer to the magnetic equator has more of it level.

    Places too much alike are made mirror images of each other, so that "equally" is sometimes right.
    """
    if abs(abs(first) - abs(second)) < LEAST_APART_DEG:
        second = -first
        north, south = ("first", "second") if first > 0 else ("second", "first")
        key, wrong = "same", {"north-counts-more": north, "south-counts-more": south}
    else:
        key, other = ("first", "second") if abs(first) < abs(second) else ("second", "first")
        wrong = {"stronger-near-pole": other, "total-is-all": "same"}
    dips = [abs(dip_from_magnetic_latitude_deg(each)) for each in (first, second)]
    shares = [100.0 * horizontal_share(dip) for dip in dips]
    needles = {
        f"dip_{letter}_deg": dip_from_magnetic_latitude_deg(at)
        for letter, at in zip("ab", (first, second), strict=True)
    }
    return Solution(
        key=key,
        verdict_figures=(FigureCall("dip-needles", {**needles, "show_parts": True}),),
        given={"ask": "compare", "magnetic_latitude_deg": first, "other_magnetic_latitude_deg": second},
        quantities={"first_dip_deg": dips[0], "second_dip_deg": dips[1]}
        | {"first_share": shares[0], "second_share": shares[1]},
        options=("first", "second", "same"),
        wrong=wrong,
        steps=("level-share-counts", "both-dips", "both-shares"),
        features={"southern": float(first < 0 or second < 0), "share": 1.0},
    )
