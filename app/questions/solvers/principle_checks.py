"""Whether a compass may be taken for the flight, and what moved it when something lies or runs beside it."""

from collections.abc import Mapping
from typing import Any

from app.physics.angles import difference, shown, unwrap, whole
from app.physics.headings import compass_from, magnetic_from_compass_heading, true_from_magnetic
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution, Step, Wrong
from app.questions.solvers.datum_conversions import variation_fits
from app.questions.solvers.registry import solver
from app.questions.solvers.subsets import few_of

LEAST_DECOY_DEG = 5
CLEAR_INSIDE_DEG, CLEAR_OUTSIDE_DEG = 2, 3  # how far the error keeps from the limit
OUTSIDE_SPREAD_DEG = 8
# What is seen, and the misconception that excuses it. A healthy compass is blamed by one and the same.
EXCUSES = {
    "bubble": "bubble-ok",
    "cloudy": "good-enough",
    "cracked": "good-enough",
    "line-gone": "good-enough",
    "sticks": "tap-frees",
    "no-card": "card-dispensable",
    "old-card": "card-dispensable",
    "lamp-night": "torch-does",
}
HEALTHY = ("lamp-day", "tilts", "unset-indicator")
# In a list nothing but the line itself can say why somebody lets it pass: the excuse stands in it.
WITH_EXCUSE = {"sticks": "sticks-till-tapped", "lamp-night": "lamp-night-torch"}
OLD_CARD = "old-card"  # only Canada's interval is known here
DEFECTS_LISTED, HEALTHY_LISTED = (3, 4), 2
# The key of each thing or load beside the compass.
ACTIONS = {
    "headset": "move-away",
    "phone": "move-away",
    "tablet": "move-away",
    "clipboard": "move-away",
    "lamp": "switch-off",
    "pitot-heat": "switch-off",
    "radio": "switch-off",
    "radio-with-row": "use-row",
    "lamp-with-row": "use-row",
}


