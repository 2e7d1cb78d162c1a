"""Where an error of the compass comes from, and what calls for a new swing: lists of facts, sorted or ticked."""

from collections.abc import Mapping
from typing import Any

from app.questions.conventions import Conventions
from app.questions.model import Solution
from app.questions.solvers.registry import solver
from app.questions.solvers.subsets import few_of

SOURCES = {
    "variation": "place",
    "deviation": "aircraft",
    "acceleration": "manoeuvre",
    "turning": "manoeuvre",
    "rough-air": "air",
    "parallax": "pilot",
    "wrong-row": "pilot",
    "object": "pilot",
    "stuck": "defect",
    "weak-field": "place",
    "heater": "aircraft",
    "slowing": "manoeuvre",
    "wrong-sign": "pilot",
    "worn-pivot": "defect",
}
MISSORTED = {
    ("variation", "aircraft"): "variation-is-instrument-fault",
    ("variation", "defect"): "variation-is-instrument-fault",
    ("deviation", "place"): "deviation-as-variation",
    ("deviation", "defect"): "deviation-as-defect",
    ("acceleration", "defect"): "manoeuvre-as-defect",
    ("turning", "defect"): "manoeuvre-as-defect",
    ("acceleration", "aircraft"): "turn-error-as-deviation",
    ("turning", "aircraft"): "turn-error-as-deviation",
    ("rough-air", "defect"): "swing-as-defect",
    ("rough-air", "manoeuvre"): "swing-as-turning-error",
    ("parallax", "aircraft"): "reading-slip-as-instrument",
    ("parallax", "defect"): "reading-slip-as-instrument",
    ("wrong-row", "aircraft"): "reading-slip-as-instrument",
    ("wrong-row", "defect"): "reading-slip-as-instrument",
    ("object", "aircraft"): "object-as-deviation",
    ("weak-field", "aircraft"): "weak-field-as-instrument",
    ("weak-field", "defect"): "weak-field-as-instrument",
    ("weak-field", "air"): "weak-field-as-instrument",
    ("heater", "place"): "deviation-as-variation",
    ("heater", "defect"): "deviation-as-defect",
    ("slowing", "defect"): "manoeuvre-as-defect",
    ("slowing", "aircraft"): "turn-error-as-deviation",
    ("wrong-sign", "aircraft"): "reading-slip-as-instrument",
    ("wrong-sign", "defect"): "reading-slip-as-instrument",
    ("worn-pivot", "air"): "swing-as-defect",
    ("worn-pivot", "manoeuvre"): "stuck-as-manoeuvre",
    ("stuck", "air"): "swing-as-defect",
    ("stuck", "manoeuvre"): "stuck-as-manoeuvre",
}
LEAST_SORTED, MOST_SORTED = 5, 7

CALLS_FOR_SWING = (
    "doubt", "iron", "wiring", "hard-landing", "lightning", "magnetic-cargo", "new-region", "long-parked", "repaired",
)  # fmt: skip
OLD_CARD = "old-card"  # Canada sets an interval
CALLS_FOR_NONE = ("oil", "tyre", "weight-and-balance", "new-chart", "seat-cover", "route-change")
COUNTS = ((3, 3), (4, 2), (3, 4), (4, 3), (5, 2))
# What a wrong tick shows, and what an event left out shows.
TICKED = {
    "oil": "any-maintenance",
    "tyre": "any-maintenance",
    "seat-cover": "any-maintenance",
    "new-chart": "chart-change",
    "route-change": "chart-change",
    "weight-and-balance": "paper-counts",
}
LEFT_OUT = {
    "iron": "only-the-compass",
    "wiring": "only-the-compass",
    "hard-landing": "only-work-counts",
    "lightning": "only-work-counts",
    "magnetic-cargo": "only-work-counts",
    "new-region": "compensation-travels",
    "long-parked": "only-work-counts",
    "doubt": "needs-an-event",
    OLD_CARD: "card-never-ages",
}


@solver("error-source-sort")
def error_source_sort(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: the group each of five to seven errors belongs to."""
    shuffle = parameters["shuffle"]
    sizes = MOST_SORTED - LEAST_SORTED + 1
    errors = few_of(tuple(SOURCES), LEAST_SORTED + shuffle % sizes, shuffle // sizes)
    return Solution(
        key={error: SOURCES[error] for error in errors},
        given={},
        options=errors,
        slips={place: name for place, name in MISSORTED.items() if place[0] in errors},
        steps=tuple(f"why-{error}" for error in errors),
        features={"many": float(len(errors) - LEAST_SORTED - 1)},
    )


@solver("swing-required-when")
def swing_required_when(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: those of the events listed that call for a swing; never all and never none."""
    yes, no = COUNTS[parameters["shuffle"] % len(COUNTS)]
    rest = parameters["shuffle"] // len(COUNTS)
    in_canada = conventions.region.startswith("ca-")
    key = few_of((*CALLS_FOR_SWING, OLD_CARD) if in_canada else CALLS_FOR_SWING, yes, rest)
    others = few_of(CALLS_FOR_NONE, no, rest // 7)
    slips = {(event, "left-out"): LEFT_OUT[event] for event in key if event in LEFT_OUT}
    return Solution(
        key=key,
        given={},
        options=(*key, *others),
        slips=slips | {(event, "chosen"): TICKED[event] for event in others},
        steps=("the-test", *(f"why-{event}" for event in (*key, *others))),
        model_notes=("site",),
        features={"unseen-cause": 1.0 if {"long-parked", "magnetic-cargo", "new-region"} & set(key) else -1.0},
    )
