"""The parts of a liquid-filled float compass: what each is for, what is true of it, what a pilot sees when it fails."""

from collections.abc import Mapping
from math import comb
from typing import Any

from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution, Step
from app.questions.solvers.registry import solver
from app.questions.solvers.subsets import few_of

PURPOSES = {
    "liquid": "damps-swings",
    "lubber-line": "marks-nose",
    "compensators": "cancels-aircraft",
    "chamber": "makes-room",
    "magnets": "seeks-north",
    "card": "carries-numbers",
    "float": "bears-weight",
    "pivot": "turns-freely",
}
# What is wrongly believed of a part: misconception and the purpose it gives the part.
BELIEFS = {
    "liquid": ("liquid-only-rust", "keeps-rust-off"),
    "lubber-line": ("lubber-moves", "swings-to-north"),
    "compensators": ("compensator-fixes-variation", "cancels-variation"),
    "chamber": ("chamber-shows-altitude", "senses-height"),
    "magnets": ("magnets-point-true", "seeks-true-north"),
    "card": ("card-turns-with-aircraft", "turns-with-aircraft"),
    "float": ("float-holds-level", "holds-level"),
    "pivot": ("pivot-corrects-deviation", "corrects-deviation"),
}
# What is seen: the part that fails, and the part blamed for it by a misconception.
FAULTS = {
    "long-swings": ("liquid", "pivot-damps", "pivot"),
    "bubble-in-cold": ("chamber", "more-liquid", "liquid"),
    "uneven-error": ("compensators", "line-for-compensators", "lubber-line"),
    "even-error": ("lubber-line", "compensators-for-line", "compensators"),
    "stops-short": ("pivot", "friction-or-strength", "magnets"),
    "slow-return": ("magnets", "friction-or-strength", "pivot"),
}
MATCHED = (5, 6)
STATED = 6
# Two parts taken for each other in a match: (part, purpose it is given).
SWAPS = {
    ("lubber-line", "carries-numbers"): "lubber-moves",
    ("card", "marks-nose"): "card-turns-with-aircraft",
    ("pivot", "cancels-aircraft"): "pivot-corrects-deviation",
    ("pivot", "damps-swings"): "pivot-damps",
    ("float", "damps-swings"): "float-for-liquid",
    ("liquid", "bears-weight"): "float-for-liquid",
    ("magnets", "turns-freely"): "friction-or-strength",
    ("pivot", "seeks-north"): "friction-or-strength",
}


@solver("compass-part-purpose")
def compass_part_purpose(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: the purpose of a part, the part behind a fault, the purposes of several parts, or true statements."""
    if parameters["ask"] == "fault":
        return _fault(parameters["fault"], parameters["shuffle"])
    if parameters["ask"] == "match":
        parts = few_of(tuple(PURPOSES), MATCHED[parameters["shuffle"] % 2], parameters["shuffle"] // 2)
        return Solution(
            key={part: PURPOSES[part] for part in parts},
            given={"ask": "match"},
            options=parts,
            slips={
                (part, job): _swap(part, other) for part in parts for other, job in PURPOSES.items() if other != part
            },
            steps=tuple(Step("does", {"that": part, "job": f"need-{part}"}) for part in parts),
            features={"fault": -1.0},
        )
    if parameters["ask"] == "statements":
        return _statements(parameters["shuffle"])
    part = parameters["part"]
    belief, wrong = BELIEFS[part]
    others = few_of(tuple(other for other in PURPOSES if other != part), 2, parameters["shuffle"])
    return Solution(
        key=PURPOSES[part],
        given={"ask": "purpose", "part": part},
        wrong={belief: wrong, **{f"job-of-{other}": PURPOSES[other] for other in others}},
        steps=(Step("does", {"that": part, "job": f"need-{part}"}), *_signs_of(part)),
        features={"fault": -1.0},
    )


def _swap(part: str, other: str) -> str:
    """Return what is behind giving a part another's job: two parts mixed up, or just the other's job not known."""
    return SWAPS.get((part, PURPOSES[other]), f"job-of-{other}")


def _statements(shuffle: int) -> Solution:
    """Ask which of six statements are true; each is of another part, and says what it does or what is believed."""
    ways = comb(len(PURPOSES), STATED)
    parts = few_of(tuple(PURPOSES), STATED, shuffle)
    true = tuple(part for i, part in enumerate(parts) if shuffle // ways >> i & 1)
    if not 0 < len(true) < STATED:
        raise Redraw("some statements must be true and some not")
    false = tuple(part for part in parts if part not in true)
    return Solution(
        key=tuple(f"need-{part}" for part in true),
        given={"ask": "statements"},
        options=(*(f"need-{part}" for part in true), *(f"belief-{part}" for part in false)),
        slips={(f"belief-{part}", "chosen"): BELIEFS[part][0] for part in false},
        steps=tuple(Step("does", {"that": part, "job": f"need-{part}"}) for part in parts),
        features={"fault": -1.0},
    )


def _signs_of(part: str) -> tuple[Step, ...]:
    """Tell what is seen when the part fails, where there is a plain sign of it."""
    return tuple(Step("would-see", {"sign": fault}) for fault, (failed, _, _) in FAULTS.items() if failed == part)


def _fault(fault: str, shuffle: int) -> Solution:
    part, belief, blamed = FAULTS[fault]
    others = tuple(other for other in PURPOSES if other not in {part, blamed, "float", "card"})
    others = few_of(others, 2, shuffle)
    return Solution(
        key=part,
        given={"ask": "fault", "fault": fault},
        wrong={belief: blamed, **{f"fault-of-{other}": other for other in others}},
        steps=(Step("does", {"that": part, "job": f"need-{part}"}), f"why-{fault}"),
        features={"fault": 1.0},
    )
