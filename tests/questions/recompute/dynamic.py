"""Keys of the topic "dynamic" worked again from the printed draw: vectors for what the card does, sums for rules.

The card hangs square to the apparent vertical n = (g - a) / |g - a|. With the lubber line f brought into its plane and
r = n x f, it reads atan2(-B . r, B . f), B the field. North, east, down; degrees; right, faster and down positive.
"""

from collections.abc import Mapping
from math import atan2, cos, degrees, floor, radians, sin, sqrt, tan
from typing import Any

Vector = tuple[float, float, float]
Draw = Mapping[str, Any]

SEEN_DEG = 1.0  # what is less no pilot sees: the geometry of a tilted card leaves up to 1 degree where nothing dips
SEEN_IN_A_TURN_DEG = 2.0
BRISK_G = 0.1


def card_reading_deg(heading_deg: float, dip_deg: float, bank_deg: float = 0.0, forward_g: float = 0.0) -> float:
    h, dip = radians(heading_deg), radians(dip_deg)
    ahead, right = (cos(h), sin(h), 0.0), (-sin(h), cos(h), 0.0)
    down = _unit(_sum((0.0, 0.0, 1.0), _times(ahead, -forward_g), _times(right, -tan(radians(bank_deg)))))
    lubber = _unit(_sum(ahead, _times(down, -_dot(ahead, down))))
    across = (
        down[1] * lubber[2] - down[2] * lubber[1],
        down[2] * lubber[0] - down[0] * lubber[2],
        down[0] * lubber[1] - down[1] * lubber[0],
    )
    field = (cos(dip), 0.0, sin(dip))
    return degrees(atan2(-_dot(field, across), _dot(field, lubber)))


def off_deg(heading_deg: float, dip_deg: float, bank_deg: float = 0.0, forward_g: float = 0.0) -> float:
    """How far the card reads clockwise of the real heading, in -180..180."""
    return (card_reading_deg(heading_deg, dip_deg, bank_deg, forward_g) - heading_deg + 540.0) % 360.0 - 180.0


def _dot(a: Vector, b: Vector) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _times(a: Vector, factor: float) -> Vector:
    return a[0] * factor, a[1] * factor, a[2] * factor


def _sum(*vectors: Vector) -> Vector:
    return sum(v[0] for v in vectors), sum(v[1] for v in vectors), sum(v[2] for v in vectors)


def _unit(a: Vector) -> Vector:
    return _times(a, 1.0 / sqrt(_dot(a, a)))


def speed_swing(heading_deg: float, dip_deg: float, speed_change: str) -> str:
    """Toward which pole the card swings, and whether its numbers rise or fall; "none" where it stays."""
    off = off_deg(heading_deg, dip_deg, forward_g={"faster": BRISK_G, "slower": -BRISK_G}[speed_change])
    if abs(off) < SEEN_DEG:
        return "none"
    nearer_north = cos(radians(heading_deg + off)) > cos(radians(heading_deg))
    return f"{'north' if nearer_north else 'south'}-{'rises' if off > 0 else 'falls'}"


def accel_indication(draw: Draw) -> Any:
    given = draw["parameters"]
    if given["ask"] == "sort":
        headings = {code: int(code.removeprefix("on-")) for code in draw["options"]}
        return {code: speed_swing(h, given["dip_deg"], given["speed_change"]) for code, h in headings.items()}
    return speed_swing(given["heading_deg"], given["dip_deg"], given["speed_change"])


def turn_sense(start_deg: float, dip_deg: float, bank_deg: float) -> str:
    """Behind or ahead of the real heading, in the direction of the turn, or in step; bank right positive."""
    ahead = off_deg(start_deg, dip_deg, bank_deg=bank_deg) * (1 if bank_deg > 0 else -1)
    if abs(ahead) < SEEN_IN_A_TURN_DEG:
        return "agrees"
    return "ahead" if ahead > 0 else "behind"


def turn_start_indication(draw: Draw) -> Any:
    given = draw["parameters"]
    if given["ask"] == "sort":
        headings = {code: int(code.removeprefix("from-")) for code in draw["options"]}
        return {code: turn_sense(heading, given["dip_deg"], given["bank_deg"]) for code, heading in headings.items()}
    left, right = (turn_sense(given["start_deg"], given["dip_deg"], side * given["bank_deg"]) for side in (-1, 1))
    if given["ask"] == "one-turn":
        return left if given["turn"] == "left" else right
    return f"{right}-both" if left == right else f"behind-{'right' if right == 'behind' else 'left'}"


def rollout_north_south(draw: Draw) -> int | str:
    given, rules = draw["parameters"], draw["conventions"]
    if given["ask"] == "not-usable":
        return "settle-first"
    side = 1 if given["turn"] == "right" else -1
    if given["ask"] == "by-clock":
        return int(side * (given["target_deg"] - given["start_deg"]) % 360 / given["rate_deg_s"])
    dips_to = 360 if given["dip_deg"] > 0 else 180
    if rules["rollout_rule"] == "latitude":
        latitude, lead = abs(given["latitude_deg"]), given["bank_deg"] / 2
        short_by = latitude + lead if given["target_deg"] == dips_to else -(latitude - lead)
    else:
        short_by = given["allowance_deg"] if given["target_deg"] == dips_to else -given["allowance_deg"]
    return int((given["target_deg"] - side * short_by) % 360) or 360


