"""Which altimeter setting Canada's regulation wants, where and when: CAR 602.35 to 602.37."""

from collections.abc import Mapping
from typing import Any

from app.questions.conventions import Conventions
from app.questions.model import NotOffered, Redraw, Solution
from app.questions.solvers.pressure_windows import FARTHEST_APART_NM, sort_moments, window
from app.questions.solvers.registry import solver

# Moment of a flight -> what to set, and the misconceptions with what they set; "sr" is the setting region, "spr" the
# standard pressure region.
MOMENTS: dict[str, tuple[str, dict[str, str]]] = {
    "sr-take-off": (
        "aerodrome", {"standard-in-setting-region": "standard", "zero-on-ground": "zero", "left-as-found": "as-found"},
    ),
    "sr-take-off-none": (
        "elevation", {"standard-in-setting-region": "standard", "zero-on-ground": "zero", "left-as-found": "as-found"},
    ),
    "sr-landing": (
        "landing-aerodrome",
        {"standard-in-setting-region": "standard", "zero-on-ground": "zero", "once-for-all": "departure",
         "stays-en-route": "last-station"},
    ),
    "spr-take-off": (
        "aerodrome", {"standard-everywhere-north": "standard", "zero-on-ground": "zero", "left-as-found": "as-found"},
    ),
    "spr-take-off-none": (
        "elevation", {"standard-everywhere-north": "standard", "zero-on-ground": "zero", "left-as-found": "as-found"},
    ),
    "spr-climb": (
        "standard-before-level",
        {"once-for-all": "departure-kept", "station-in-standard-region": "station-on-the-way",
         "standard-too-late": "standard-once-level"},
    ),
    "spr-landing": (
        "aerodrome-before-descent",
        {"standard-everywhere-north": "standard-to-ground", "aerodrome-too-late": "aerodrome-on-final",
         "station-in-standard-region": "station-to-ground"},
    ),
    "spr-hold": (
        "aerodrome-below-hold",
        {"standard-everywhere-north": "standard-to-ground", "aerodrome-too-late": "aerodrome-on-final",
         "aerodrome-too-early": "aerodrome-entering-hold"},
    ),
    "entering": (
        "standard-after-line",
        {"wrong-side": "standard-before-line", "station-in-standard-region": "station-after-line",
         "once-for-all": "departure-kept"},
    ),
    "climbing-in": (
        "standard-after-line",
        {"wrong-side": "standard-before-line", "station-in-standard-region": "station-after-line",
         "once-for-all": "departure-kept"},
    ),
    "leaving": (
        "station-before-line",
        {"wrong-side": "station-behind-line", "standard-in-setting-region": "standard-until-descent",
         "destination-early": "destination-before-line"},
    ),
    "descending-out": (
        "station-before-line",
        {"wrong-side": "station-behind-line", "standard-in-setting-region": "standard-until-descent",
         "destination-early": "destination-before-line"},
    ),
}  # fmt: skip
# Moments only one of the two airspaces knows from its own ground: at home they are asked more often than the other's.
OWN = {"ca-south": "sr-", "ca-north": "spr-"}
OTHERS_KEPT = 4  # in ten


@solver("altimeter-setting-region")
def altimeter_setting_region(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: the setting, as words or as a number, and where it matters the moment, that CAR 602.35 to 602.37 want."""
    if not conventions.region.startswith("ca-"):
        raise NotOffered("", "not-offered-other-rules")
    if parameters["ask"] == "en-route":
        return _en_route(parameters["distance_nm"])
    if parameters["ask"] == "window":
        return window(parameters)
    if parameters["ask"] == "sort":
        return sort_moments(parameters["shuffle"])
    moment = parameters["flight"]
    in_one_region = moment.startswith(("sr-", "spr-"))
    if in_one_region and not moment.startswith(OWN[conventions.region]) and parameters["shuffle"] % 10 >= OTHERS_KEPT:
        raise Redraw("the other region's ground is asked less often here")
    key, wrong = MOMENTS[moment]
    return Solution(
        key=key,
        given={"ask": "moment", "flight": moment},
        wrong=dict(wrong),
        steps=(f"where-{moment}", f"so-{key}"),
        model_notes=("current-text",),
        features={"boundary": float(key.endswith("-line"))},
    )


def _en_route(apart_nm: int) -> Solution:
    far = apart_nm > FARTHEST_APART_NM
    key, other = ("near-route", "along-route") if far else ("along-route", "near-route")
    return Solution(
        key=key,
        given={"ask": "en-route", "distance_nm": apart_nm},
        wrong={
            "gap-misjudged": other,
            "once-for-all": "departure",
            "destination-early": "destination",
            "standard-in-setting-region": "standard",
        },
        steps=("where-en-route", "far-apart" if far else "near-enough"),
        model_notes=("current-text",),
        features={"boundary": 0.0},
    )
