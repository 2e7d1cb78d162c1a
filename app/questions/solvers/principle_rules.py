"""May the flight go without its compass, and what is left when a slaved compass system fails: facts looked up."""

from collections.abc import Mapping
from typing import Any

from app.questions.conventions import Conventions
from app.questions.model import NotOffered, Redraw, Solution
from app.questions.solvers.registry import solver
from app.questions.solvers.subsets import few_of

# Sources that leave nothing as the lists ask for it, with what is believed of each.
NO_SUBSTITUTE = {"gps": "gps-replaces", "gyro": "gyro-replaces", "generator-fed": "any-magnetic-source"}
# What would not be enough by itself, with what is believed of it; the last two where the flight is by day, or north.
NOT_ENOUGH = {
    "one-gps": "gps-replaces",
    "one-gyro": "gyro-replaces",
    "one-generator-fed": "any-magnetic-source",
    "one-placard": "placard-is-enough",
    "none-by-day": "night-only",
    "none-in-north": "north-exempt",
}
NOT_ENOUGH_LISTED = 4
CANADA_ONLY = frozenset({"generator-fed", "own-battery"})  # Canada asks for independence of the generator

# For each system and failure the statements that are true, then those that are false; what is arguable is in neither.
STATEMENTS: dict[tuple[str, str], tuple[tuple[str, ...], tuple[str, ...]]] = {
    ("slaved", "none"): (
        ("standby-works", "self-corrects", "sensor-in-wing"),
        ("standby-lost", "set-by-hand", "wanders", "heading-gone", "swings-in-turns", "north-from-standby"),
    ),
    ("slaved", "electrics"): (
        ("standby-works", "heading-gone", "lamp-dead", "north-from-standby"),
        ("standby-lost", "self-corrects"),
    ),
    ("slaved", "flux-valve"): (
        ("standby-works", "set-by-hand", "wanders", "north-from-standby"),
        ("standby-lost", "self-corrects", "heading-gone", "swings-in-turns", "lamp-dead"),
    ),
    ("slaved", "slaving-off"): (
        ("standby-works", "set-by-hand", "wanders", "north-from-standby"),
        ("standby-lost", "self-corrects", "heading-gone", "swings-in-turns", "lamp-dead"),
    ),
    ("slaved", "gyro"): (
        ("standby-works", "heading-gone", "north-from-standby"),
        ("standby-lost", "self-corrects", "set-by-hand", "lamp-dead"),
    ),
    ("ahrs", "none"): (
        ("standby-works", "self-corrects", "sensor-in-wing"),
        ("standby-lost", "set-by-hand", "wanders", "heading-gone", "swings-in-turns", "north-from-standby"),
    ),
    ("ahrs", "electrics"): (
        ("standby-works", "heading-gone", "lamp-dead", "north-from-standby"),
        ("standby-lost", "self-corrects"),
    ),
    ("ahrs", "magnetometer"): (
        ("standby-works", "north-from-standby"),
        ("standby-lost", "self-corrects", "lamp-dead"),
    ),
}  # fmt: skip
CHOSEN = {
    "standby-lost": "standby-lost",
    "self-corrects": "free-slaved",
    "swings-in-turns": "direct-same",
    "heading-gone": "gives-up-early",
    "lamp-dead": "standby-lost",
    "set-by-hand": "sets-needlessly",
    "wanders": "sets-needlessly",
    "north-from-standby": "sets-needlessly",
}
LEFT_OUT = {"heading-gone": "runs-without-power", "lamp-dead": "lamp-forgotten"}
TRUE_COUNTS = (1, 2, 3)
LISTED = 5


@solver("compass-unserviceable")
def compass_unserviceable(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: whether the lists of Canada or the United States leave the flight a magnetic source of direction."""
    region, flight, source = conventions.region, parameters["flight"], parameters["direction_source"]
    in_canada = region.startswith("ca-")
    if not in_canada and region != "us":
        raise NotOffered("", "not-offered-other-rules")
    if not in_canada and (source in CANADA_ONLY or flight == "over-the-top"):
        raise Redraw("the United States' list knows no such difference")
    if parameters["ask"] == "enough":
        return _enough(flight, conventions, parameters["shuffle"])
    wrong = {"placard-is-enough": "yes-placard", "any-defect-grounds": "no-any-defect"}
    if flight == "day":
        wrong["night-only"] = "yes-by-day"
    if region == "ca-north":
        wrong["north-exempt"] = "yes-north"
    stands_in = source not in NO_SUBSTITUTE
    wrong |= {"only-the-first-counts": "no-first"} if stands_in else {NO_SUBSTITUTE[source]: f"yes-{source}"}
    return Solution(
        key="yes-left" if stands_in else "no-generator" if source == "generator-fed" else "no-none-left",
        given={"ask": "may-it-go", "region": region, "flight": flight, "direction_source": source},
        wrong=wrong,
        steps=(f"list-{'ca' if in_canada else 'us'}-{flight}", f"source-{source}", "so-go" if stands_in else "so-stay"),
        model_notes=("lists-first",),
        features={"may-go": 1.0 if stands_in else -1.0},
    )


def _enough(flight: str, conventions: Conventions, shuffle: int) -> Solution:
    """Ask which of several things would be enough by themselves for the flight to go."""
    in_canada = conventions.region.startswith("ca-")
    right = ("one-own-battery", "one-second-compass") if in_canada else ("one-second-compass",)
    key = few_of(right, 1 + shuffle % len(right), shuffle // len(right))
    unfit = {"one-generator-fed": in_canada, "none-by-day": flight == "day",
             "none-in-north": conventions.region == "ca-north"}  # fmt: skip
    pool = tuple(each for each in NOT_ENOUGH if unfit.get(each, True))
    others = few_of(pool, min(len(pool), NOT_ENOUGH_LISTED), shuffle)
    named = [each.removeprefix("one-") for each in (*key, *others)]
    return Solution(
        key=key,
        given={"ask": "enough", "region": conventions.region, "flight": flight},
        options=(*key, *others),
        slips={(each, "chosen"): NOT_ENOUGH[each] for each in others}
        | {(each, "left-out"): "only-the-first-counts" for each in key},
        steps=(f"list-{'ca' if in_canada else 'us'}-{flight}",
               *(f"source-{each}" for each in named if each in {*NO_SUBSTITUTE, "own-battery", "second-compass"})),
        model_notes=("lists-first",),
        features={"may-go": 0.0},
    )  # fmt: skip


@solver("slaved-compass")
def slaved_compass(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: those of five statements that are true of the system in its present state; never all, never none."""
    system, failure = parameters["system"], parameters["failure"]
    if (system, failure) not in STATEMENTS:
        raise Redraw("this system has no such part")
    true, false = STATEMENTS[system, failure]
    counts = [count for count in TRUE_COUNTS if count <= len(true) and LISTED - count <= len(false)]
    count, rest = counts[parameters["shuffle"] % len(counts)], parameters["shuffle"] // len(counts)
    key, others = few_of(true, count, rest), few_of(false, LISTED - count, rest // 5)
    slips = {(each, "left-out"): LEFT_OUT[each] for each in key if each in LEFT_OUT}
    return Solution(
        key=key,
        given={"system": system, "failure": failure},
        options=(*key, *others),
        slips=slips | {(each, "chosen"): CHOSEN[each] for each in others},
        steps=(f"means-{failure}", "standby-alone"),
        features={"failed": -1.0 if failure == "none" else 1.0},
    )
