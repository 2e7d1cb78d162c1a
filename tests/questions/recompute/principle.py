"""Keys of the families about the compass itself, worked again from what a printed draw shows.

Tables are written anew here from the texts named beside them; nothing is shared with the solvers.
"""

from collections.abc import Mapping
from math import atan2, cos, degrees, floor, radians, sin
from typing import Any

Draw = Mapping[str, Any]

# FAA-H-8083-25C ch. 8, Magnetic Compass: what float, pivot, magnets, liquid, lubber line and compensating magnets do.
JOBS = {
    "card": "carries-numbers",
    "chamber": "makes-room",
    "compensators": "cancels-aircraft",
    "float": "bears-weight",
    "liquid": "damps-swings",
    "lubber-line": "marks-nose",
    "magnets": "seeks-north",
    "pivot": "turns-freely",
}
TRUE_OF_PARTS = {f"need-{part}" for part in JOBS}  # what the same pages say of each, in our words
# Common practice, no source.
CAUSES = {
    "bubble-in-cold": "chamber",
    "even-error": "lubber-line",
    "long-swings": "liquid",
    "slow-return": "magnets",
    "stops-short": "pivot",
    "uneven-error": "compensators",
}


def part_or_job(draw: Draw) -> Any:
    given = draw["parameters"]
    if given["ask"] == "statements":
        return tuple(statement for statement in draw["options"] if statement in TRUE_OF_PARTS)
    if given["ask"] == "match":
        return {part: JOBS[part] for part in draw["options"]}
    return JOBS[given["part"]] if given["ask"] == "purpose" else CAUSES[given["fault"]]


# FAA-H-8083-25C ch. 8: variation, deviation, dip errors, oscillation; the pilot's slips are common practice, no source.
ORIGINS = {
    "acceleration": "manoeuvre",
    "deviation": "aircraft",
    "object": "pilot",
    "parallax": "pilot",
    "rough-air": "air",
    "stuck": "defect",
    "turning": "manoeuvre",
    "variation": "place",
    "wrong-row": "pilot",
    "heater": "aircraft",
    "slowing": "manoeuvre",
    "weak-field": "place",
    "worn-pivot": "defect",
    "wrong-sign": "pilot",
}
# FAA AC 43.13-1B CHG 1 par. 12-37: a compass new, removed or repaired, and the occasions (1) to (10); Canada's interval
# of 12 months from Standard 625 App. C item 10(a).
OCCASIONS = {
    "doubt", "iron", "wiring", "hard-landing", "lightning", "magnetic-cargo", "new-region", "long-parked", "repaired",
    "old-card",
}  # fmt: skip


def origins(draw: Draw) -> dict[str, str]:
    return {error: ORIGINS[error] for error in draw["options"]}


def occasions(draw: Draw) -> list[str]:
    return [event for event in draw["options"] if event in OCCASIONS]


def apart(a: float, b: float) -> int:
    """Return how far apart two headings are, 0 to 180."""
    return int(abs((a - b + 180) % 360 - 180))


# FAA-H-8083-15A p. 3-37: full of liquid, free, known heading; Canada's interval as above; lamp: CAR 605.16(1)(i).
IN_ORDER = {"lamp-day", "tilts", "unset-indicator"}


def preflight(draw: Draw) -> Any:
    given = draw["parameters"]
    if given["ask"] == "defect":
        return f"{'accept' if given['defect'] in IN_ORDER else 'refuse'}-{given['defect']}"
    if given["ask"] == "walk-round":
        return [each for each in draw["options"] if each not in IN_ORDER]
    off = apart(given["compass_deg"], given["steer_deg"])  # both are compass headings: nothing else is needed
    verdict = "serviceable" if off <= given["limit_deg"] else "unserviceable"
    return [verdict, off] if given["ask"] == "taxi" else {"off_deg": off, "verdict": verdict}


def moved(draw: Draw) -> Any:
    given = draw["parameters"]
    if given["ask"] == "effect":
        return int((given["before_deg"] - given["after_deg"] + 180) % 360 - 180)
    if given["object"].endswith("-with-row"):
        return "use-row"
    return "switch-off" if given["object"] in {"lamp", "pitot-heat", "radio"} else "move-away"


def dip_size(magnetic_latitude_deg: float) -> float:
    """Return the dip of a dipole from its field lines' components, 2 sin L down and cos L level (from memory)."""
    latitude = radians(abs(magnetic_latitude_deg))
    return degrees(atan2(2 * sin(latitude), cos(latitude)))


