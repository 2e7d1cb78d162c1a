"""The flight that shows an item: what each family's questions would look like on the bench."""

from collections.abc import Callable, Mapping
from typing import Any

from app.physics.angles import difference, shown
from app.physics.card import speed_change_reading_deg
from app.physics.turning import turn_sign
from app.questions.model import Item
from app.questions.solvers.dynamic_phases import SPEED_IN

Flown = dict[str, Any]
PASSED_DEG = 90  # a turn that passes a heading is shown from so far before it to so far after
SPEED_CHANGE_KT_S = 2
GENTLE_G = 0.1  # its sign counts, to tell which way a change of speed swings the card
SORTS = frozenset({"groups", "match", "order"})
SWINGS = frozenset({"compass-rises", "compass-falls"})


def flight_of(item: Item) -> Flown | None:
    """Return what the bench's form takes to fly an item, None where no flight shows it, as where several are sorted."""
    fly = FLIGHTS.get(item.family) if item.form not in SORTS else None
    return fly(item.parameters) if fly else None


def own_dip_deg(given: Mapping[str, Any]) -> float | None:
    """Return the dip an item is set at, None at the home place; of two places the second, to which one moves."""
    if "dip_b_deg" in given:
        return float(given["dip_b_deg"])
    return None if given["at_home"] else float(given["dip_deg"])


def _roll_out(given: Mapping[str, Any]) -> Flown | None:
    if not {"start_deg", "target_deg", "turn", "bank_deg"} <= given.keys():
        return None
    return _turn(given["start_deg"], given["target_deg"], given)


def _turn_start(given: Mapping[str, Any]) -> Flown:
    start = given["start_deg"]
    return _turn(start, shown(start + PASSED_DEG * turn_sign(given.get("turn", "right"))), given)


def _passing(given: Mapping[str, Any]) -> Flown:
    heading, side = given["heading_deg"], turn_sign(given["turn"])
    return _turn(shown(heading - PASSED_DEG * side), shown(heading + PASSED_DEG * side), given)


def _turn(start_deg: int, target_deg: int, given: Mapping[str, Any]) -> Flown:
    turn = {"turn": given.get("turn", "right"), "rate": "bank", "bank_deg": given["bank_deg"]}
    return {"doing": "turn", "start_deg": start_deg, "target_deg": target_deg, **turn}


def _rate_one(start_deg: int, side: str) -> Flown:
    target_deg = shown(start_deg + PASSED_DEG * (1 if side == "right" else -1))
    return {"doing": "turn", "start_deg": start_deg, "target_deg": target_deg, "turn": side, "rate": "one"}


def _speed_change(given: Mapping[str, Any]) -> Flown:
    sign = 1 if given["speed_change"] == "faster" else -1
    return {"doing": "speed", "start_deg": given["heading_deg"], "change_kt_s": sign * SPEED_CHANGE_KT_S}


def _phase(given: Mapping[str, Any]) -> Flown:
    """Fly a phase of flight as what it does to the speed; a steady climb or descent as a path at a steady speed."""
    change, start_deg = SPEED_IN[given["phase"]], given["heading_deg"]
    if change == "steady":
        path = "climb" if given["phase"] == "steady-climb" else "dive"
        return {"doing": "path", "path": path, "start_deg": start_deg, "change_kt_s": 0}
    return _speed_change({"heading_deg": start_deg, "speed_change": change})


def _cause(given: Mapping[str, Any]) -> Flown | None:
    """Fly what moved the instruments; a faulty indicator and a magnet are nothing that is flown."""
    heading = given["heading_deg"]
    if given["turn_trend"] in {"needle-left", "needle-right"}:
        return _rate_one(heading, given["turn_trend"].removeprefix("needle-"))
    if given["turn_trend"] == "needle-rocks":
        return {"doing": "rough", "start_deg": heading}
    if given["indicator_trend"] != "indicator-steady" or given["compass_trend"] not in SWINGS:
        return None
    off = difference(speed_change_reading_deg(heading, given["dip_deg"], GENTLE_G), heading)
    faster = (off > 0) == (given["compass_trend"] == "compass-rises")
    return _speed_change({"heading_deg": heading, "speed_change": "faster" if faster else "slower"})


def _settling(given: Mapping[str, Any]) -> Flown:
    """Roll out on the heading, as the moments just after a turn are those least to be trusted."""
    heading = given.get("heading_deg", 360)
    turn = _rate_one(shown(heading - PASSED_DEG), "right")
    return turn | ({"rate": "bank", "bank_deg": given["bank_deg"]} if "bank_deg" in given else {})


def _elsewhere(given: Mapping[str, Any]) -> Flown:
    """Turn from north or south where the rules are asked for."""
    return _rate_one(given.get("start_deg", 360), "right")


FLIGHTS: dict[str, Callable[[Mapping[str, Any]], Flown | None]] = {
    "rollout-north-south": _roll_out,
    "rollout-any-heading": _roll_out,
    "turn-start-indication": _turn_start,
    "reading-while-turning": _passing,
    "accel-indication": _speed_change,
    "phase-to-error": _phase,
    "what-caused-the-swing": _cause,
    "when-to-trust-compass": _settling,
    "hemisphere-flip": _elsewhere,
}
