"""Keys of the gyro panel, its turn instrument and its properties worked again from the printed draw alone.

Sources: FAA-H-8083-25C ch. 8 (what drives and what carries each instrument; slip and skid; 4.5 to 5.5 inches
of suction, from memory); FAA-H-8083-15B ch. 5 and 7 (an attitude indicator while the speed changes, from memory; 3
degrees a second at the mark). Precession is worked by a cross product.
"""

from collections.abc import Callable
from typing import Any

Draw = dict[str, Any]

LIVES_ON = {
    "classic": {"attitude-indicator": "suction", "heading-indicator": "suction", "turn-instrument": "electrical"},
    "electric-horizon": {
        "attitude-indicator": "electrical", "heading-indicator": "suction", "turn-instrument": "electrical",
    },
    "all-suction": {"attitude-indicator": "suction", "heading-indicator": "suction", "turn-instrument": "suction"},
}  # fmt: skip
OTHERS = {
    "radio": "electrical",
    "transponder": "electrical",
    "landing-light": "electrical",
    "pitot-heater": "electrical",
    "compass-lamp": "electrical",
    "fuel-gauges": "electrical",
    "electric-flaps": "electrical",
    "magneto-ignition": "the engine",
    "airspeed-indicator": "pitot",
    "altimeter": "static",
    "vertical-speed": "static",
    "compass": "the earth",
}


# Statements a pilot would sign (FAA-H-8083-25C ch. 8; that a slowing gyro is covered: common practice, no source).
SO_OF_FEEDS = {
    "below-arc-is-failure", "in-arc-is-right", "without-drive-covered", "current-gone-suction-drives",
    "turn-goes-with-its-feed", "electric-horizon-stays",
}  # fmt: skip
SO_OF_TURNS = {
    "inside-is-slip", "outside-is-skid", "pedal-of-ball", "centred-no-pedal", "instrument-side-is-turn",
    "needle-turn-alone", "coordinator-roll-too",
}  # fmt: skip


def suction_failure(draw: Draw) -> Any:
    given = draw["parameters"]
    if given["ask"] == "statements":
        return right_of(draw, SO_OF_FEEDS)
    feeds = OTHERS | LIVES_ON[given["panel"]]
    failed = given.get("failure") or ("none" if 4.5 <= given["suction_inhg"] <= 5.5 else "suction")
    dead = [item for item, feed in feeds.items() if feed == failed]
    if given["ask"] == "lost":
        return [item for item in draw["options"] if item in dead]
    if given["ask"] == "signs":
        first = {"suction": "gauge-then-lean", "electrical": "discharge", "pitot": "speed-alone"}
        return first[given["failure"]]
    if "heading-indicator" not in dead:
        return "indicator-as-before"
    return "compass-alone" if "turn-instrument" in dead else "compass-and-clock"


def turn_and_ball(draw: Draw) -> Any:
    given = draw["parameters"]
    if given["ask"] == "statements":
        return right_of(draw, SO_OF_TURNS)
    if given["ask"] == "meaning":
        return {"turn-needle": "turn-only", "turn-coordinator": "turn-and-roll"}[given["instrument"]]
    ball = given["ball"][len("ball-") :]
    if given["ask"] == "pedal":
        return {"left": "left-pedal", "centre": "no-pedal", "right": "right-pedal"}[ball]
    if given["ask"] == "state":
        side = given["turn"]
        inside, outside = (side, "left" if side == "right" else "right")
        return f"{side}-" + {inside: "slip", outside: "skid", "centre": "balanced"}[ball]
    degrees_a_second = {"half-way": 1.5, "on-the-mark": 3, "past-the-mark": 4.5}[given["mark"]]
    return given["seconds"] * degrees_a_second * (1 if given["turn"] == "right" else -1)


RESTS_ON = {
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
MOVES_A_GYRO = {"friction", "earth-turns", "east-or-west", "slow-rotor", "rough-air", "steep-manoeuvres"}
HOLDS_A_GYRO = {"faster-spin", "heavier-rim", "wider-rim"}
ON_THE_RIM = {"clock-12": (0, 1), "clock-3": (1, 0), "clock-6": (0, -1), "clock-9": (-1, 0)}


def gives_way(push: str, spin: str) -> str:
    """Point of the rim that recedes: x right, y up, z toward the viewer; the torque turns the spin's axis."""
    x, y = ON_THE_RIM[push]
    torque = (-y, x, 0)  # (x, y, 0) cross (0, 0, -1)
    axis = (torque[0], torque[1], -100 if spin == "clockwise" else 100)
    # A rim point (px, py, pz) stays square to the axis: pz = -(px ax + py ay) / az; the lowest pz recedes most.
    return min(ON_THE_RIM, key=lambda at: -(ON_THE_RIM[at][0] * axis[0] + ON_THE_RIM[at][1] * axis[1]) / axis[2])


def gyro_properties(draw: Draw) -> Any:
    given = draw["parameters"]
    if given["ask"] == "principle":
        return {item: RESTS_ON[item] for item in draw["options"]}
    if given["ask"] == "rests-on":
        return f"by-{RESTS_ON[given['object']]}"
    if given["ask"] in {"rigidity", "harder"}:
        return right_of(draw, HOLDS_A_GYRO)
    if given["ask"] == "reaction":
        return gives_way(given["push"], given["spin"])
    quarter = 3 if given["spin"] == "clockwise" else -3  # as gives_way works it at four hours of the clock
    assert gives_way("clock-12", given["spin"]) == ("clock-3" if quarter == 3 else "clock-9")
    return (given["push_h"] + quarter - 1) % 12 + 1


def right_of(draw: Draw, true: set[str]) -> Any:
    """Return everything to tick, or the one thing to choose."""
    found = [item for item in draw["options"] if item in true]
    return found if draw["form"] == "several" else found[0]


SPEED_RISES, SPEED_FALLS = {"case-take-off", "case-full-power"}, {"case-throttle-closed", "case-flaps-down"}


def gyro_wander(draw: Draw) -> Any:
    given = draw["parameters"]
    if given["ask"] in {"wander", "mover"}:
        return right_of(draw, MOVES_A_GYRO)
    if given["ask"] == "attitude-sort":
        return {
            case: "too-much" if case in SPEED_RISES else "too-little" if case in SPEED_FALLS else "as-it-is"
            for case in draw["options"]
        }
    return {"faster": "shows-climb", "slower": "shows-descent", "steady": "shows-truth"}[given["speed_change"]]


RECOMPUTE: dict[str, Callable[[Draw], Any]] = {
    "suction-failure": suction_failure,
    "slip-ball-and-turn-needle": turn_and_ball,
    "gyro-properties": gyro_properties,
    "gyro-wander": gyro_wander,
}