def tapered(draw: Draw, heading_deg: float) -> float:
    """Degrees short of the heading, in the direction of the turn, by the even taper; negative past it."""
    given = draw["parameters"]
    from_north = abs((heading_deg + 180) % 360 - 180)
    to_pole = from_north if given["dip_deg"] > 0 else 180 - from_north
    return float(given["allowance_deg"]) * (1 - to_pole / 90)


def whole_heading(deg: float) -> int:
    return floor(round(deg, 6) + 0.5) % 360 or 360


def rollout_any_heading(draw: Draw) -> int:
    given = draw["parameters"]
    side = 1 if given["turn"] == "right" else -1
    if given["ask"] == "east-or-west":
        return whole_heading(given["target_deg"] - side * given["bank_deg"] / 2)
    return whole_heading(given["target_deg"] - side * tapered(draw, given["target_deg"]))


def reading_while_turning(draw: Draw) -> int:
    given = draw["parameters"]
    side = 1 if given["turn"] == "right" else -1
    return whole_heading(given["heading_deg"] - side * tapered(draw, given["heading_deg"]))


SPEEDING_UP = {"take-off-roll", "level-off-climb", "go-around"}
SLOWING_DOWN = {"level-off-descent", "flap-down", "power-off", "approach-slowing"}


def phase_to_error(draw: Draw) -> Any:
    given = draw["parameters"]
    if given["ask"] == "sort":
        return {phase: swing_in(phase, given) for phase in draw["options"]}
    return swing_in(given["phase"], given)


def swing_in(phase: str, given: Draw) -> str:
    if phase not in SPEEDING_UP | SLOWING_DOWN:
        return "none"
    change = "faster" if phase in SPEEDING_UP else "slower"
    return speed_swing(given["heading_deg"], given["dip_deg"], change).split("-")[0]


LEVEL_DEG = 3
STAYS_TRUE = {"variation-rule", "deviation-rule", "axis-speed", "side-on-start", "steady-flight", "poles-opposite"}


def off_north(dip_deg: float) -> str:
    """Return what a gentle turn to the right off north shows: the sign of what the card is off, if it is a degree."""
    off = off_deg(0, dip_deg, bank_deg=10)
    return "reads-right" if abs(off) < 1 else "reads-ahead" if off > 0 else "reads-behind"


def hemisphere_flip(draw: Draw) -> Any:
    given = draw["parameters"]
    if given["ask"] == "still-holds":
        return [code for code in draw["options"] if code in STAYS_TRUE]
    if given["ask"] == "places":
        return {place: off_north(given[f"dip_{place[-1]}_deg"]) for place in draw["options"]}
    if abs(given["dip_deg"]) <= LEVEL_DEG:
        return "neither"
    ahead = off_deg(given["start_deg"], given["dip_deg"], bank_deg=10) > 0
    pole = speed_swing(given["heading_deg"], given["dip_deg"], given["speed_change"]).split("-")[0]
    return f"{'ahead' if ahead else 'behind'}-{pole}"


def dip_compare_size(draw: Draw) -> str | list[str]:
    given = draw["parameters"]
    if given["ask"] == "speeds":
        speeds = {f"turn-{each}": given[f"tas_{each}_kt"] for each in "abc"}
        return max(speeds, key=lambda turn: error_on_north(given["dip_deg"], rate_one_bank_deg(speeds[turn])))
    errors = {f"place-{each}": error_on_north(given[f"dip_{each}_deg"], 10) for each in "abc"}
    order = sorted(errors, key=lambda place: -errors[place])
    return order if given["ask"] == "order" else order[0]


def error_on_north(dip_deg: float, bank_deg: float) -> float:
    return abs(off_deg(0, dip_deg, bank_deg=bank_deg))


def rate_one_bank_deg(tas_kt: float) -> float:
    return degrees(atan2(tas_kt * 1852 / 3600 * radians(3), 9.80665))


def what_caused_the_swing(draw: Draw) -> str:
    given = draw["parameters"]
    compass, indicator, needle = given["compass_trend"], given["indicator_trend"], given["turn_trend"]
    if "rocks" in compass:
        return "rough-air"
    if needle in {"needle-left", "needle-right"}:
        return "real-turn"
    if indicator != "indicator-steady":
        return "hi-fault"
    if "steps" in compass:
        return "object"
    trend = compass.removeprefix("compass-")
    faster = speed_swing(given["heading_deg"], given["dip_deg"], "faster").endswith(trend)
    return "speeding-up" if faster else "slowing-down"


LEVEL_STEADY_SETTLED = {
    "cruise", "steady-climb", "steady-descent", "settled", "chop-mean", "slow-flight", "crosswind", "climb-north",
}  # fmt: skip


def when_to_trust_compass(draw: Draw) -> str | list[str]:
    fit = [code for code in draw["options"] if code in LEVEL_STEADY_SETTLED]
    return fit[0] if draw["parameters"]["ask"] == "one-moment" else fit


RECOMPUTE = {
    "accel-indication": accel_indication,
    "dip-compare-size": dip_compare_size,
    "hemisphere-flip": hemisphere_flip,
    "phase-to-error": phase_to_error,
    "reading-while-turning": reading_while_turning,
    "rollout-any-heading": rollout_any_heading,
    "rollout-north-south": rollout_north_south,
    "turn-start-indication": turn_start_indication,
    "what-caused-the-swing": what_caused_the_swing,
    "when-to-trust-compass": when_to_trust_compass,
}
