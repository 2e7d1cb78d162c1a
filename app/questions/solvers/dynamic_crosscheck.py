"""Reading the compass together with the other instruments: what made it move, and when it may be believed."""

from collections.abc import Mapping
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import difference, sin_deg
from app.physics.card import speed_change_reading_deg
from app.physics.turning import turn_sign
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution
from app.questions.solvers.dynamic_sites import Site, site_of
from app.questions.solvers.dynamic_speed import CLEAR_DEG, pace_g
from app.questions.solvers.registry import solver
from app.questions.solvers.subsets import few_of

SPEED_CAUSES = {"speeding-up": "faster", "slowing-down": "slower"}
CAUSES = ("real-turn", "speeding-up", "slowing-down", "rough-air", "hi-fault", "object")
WELL_EAST_OR_WEST = 0.86  # the sine of 60 degrees, and a hair
TURNING = {"left": "falls", "right": "rises"}

SOUND = ("cruise", "steady-climb", "steady-descent", "settled", "chop-mean", "slow-flight", "crosswind", "climb-north")
SPOILT = {
    "gentle-bank": "gentle-bank-ok",
    "level-off": "level-only",
    "slowing": "level-only",
    "take-off": "level-only",
    "just-rolled-out": "straight-after-turn",
    "ball-out": "ball-ignored",
    "chop-glance": "one-glance",
    "phone": "object-ignored",
}
NUMBERS = {"gentle-bank": "bank_deg", "level-off": "heading_deg", "slowing": "heading_deg", "take-off": "heading_deg",
           "just-rolled-out": "seconds"}  # fmt: skip
TICKED, OFFERED_WRONG = 7, 3


