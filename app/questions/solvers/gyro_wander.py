"""What makes a free gyro wander and what does not, and the false pitch an attitude indicator shows as speed changes."""

from collections.abc import Mapping
from typing import Any

from app.questions.conventions import Conventions
from app.questions.model import Solution, Step
from app.questions.solvers.registry import solver
from app.questions.solvers.subsets import few_of
from app.questions.solvers.ticks import to_choose, to_tick

# Each with what is behind getting it wrong.
WANDER = {"friction": "thinks-bearings-perfect", "earth-turns": "earth-forgotten",
          "east-or-west": "meridians-forgotten", "slow-rotor": "rotor-speed-forgotten",
          "rough-air": "rough-ride-forgotten", "steep-manoeuvres": "rough-ride-forgotten"}  # fmt: skip
NO_WANDER = {"iron-near": "gyro-is-magnetic", "radio-current": "gyro-is-magnetic", "dip": "compass-error-for-gyro",
             "tilted-card": "compass-error-for-gyro", "setting-changed": "air-for-gyro", "outside-cold": "air-for-gyro",
             "magnetic-storm": "gyro-is-magnetic"}  # fmt: skip
ATTITUDE = ("shows-climb", "shows-descent", "shows-truth")
ATTITUDE_BELIEFS = {
    "faster": {"swapped": "shows-descent", "no-force": "shows-truth"},
    "slower": {"swapped": "shows-climb", "no-force": "shows-truth"},
    "steady": {"error-at-rest": "shows-climb", "descent-at-rest": "shows-descent"},
}
ATTITUDE_KEY = {"faster": "shows-climb", "slower": "shows-descent", "steady": "shows-truth"}
CASES = {
    "case-take-off": "faster", "case-full-power": "faster", "case-throttle-closed": "slower",
    "case-flaps-down": "slower", "case-cruise": "steady", "case-steady-climb": "steady",
    "case-steady-descent": "steady",
}  # fmt: skip
GROUP_OF = {"shows-climb": "too-much", "shows-descent": "too-little", "shows-truth": "as-it-is"}
CASES_SORTED = 5
TICKED, UNTICKED = 4, 3


@solver("gyro-wander")
def gyro_wander(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: what makes the reading wander, or what the attitude indicator shows in pitch."""
    ask, shuffle = parameters["ask"], parameters["shuffle"]
    if ask == "wander":
        return to_tick(ask, (WANDER, NO_WANDER), (TICKED, UNTICKED), shuffle, features={"sorting": 0.0})
    if ask == "mover":
        return to_choose(ask, (WANDER, NO_WANDER), shuffle, features={"sorting": -1.0})
    return _sorted_cases(shuffle) if ask == "attitude-sort" else _attitude(parameters["speed_change"])


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


def _sorted_cases(shuffle: int) -> Solution:
    cases = few_of(tuple(CASES), CASES_SORTED, shuffle)
    return Solution(
        key={case: GROUP_OF[ATTITUDE_KEY[CASES[case]]] for case in cases},
        given={"ask": "attitude-sort"},
        options=cases,
        slips={
            (case, GROUP_OF[shown]): belief for case in cases for belief, shown in ATTITUDE_BELIEFS[CASES[case]].items()
        },
        steps=tuple(Step(f"sorted-{change}") for change in dict.fromkeys(CASES[case] for case in cases)),
        model_notes=("small",),
        features={"sorting": 1.0},
    )
