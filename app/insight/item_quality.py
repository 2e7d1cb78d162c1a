"""Whether a question is good: share right, discrimination, options nobody chooses, wrong answers nobody explained."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import sqrt
from typing import Literal

WORKING_SHARE = 0.05
LEAST_FOR_OPTIONS = 50
LEAST_FOR_FLAGS = 30
HARD_BELOW = 0.25
EASY_ABOVE = 0.95
SAME_VALUE_FROM = 3
PRIOR_ANSWERS = 20
PRIOR_CORRELATION = 0.35
NO_SPREAD = 1e-14

Flag = Literal[
    "negative-discrimination", "weak-discrimination", "too-hard", "too-easy", "idle-option", "unexplained-value"
]


@dataclass(frozen=True, slots=True)
class RestSums:
    """Sums over answers: right or not is x, the share right of the same learner's other answers is r."""

    answers: int
    right: int
    rest: float
    squares: float
    products: float


def rest_correlation(sums: RestSums) -> float | None:
    """Return the correlation of x and r, None where one of them does not vary: then there is nothing to tell."""
    n = sums.answers
    if n == 0:
        return None
    share, mean = sums.right / n, sums.rest / n
    spread = share * (1 - share) * max(0.0, sums.squares / n - mean * mean)
    return (sums.products / n - share * mean) / sqrt(spread) if spread > NO_SPREAD else None


@dataclass(frozen=True, slots=True)
class AnswersToFamily:
    """What a family's answers add up to; `rest`: those whose learner also answered other families."""

    family: str
    answers: int
    right: int
    rest: RestSums
    chosen: Mapping[str, int]
    offered: Mapping[str, int]
    unmatched: Mapping[str, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Quality:
    """The judgement on a family: figures, flags with their reasons, and values that may be a new misconception.

    `rest` is the shrunken correlation with the rest of the learner's marks, None where nothing stands behind it.
    """

    family: str
    answers: int
    share_right: float
    rest: float | None
    idle: tuple[str, ...]
    candidates: tuple[tuple[str, int], ...]
    flags: tuple[Flag, ...]


def shrunken(r: float, answers: int) -> float:
    """Return the item-rest correlation drawn toward .35 as if by twenty more answers."""
    return (answers * r + PRIOR_ANSWERS * PRIOR_CORRELATION) / (answers + PRIOR_ANSWERS)


def judge_family(figures: AnswersToFamily) -> Quality:
    """Return the judgement.

    Nothing is flagged under thirty answers, the correlation under thirty behind it; no option under fifty offers.
    """
    share = figures.right / figures.answers if figures.answers else 0.0
    idle = tuple(
        sorted(
            name
            for name, offered in figures.offered.items()
            if offered >= LEAST_FOR_OPTIONS and figures.chosen.get(name, 0) / offered < WORKING_SHARE
        )
    )
    values = Counter(figures.unmatched)
    candidates = tuple((value, times) for value, times in values.most_common(10) if times >= SAME_VALUE_FROM)
    found = rest_correlation(figures.rest)
    rest = None if found is None else shrunken(found, figures.rest.answers)
    judged = rest if figures.rest.answers >= LEAST_FOR_FLAGS else None
    flags = _flags(share, judged, idle, candidates) if figures.answers >= LEAST_FOR_FLAGS else ()
    return Quality(figures.family, figures.answers, share, rest, idle, candidates, flags)


def _flags(
    share: float, rest: float | None, idle: Sequence[str], candidates: Sequence[tuple[str, int]]
) -> tuple[Flag, ...]:
    checks: tuple[tuple[Flag, bool], ...] = (
        ("negative-discrimination", rest is not None and rest < 0),
        ("weak-discrimination", rest is not None and 0 <= rest < 0.1),
        ("too-hard", share < HARD_BELOW),
        ("too-easy", share > EASY_ABOVE),
        ("idle-option", bool(idle)),
        ("unexplained-value", bool(candidates)),
    )
    return tuple(flag for flag, applies in checks if applies)
