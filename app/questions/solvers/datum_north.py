"""Canada's Northern Domestic Airspace: which north things count from, what must be carried, what the compass does."""

from collections.abc import Mapping
from itertools import combinations
from typing import Any

from app.physics.angles import difference, shown
from app.physics.headings import magnetic_from_true, true_from_magnetic
from app.questions.conventions import Conventions
from app.questions.model import NotOffered, Redraw, Solution
from app.questions.solvers.datum_rules import CANADIAN
from app.questions.solvers.registry import solver
from app.questions.solvers.subsets import few_of
from app.questions.solvers.ticks import to_tick

FEW = 6  # no six of the nine things below are counted from one and the same north

# What each thing is counted from, north and south of the border between the two domestic airspaces.
NORTH_OF = {
    "runway-in-north": "true-north", "runway-in-south": "magnetic-north",
    "cruising-in-north": "true-north", "cruising-in-south": "magnetic-north",
    "spoken-wind-in-north": "true-north", "spoken-wind-in-south": "magnetic-north",
    "indicator-in-north": "true-north", "indicator-in-south": "magnetic-north",
    "written-wind": "true-north",
}  # fmt: skip
# Whether a flight needs a means of telling direction that does not depend on a magnetic source
# (CAR 605.15(1)(g), 605.16(1)(g), 605.18; 605.14 lists none).
NEEDS_OTHER_SOURCE = {
    "day-in-north": False, "over-the-top-in-north": True, "night-in-north": True, "ifr-in-north": True,
    "day-in-south": False, "over-the-top-in-south": False, "night-in-south": False, "ifr-in-south": False,
}  # fmt: skip
# What is true of that airspace and what is not, each with the misconception behind getting it wrong.
TRUE_THERE = {
    "runways-true": "south-in-the-north", "cruising-true": "south-in-the-north",
    "written-true": "written-wind-magnetic", "field-too-steep": "compass-fine",
    "night-needs-source": "flight-forgotten",
}  # fmt: skip
FALSE_THERE = {
    "day-needs-source": "day-too", "south-needs-source": "south-too", "compass-left-home": "compass-not-needed",
    "day-needs-gyro": "gyro-instead", "variation-mends": "only-variation", "add-180": "reads-reversed",
    "slow-but-sure": "compass-fine", "track-as-heading": "track-for-heading",
    "indicator-by-compass": "indicator-from-compass", "cruising-true-in-south": "true-everywhere",
    "written-magnetic-in-south": "written-wind-magnetic", "spoken-magnetic": "south-in-the-north",
}  # fmt: skip
TICKED, UNTICKED = 3, 4
LEAST_APART_DEG = 4
# One right statement and the misconceptions behind the others.
STATEMENTS = {
    "compass": ("weak-field", {
        "works-as-elsewhere": "compass-fine", "large-variation": "only-variation", "reads-reversed": "reads-reversed",
    }),
    "indicator": ("set-to-true", {
        "set-to-compass": "indicator-from-compass", "set-by-variation": "only-variation",
        "set-to-track": "track-for-heading",
    }),
    "day-compass": ("compass-listed", {
        "other-source-listed": "day-too", "nothing-listed": "compass-not-needed", "gyro-listed": "gyro-instead",
    }),
}  # fmt: skip


@solver("northern-airspace-reference")
def northern_airspace_reference(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: a look-up in the tables above; asked of Canadian schools alone."""
    if conventions.region not in CANADIAN:
        raise NotOffered("", "not-offered-other-rules")
    ask, shuffle = parameters["ask"], parameters["shuffle"]
    if ask == "norths":
        return _sorted_by_north(few_of(tuple(NORTH_OF), FEW, shuffle))
    if ask == "equipment":
        return _flights(few_of(tuple(NEEDS_OTHER_SOURCE), FEW, shuffle))
    if ask == "statements":
        return to_tick(ask, (TRUE_THERE, FALSE_THERE), (TICKED, UNTICKED), shuffle)
    return _set_to(parameters) if ask == "set-to" else _statement(ask)


def _sorted_by_north(things: tuple[str, ...]) -> Solution:
    key = {thing: NORTH_OF[thing] for thing in things}
    slips = {(thing, _other(north)): _slip(thing, north) for thing, north in key.items()}
    return Solution(key=key, given={"ask": "norths"}, options=things, slips=slips, steps=_border_steps(things))


def _other(north: str) -> str:
    return "magnetic-north" if north == "true-north" else "true-north"


def _slip(thing: str, north: str) -> str:
    special = {"written-wind": "written-wind-magnetic", "indicator-in-north": "indicator-from-compass"}
    return special.get(thing, "south-in-the-north" if north == "true-north" else "true-everywhere")


def _border_steps(things: tuple[str, ...]) -> tuple[str, ...]:
    return ("north-is-true", "south-is-magnetic", *(("written-is-true",) if "written-wind" in things else ()))


def _flights(flights: tuple[str, ...]) -> Solution:
    key = tuple(flight for flight in flights if NEEDS_OTHER_SOURCE[flight])
    if not 2 <= len(key) <= FEW - 2:
        raise Redraw("too few or too many to tick")
    slips = {}
    for flight in flights:
        if flight in key:
            slips[flight, "left-out"] = "flight-forgotten"
        else:
            slips[flight, "chosen"] = "day-too" if flight == "day-in-north" else "south-too"
    return Solution(
        key=key,
        given={"ask": "equipment"},
        options=flights,
        slips=slips,
        steps=("listed-for", "not-for-day", "not-in-south"),
    )


def _set_to(parameters: Mapping[str, Any]) -> Solution:
    """Ask for the true heading, known from a runway or from the GPS track less the drift, beside a doubtful compass."""
    true, variation, drift = (parameters[f"{name}_deg"] for name in ("true", "variation", "drift"))
    on_runway = parameters["shuffle"] % 2 == 0
    magnetic = magnetic_from_true(true, variation)
    compass = shown(magnetic + parameters["deviation_deg"])
    wrong = {
        "south-in-the-north": shown(magnetic),
        "indicator-from-compass": compass,
        "only-variation": shown(true_from_magnetic(compass, variation)),
        "reads-reversed": shown(compass + 180),
    }
    given = {"ask": "set-to", "variation_deg": variation, "compass_deg": compass}
    if on_runway:
        given, steps = {**given, "runway_true_deg": true}, ("so-runway",)
    else:
        track = shown(true + drift)
        given, wrong = {**given, "gps_track_deg": track, "drift_deg": drift}, {**wrong, "track-for-heading": track}
        steps = ("so-drift-right" if drift > 0 else "so-drift-left",)
    values = [true, *wrong.values()]
    if any(abs(difference(a, b)) < LEAST_APART_DEG for a, b in combinations(values, 2)):
        raise Redraw("two ways come to nearly the same heading")
    return Solution(
        key=true, given=given, wrong=wrong, steps=("why-indicator", *steps), quantities={"true_deg": true},
        scene="on-runway" if on_runway else "by-gps",
    )  # fmt: skip


def _statement(ask: str) -> Solution:
    right, others = STATEMENTS[ask]
    return Solution(
        key=right,
        given={"ask": ask},
        wrong={belief: statement for statement, belief in others.items()},
        steps=(f"why-{ask}",),
    )
