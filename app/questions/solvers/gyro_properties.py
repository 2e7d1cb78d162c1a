"""Rigidity and precession: what gyro instruments rest on, what makes them wander, how they err."""

from collections.abc import Mapping, Sequence
from math import comb
from typing import Any

from app.questions.conventions import Conventions
from app.questions.model import Solution, Step
from app.questions.solvers.registry import solver
from app.questions.solvers.subsets import few_of

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
TICKED, UNTICKED = 3, 4
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
# What makes a free heading indicator wander and what does not, each with what is behind getting it wrong.
WANDER = {"friction": "thinks-bearings-perfect", "earth-turns": "earth-forgotten",
          "east-or-west": "meridians-forgotten", "slow-rotor": "rotor-speed-forgotten",
          "rough-air": "rough-ride-forgotten", "steep-manoeuvres": "rough-ride-forgotten"}  # fmt: skip
NO_WANDER = {"iron-near": "gyro-is-magnetic", "radio-current": "gyro-is-magnetic", "dip": "compass-error-for-gyro",
             "tilted-card": "compass-error-for-gyro", "setting-changed": "air-for-gyro", "outside-cold": "air-for-gyro",
             "magnetic-storm": "gyro-is-magnetic"}  # fmt: skip
# What makes a spinning rotor hold its direction harder, and what does not.
RIGID = {"faster-spin": "spin-forgotten", "heavier-rim": "mass-forgotten", "wider-rim": "mass-forgotten"}
NOT_RIGID = {"stiffer-bearings": "rigid-means-stiff", "heavier-case": "rigid-means-stiff",
             "stronger-magnet": "gyro-is-magnetic", "colder-air": "rigid-by-density",
             "greater-height": "rigid-by-height", "faster-flight": "rigid-by-height",
             "northern-place": "gyro-is-magnetic", "heading-north": "gyro-is-magnetic"}  # fmt: skip
ROUND_THE_CLOCK = ("clock-12", "clock-3", "clock-6", "clock-9")
ATTITUDE = ("shows-climb", "shows-descent", "shows-truth")
ATTITUDE_BELIEFS = {
    "faster": {"swapped": "shows-descent", "no-force": "shows-truth"},
    "slower": {"swapped": "shows-climb", "no-force": "shows-truth"},
    "steady": {"error-at-rest": "shows-climb", "descent-at-rest": "shows-descent"},
}
ATTITUDE_KEY = {"faster": "shows-climb", "slower": "shows-descent", "steady": "shows-truth"}


@solver("gyro-properties")
def gyro_properties(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: the principle of each instrument, what wanders or holds, where a push acts, or what the horizon shows."""
    ask, shuffle = parameters["ask"], parameters["shuffle"]
    if ask == "principle":
        return _principle(shuffle)
    if ask == "wander":
        return _several(ask, (WANDER, NO_WANDER), shuffle)
    if ask == "rigidity":
        return _several(ask, (RIGID, NOT_RIGID), shuffle)
    if ask == "reaction":
        return _reaction(parameters["push"], parameters["spin"])
    return _attitude(parameters["speed_change"])


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


def _several(ask: str, lists: Sequence[Mapping[str, str]], shuffle: int) -> Solution:
    """Ask for three right things, or two where there are only three in all, among four wrong ones."""
    right_list, wrong_list = lists
    count = min(len(right_list) - 1, TICKED)
    right = few_of(tuple(right_list), count, shuffle)
    wrong = few_of(tuple(wrong_list), UNTICKED, shuffle // comb(len(right_list), count))
    return Solution(
        key=right,
        given={"ask": ask},
        options=(*right, *wrong),
        slips={
            **{(item, "left-out"): right_list[item] for item in right},
            **{(item, "chosen"): wrong_list[item] for item in wrong},
        },
        steps=tuple(Step("because", {"why": f"why-{item}"}) for item in right),
        features={"sorting": 0.0},
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


def _attitude(speed_change: str) -> Solution:
    return Solution(
        key=ATTITUDE_KEY[speed_change],
        given={"ask": "attitude", "speed_change": speed_change},
        wrong=ATTITUDE_BELIEFS[speed_change],
        options=ATTITUDE,
        steps=(f"horizon-{speed_change}",),
        model_notes=("small",),
        features={"sorting": -1.0},
    )