@solver("what-caused-the-swing")
def what_caused_the_swing(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: the cause that was drawn first; every cue follows from it."""
    cause, heading = parameters["cause"], parameters["heading_deg"]
    site = site_of(parameters, conventions)
    if cause == "real-turn" and heading % 180 != 90:
        raise Redraw("on other headings the compass itself is in error as a turn begins")
    if cause in SPEED_CAUSES and abs(sin_deg(heading)) < WELL_EAST_OR_WEST:
        raise Redraw("the swing is clearest near east and west")
    cues = _cues(cause, heading, site, parameters)
    return Solution(
        key=cause,
        given={"heading_deg": heading, **site.given, **cues},
        figures=(FigureCall("instrument-strip", cues),),
        wrong=_wrong_causes(cause, _speed_cause(heading, site, cues["compass_trend"]), cues["asi_trend"]),
        quantities=dict(site.words),
        steps=("indicator", "needle", "airspeed", f"because-{cause}"),
        model_notes=("cross-check",),
        features={"southern": float(site.hemisphere == "south"), "indicator-at-fault": float(cause == "hi-fault"),
                  "speed-hidden": float(cues["asi_trend"] == "asi-hidden")},
    )  # fmt: skip


def _cues(cause: str, heading: int, site: Site, parameters: Mapping[str, Any]) -> dict[str, str]:
    side = parameters["turn"]
    rest = {"compass_trend": "compass-steady", "indicator_trend": "indicator-steady", "turn_trend": "needle-centred",
            "asi_trend": "asi-steady"}  # fmt: skip
    if cause == "real-turn":
        moved = {"compass_trend": f"compass-{TURNING[side]}", "indicator_trend": f"indicator-{TURNING[side]}"}
        return rest | moved | {"turn_trend": f"needle-{side}"}
    if cause == "rough-air":
        return {"compass_trend": "compass-rocks", "indicator_trend": "indicator-rocks", "turn_trend": "needle-rocks",
                "asi_trend": "asi-rocks"}  # fmt: skip
    if cause == "hi-fault":
        return rest | {"indicator_trend": f"indicator-{TURNING[side]}"}
    if cause == "object":
        return rest | {"compass_trend": f"compass-steps-{'up' if turn_sign(side) > 0 else 'down'}"}
    off = difference(speed_change_reading_deg(heading, site.dip_deg, pace_g(SPEED_CAUSES[cause])), heading)
    if abs(off) < CLEAR_DEG:
        raise Redraw("a swing this small is no fair question")
    asi = "asi-hidden" if parameters["asi_trend"] == "hidden" else f"asi-{SPEED_CAUSES[cause]}"
    return rest | {"compass_trend": f"compass-{'rises' if off > 0 else 'falls'}", "asi_trend": asi}


def _speed_cause(heading: int, site: Site, compass_trend: str) -> str:
    """Return the change of speed that would swing the compass this way here; speeding up where none would."""
    rises = compass_trend in {"compass-rises", "compass-steps-up"}
    off = difference(speed_change_reading_deg(heading, site.dip_deg, pace_g("faster")), heading)
    return "speeding-up" if abs(off) < CLEAR_DEG or (off > 0) == rises else "slowing-down"


def _wrong_causes(cause: str, by_compass: str, asi_trend: str) -> dict[str, str]:
    """Return what else may be blamed; with the airspeed covered nobody can rule a magnet out, so none is offered."""
    turn = {"hi-fault": "trust-hi-always", "rough-air": "noise-as-turn"}.get(cause, "trust-compass-now")
    wrong = {turn: "real-turn", "blames-air": "rough-air", "blames-hi": "hi-fault", "blames-object": "object"}
    if cause in SPEED_CAUSES:
        wrong["inverse-rule"] = next(other for other in SPEED_CAUSES if other != cause)
    else:
        wrong["object-unseen" if cause == "object" else "blames-speed"] = by_compass
    hidden = {"object"} if asi_trend == "asi-hidden" else set()
    return {name: value for name, value in wrong.items() if value not in {cause, *hidden}}


@solver("when-to-trust-compass")
def when_to_trust_compass(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: the moments with wings level, speed steady, ball centred, compass settled and nothing magnetic near."""
    site = site_of(parameters, conventions)
    shuffle = parameters["shuffle"]
    if parameters["ask"] == "one-moment":
        sound, spoilt = few_of(SOUND, 1, shuffle), _unlike(shuffle // len(SOUND))
        listed: dict[str, Any] = {"key": sound[0], "wrong": {SPOILT[each]: each for each in spoilt}}
    else:
        count = 2 + shuffle % 3
        sound = few_of(SOUND, count, shuffle // 3)
        spoilt = few_of(tuple(SPOILT), TICKED - count, shuffle // 5)
        listed = {"key": sound, "options": (*sound, *spoilt), "slips": _slips(sound, spoilt)}
    numbers = {NUMBERS[each]: parameters[NUMBERS[each]] for each in spoilt if each in NUMBERS}
    return Solution(
        **listed,
        given={"ask": parameters["ask"], **site.given, **numbers},
        quantities={**site.words, **{name: parameters[name] for name in set(NUMBERS.values())}},
        steps=("tilts", "settles", "disturbs"),
        model_notes=("climb",) if {"steady-climb", "steady-descent", "climb-north"} & set(sound) else ("habit",),
        features={"many-sound": float(len(sound) > 3)},
    )


def _unlike(shuffle: int) -> tuple[str, ...]:
    """Return moments each spoilt by another misconception."""
    chosen = few_of(tuple(dict.fromkeys(SPOILT.values())), OFFERED_WRONG, shuffle)
    alike = [[code for code, name in SPOILT.items() if name == misconception] for misconception in chosen]
    return tuple(codes[shuffle % len(codes)] for codes in alike)


def _slips(sound: tuple[str, ...], spoilt: tuple[str, ...]) -> dict[tuple[str, str], str]:
    climbs = {"steady-climb", "steady-descent", "climb-north"}
    left_out = {(each, "left-out"): "climb-never" if each in climbs else "over-cautious" for each in sound}
    return left_out | {(each, "chosen"): SPOILT[each] for each in spoilt}