@solver("preflight-compass-check")
def preflight_compass_check(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: serviceable or not, from what is seen; or from the error left on a known heading, which is asked too."""
    if parameters["ask"] == "defect":
        return _defect(parameters["defect"], conventions)
    if parameters["ask"] == "walk-round":
        return _walk_round(conventions, parameters["shuffle"])
    magnetic, d, limit = parameters["magnetic_deg"], parameters["deviation_deg"], conventions.check_limit_deg
    residual = _residual_deg(parameters, conventions)
    v, at_home = _variation(parameters, conventions)
    compass = shown(magnetic + residual - d)
    wrong = _misjudged(magnetic, compass, (v, d), conventions)
    key = _judged(residual, limit)
    in_boxes = parameters["ask"] == "taxi-boxes"
    shape = _boxed if in_boxes else tuple
    return Solution(
        key=shape(key),
        given={
            "ask": parameters["ask"], "magnetic_deg": magnetic, "steer_deg": shown(compass_from(magnetic, d)),
            "compass_deg": compass, "variation_deg": v, "limit_deg": limit,
        },
        quantities={
            "deviation_deg": d, "card_limit_deg": conventions.card_limit_deg,
            "where": "where-home" if at_home else "where-field",
        },
        wrong={name: Wrong(shape(value), {"error_deg": value[1]}) for name, value in wrong.items()},
        steps=_taxi_steps(magnetic, compass, d, limit),
        follow=(lambda values: {"verdict": _judged(values["off_deg"], limit)[0]}) if in_boxes else None,
        features={"card-decides": 1.0 if key[0] != wrong["ignores-card"][0] else -1.0},
    )  # fmt: skip


def _residual_deg(parameters: Mapping[str, Any], conventions: Conventions) -> int:
    """Return the error the correction leaves: well inside the limit or well outside, as the verdict wants.

    The aircraft's uncorrected error stays within what a correction card may hold where the compass is accepted.
    """
    drawn: int = parameters["residual_deg"]
    limit = conventions.check_limit_deg
    if parameters["serviceable"]:
        size = (abs(drawn) - 1) % (limit - CLEAR_INSIDE_DEG + 1)
    else:
        size = limit + CLEAR_OUTSIDE_DEG + abs(drawn) % OUTSIDE_SPREAD_DEG
    residual = size if drawn > 0 else -size
    if parameters["serviceable"] and abs(residual - parameters["deviation_deg"]) > conventions.card_limit_deg:
        raise Redraw("so large an uncorrected error would itself be doubtful")
    return residual


def _misjudged(
    magnetic: int, compass: int, errors: tuple[int, int], conventions: Conventions
) -> dict[str, tuple[str, int]]:
    """Return the error and verdict each misconception comes to."""
    v, d = errors
    limit = conventions.check_limit_deg
    corrected = magnetic_from_compass_heading(compass, d)
    wrong = {
        "ignores-card": _judged(difference(compass, magnetic), limit),
        "card-wrong-way": _judged(difference(compass_from(compass, d), magnetic), limit),
        "uses-variation": _judged(difference(corrected, true_from_magnetic(magnetic, v)), limit),
    }
    right = whole(abs(difference(corrected, magnetic)))
    if limit < right <= conventions.card_limit_deg:
        wrong["other-limit"] = ("serviceable", right)
    return wrong


def _variation(parameters: Mapping[str, Any], conventions: Conventions) -> tuple[int, bool]:
    """Return the variation shown beside what is needed, and whether it is the home place's own."""
    own = whole(conventions.variation_deg)
    at_home = bool(parameters["at_home"]) and variation_fits(conventions) and abs(own) >= LEAST_DECOY_DEG
    return own if at_home else parameters["variation_deg"], at_home


def _judged(error_deg: float, limit_deg: int) -> tuple[str, int]:
    return "serviceable" if abs(error_deg) <= limit_deg else "unserviceable", whole(abs(error_deg))


def _boxed(value: tuple[str, int]) -> dict[str, Any]:
    return {"verdict": value[0], "off_deg": value[1]}


def _taxi_steps(magnetic: int, compass: int, d: int, limit: int) -> tuple[Step | str, ...]:
    counted = whole(unwrap(compass, magnetic))
    corrected = counted + d
    residual = corrected - magnetic
    return (
        Step("deviation", {"counted_steer_deg": magnetic - d, "d_deg": d}),
        Step("corrected-east" if d > 0 else "corrected-west", {"counted_deg": counted, "size_deg": abs(d)}
             | {"counted_corrected_deg": corrected}),
        Step("compared", {"counted_corrected_deg": corrected, "residual_deg": residual}),
        "within" if abs(residual) <= limit else "beyond",
    )  # fmt: skip


def _defect(defect: str, conventions: Conventions) -> Solution:
    """Judge one thing seen. Which excuses stand beside the key is drawn; the same two stand-ins are always at hand."""
    if defect == OLD_CARD and not conventions.region.startswith("ca-"):
        raise Redraw("only Canada's interval is known here")
    healthy = defect in HEALTHY
    wrong = {EXCUSES[defect]: f"excuse-{defect}"} if not healthy else {"healthy-as-defect": f"accuse-{defect}"}
    return Solution(
        key=f"accept-{defect}" if healthy else f"refuse-{defect}",
        given={"ask": "defect", "defect": defect},
        wrong=wrong | {"gps-replaces": "gps", "indicator-replaces": "indicator", "own-repair": "own-repair"},
        steps=(f"why-{defect}", "serviceable-then" if healthy else "unserviceable-then"),
        features={"card-decides": 0.0},
    )


def _walk_round(conventions: Conventions, shuffle: int) -> Solution:
    """Ask which of several things, each seen on another aircraft, make its compass unserviceable."""
    in_canada = conventions.region.startswith("ca-")
    known = tuple(defect for defect in EXCUSES if in_canada or defect != OLD_CARD)
    count, rest = DEFECTS_LISTED[shuffle % 2], shuffle // 2
    defects, others = few_of(known, count, rest), few_of(HEALTHY, HEALTHY_LISTED, rest // 7)
    lines = {WITH_EXCUSE.get(each, each): EXCUSES[each] for each in defects}
    return Solution(
        key=tuple(lines),
        given={"ask": "walk-round"},
        options=(*lines, *others),
        slips={(line, "left-out"): excuse for line, excuse in lines.items()}
        | {(each, "chosen"): "healthy-as-defect" for each in others},
        steps=tuple(f"why-{each}" for each in (*defects, *others)),
        features={"card-decides": 0.0},
    )


@solver("object-near-compass")
def object_near_compass(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: the change of deviation, D after less D before = reading before less reading after; or what to do."""
    thing, before, change = parameters["object"], parameters["before_deg"], parameters["shift_deg"]
    if parameters["across_north"]:
        past = 1 + before % (abs(change) - 1)  # so far past north the reading stands, or falls short of it
        before = past if change > 0 else shown(1 - past)
    after = shown(before - change)
    given = {"ask": parameters["ask"], "object": thing, "before_deg": before, "after_deg": after}
    if parameters["ask"] == "action":
        wrong = {name: name for name in ("recalibrate", "gps", "variation", "steer-back")}
        action = ACTIONS[thing]
        return Solution(
            key=action, given=given, wrong=wrong, steps=("cause", f"so-{action}"), quantities={"change_deg": change},
            features={"crosses-north": float(abs(before - after) > 180)},
        )  # fmt: skip
    if thing.endswith("-with-row"):
        raise Redraw("with a row for it, the change stands on the correction card")
    d = parameters["deviation_deg"]
    raw = before - after
    wrong_values: dict[str, Any] = {"sign": -change, "adds-card": change + d}
    if abs(raw) > 180:
        wrong_values["long-way"] = Wrong(raw, option=False)
    return Solution(
        key=change,
        given={**given, "deviation_deg": d},
        wrong=wrong_values,
        quantities={"change_deg": change},
        steps=(
            Step("difference", {"upper": whole(unwrap(before, after)) if raw < -180 else before,
                                "lower": whole(unwrap(after, before)) if raw > 180 else after}),
            "letter-east" if change > 0 else "letter-west",
            "cause",
        ),
        features={"crosses-north": float(abs(raw) > 180)},
    )  # fmt: skip
