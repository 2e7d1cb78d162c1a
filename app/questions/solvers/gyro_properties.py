"""Rigidity and precession: what gyro instruments rest on, what holds a rotor, where a push shows."""

from collections.abc import Mapping
from typing import Any

from app.questions.conventions import Conventions
from app.questions.model import Solution, Step
from app.questions.solvers.registry import solver
from app.questions.solvers.subsets import few_of
from app.questions.solvers.ticks import to_choose, to_tick

PRINCIPLES = {
    "attitude-indicator": "rigidity",
    "heading-indicator": "rigidity",
    "turn-coordinator": "precession",
    "turn-needle": "precession",
    "compass": "no-gyro",
    "slip-ball": "no-gyro",
    "airspeed-indicator": "no-gyro",
    "altimeter": "no-gyro",
    "vertical-speed": "no-gyro",
}
SORTED = 5
TICKED, UNTICKED = 2, 4
HOURS_IN_A_QUARTER = 3
PRINCIPLE_SLIPS = {
    ("attitude-indicator", "precession"): "error-for-principle",
    ("heading-indicator", "precession"): "error-for-principle",
    ("heading-indicator", "no-gyro"): "indicator-seeks-north",
    ("turn-coordinator", "rigidity"): "turn-held-rigid",
    ("turn-needle", "rigidity"): "turn-held-rigid",
    ("turn-coordinator", "no-gyro"): "turn-by-weight",
    ("turn-needle", "no-gyro"): "turn-by-weight",
    ("slip-ball", "precession"): "ball-is-gyro",
    ("slip-ball", "rigidity"): "ball-is-gyro",
    **{
        (item, group): "air-is-gyro"
        for item in ("airspeed-indicator", "altimeter", "vertical-speed")
        for group in ("rigidity", "precession")
    },
    ("compass", "rigidity"): "compass-is-gyro",
    ("compass", "precession"): "compass-is-gyro",
}
# What makes a spinning rotor hold its direction harder, and what does not.
RIGID = {"faster-spin": "spin-forgotten", "heavier-rim": "mass-forgotten", "wider-rim": "mass-forgotten"}
NOT_RIGID = {"stiffer-bearings": "rigid-means-stiff", "heavier-case": "rigid-means-stiff",
             "stronger-magnet": "gyro-is-magnetic", "colder-air": "rigid-by-density",
             "greater-height": "rigid-by-height", "faster-flight": "rigid-by-height",
             "northern-place": "gyro-is-magnetic", "heading-north": "gyro-is-magnetic"}  # fmt: skip
ROUND_THE_CLOCK = ("clock-12", "clock-3", "clock-6", "clock-9")


@solver("gyro-properties")
def gyro_properties(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: the principle of each instrument, what holds a rotor, or where a push acts."""
    ask, shuffle = parameters["ask"], parameters["shuffle"]
    if ask == "principle":
        return _principle(shuffle)
    if ask == "rests-on":
        return _rests_on(parameters["object"])
    if ask == "rigidity":
        return to_tick(ask, (RIGID, NOT_RIGID), (TICKED, UNTICKED), shuffle, features={"sorting": 0.0})
    if ask == "harder":
        return to_choose(ask, (RIGID, NOT_RIGID), shuffle, features={"sorting": -1.0})
    if ask == "push-hour":
        return _push_hour(parameters["push_h"], parameters["spin"])
    return _reaction(parameters["push"], parameters["spin"])


def _principle(shuffle: int) -> Solution:
    items = few_of(tuple(PRINCIPLES), SORTED, shuffle)
    return Solution(
        key={item: PRINCIPLES[item] for item in items},
        given={"ask": "principle"},
        options=items,
        slips={place: name for place, name in PRINCIPLE_SLIPS.items() if place[0] in items},
        steps=tuple(Step("rests-on", {"why": f"why-{item}"}) for item in items),
        features={"sorting": 1.0},
    )


def _rests_on(instrument: str) -> Solution:
    return Solution(
        key=f"by-{PRINCIPLES[instrument]}",
        given={"ask": "rests-on", "object": instrument},
        wrong={name: f"by-{group}" for (item, group), name in PRINCIPLE_SLIPS.items() if item == instrument},
        options=("by-rigidity", "by-precession", "by-no-gyro"),
        steps=(Step("rests-on", {"why": f"why-{instrument}"}),),
        features={"sorting": -1.0},
    )


def _reaction(push: str, spin: str) -> Solution:
    at = ROUND_THE_CLOCK.index(push)
    on = 1 if spin == "clockwise" else -1
    return Solution(
        key=ROUND_THE_CLOCK[(at + on) % 4],
        given={"ask": "reaction", "push": push, "spin": spin},
        wrong={
            "at-the-push": push,
            "far-side": ROUND_THE_CLOCK[(at + 2) % 4],
            "against-the-spin": ROUND_THE_CLOCK[(at - on) % 4],
        },
        options=ROUND_THE_CLOCK,
        steps=("quarter-turn", "with-the-spin"),
        features={"sorting": -1.0},
    )


def _push_hour(hour: int, spin: str) -> Solution:
    on = HOURS_IN_A_QUARTER if spin == "clockwise" else -HOURS_IN_A_QUARTER
    return Solution(
        key=_hour(hour + on),
        given={"ask": "push-hour", "push_h": hour, "spin": spin},
        wrong={"at-the-push": hour, "far-side": _hour(hour + 2 * on), "against-the-spin": _hour(hour - on)},
        steps=("quarter-turn", "hour-with-the-spin"),
        features={"sorting": -1.0},
    )


def _hour(hour: int) -> int:
    return (hour - 1) % 12 + 1