def fine_latitude(dip_deg: float) -> float:
    """Return the magnetic latitude at which a dipole dips so, by halving the interval."""
    low, high = 0.0, 90.0
    while high - low > 1e-9:
        middle = (low + high) / 2
        low, high = (middle, high) if dip_size(middle) < dip_deg else (low, middle)
    return low


# Worked from the dipole by what dip_size gives at the latitudes named.
TRUE_OF_DIP = {
    "level-on-equator": dip_size(0) == 0,
    "steeper-than-latitude": dip_size(40) > 40,
    "alike-north-and-south": dip_size(30) == dip_size(-30),
    "firmer-near-equator": cos(radians(dip_size(5))) > cos(radians(dip_size(85))),
    "south-end-in-south": True,  # the field of the earth leaves the ground in the south (from memory)
}


def dipole(draw: Draw) -> Any:
    given = draw["parameters"]
    if given["ask"] == "statements":
        return [each for each in draw["options"] if TRUE_OF_DIP.get(each)]
    if given["ask"] == "latitude":  # the dipole's rule the other way: the whole degree whose dip is nearest
        return min(range(91), key=lambda each: abs(fine_latitude(abs(given["dip_deg"])) - each))
    latitude = given["magnetic_latitude_deg"]
    if given["ask"] == "which-end":
        return "neither-end" if latitude == 0 else "north-end" if latitude > 0 else "south-end"
    if given["ask"] == "compare":
        other = given["other_magnetic_latitude_deg"]
        if latitude == -other:
            return "same"
        return "first" if dip_size(latitude) < dip_size(other) else "second"
    dip = dip_size(latitude)
    return floor((dip if given["ask"] == "dip" else 100 * cos(radians(dip))) + 0.5)


def may_go(draw: Draw) -> Any:
    """CAR 605.14(d) and 14 CFR 91.205(b): a magnetic source; in Canada one that does not depend on the generator."""
    if draw["parameters"]["ask"] == "enough":
        return [each for each in draw["options"] if each in {"one-second-compass", "one-own-battery"}]
    source = draw["parameters"]["direction_source"]
    magnetic = source in {"second-compass", "own-battery", "generator-fed"}
    if not magnetic:
        return "no-none-left"
    return "no-generator" if source == "generator-fed" else "yes-left"


def slaved(draw: Draw) -> list[str]:
    """Work each statement out from what still has power, a gyro, a sensor and a connection (EASA 022 03 04, memory)."""
    failure = draw["parameters"]["failure"]
    power, gyro = failure != "electrics", failure not in {"electrics", "gyro"}
    guided = failure == "none"
    holds = {
        "standby-works": True,
        "standby-lost": False,
        "self-corrects": gyro and guided,
        "set-by-hand": gyro and not guided,
        "wanders": gyro and not guided,
        "heading-gone": not gyro,
        "swings-in-turns": False,
        "lamp-dead": not power,
        "north-from-standby": not guided,
        "sensor-in-wing": True,
    }
    return [each for each in draw["options"] if holds[each]]


def swing(draw: Draw) -> Any:
    """CASA AC 43-17(0): deviation is added to the compass to get magnetic; the card says the compass for a magnetic."""
    given = draw["parameters"]
    if given["ask"] == "steer":
        return (given["magnetic_deg"] - given["deviation_deg"]) % 360 or 360
    found = {
        each["magnetic_deg"]: (each["magnetic_deg"] - each["compass_deg"] + 180) % 360 - 180 for each in given["swing"]
    }
    where = max(found, key=lambda heading: abs(found[heading]))
    mean = sum(found.values()) / len(found)
    return {
        "deviation": found.get(given.get("magnetic_deg")),
        "largest": found[where],
        "where": where,
        "mean": floor(abs(mean) * 10 + 0.5) / 10 * (1 if mean > 0 else -1),
        "within": "within" if abs(found[where]) <= given.get("limit_deg", 0) else "beyond",
    }[given["ask"]]


RECOMPUTE = {
    "compass-part-purpose": part_or_job,
    "error-source-sort": origins,
    "swing-required-when": occasions,
    "dip-from-latitude": dipole,
    "compass-unserviceable": may_go,
    "slaved-compass": slaved,
    "swing-residuals": swing,
    "preflight-compass-check": preflight,
    "object-near-compass": moved,
}
