"""Groups side by side: how far the students of one lie apart, and where two cannot fairly be compared."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from math import sqrt
from statistics import fmean, variance
from typing import Literal

from app.insight.weak_spots import FEW_STUDENTS

LEAST_ANSWERS = 5
COMMON_SHARE = 0.5
MOST_TIMES = 3

Unlike = Literal["families", "answers"]


@dataclass(frozen=True, slots=True)
class Work:
    """What one group answered of a topic: of which families, and how many answers a student who answered."""

    families: frozenset[str]
    answers_per_student: float


def spread(counts: Sequence[tuple[int, int]]) -> float | None:
    """Return the standard deviation between students of their chance to be right, from (answers, right) of each.

    The variance of their shares less what chance alone would give, p(1 - p)/(n - 1) without bias; never below nothing.
    Students with fewer than LEAST_ANSWERS say too little; None where fewer than FEW_STUDENTS are left.
    """
    shares = [(right / answers, answers) for answers, right in counts if answers >= LEAST_ANSWERS]
    if len(shares) < FEW_STUDENTS:
        return None
    by_chance = fmean(share * (1 - share) / (answers - 1) for share, answers in shares)
    return sqrt(max(0.0, variance(share for share, _ in shares) - by_chance))


def unlike(groups: Sequence[Work]) -> tuple[Unlike, ...]:
    """Return why groups cannot fairly be compared: any two of them worked on other families, or far more of them."""
    pairs = list(combinations(groups, 2))
    reasons: list[Unlike] = []
    if any(_common(a.families, b.families) < COMMON_SHARE for a, b in pairs):
        reasons.append("families")
    amounts = [group.answers_per_student for group in groups]
    if amounts and max(amounts) > MOST_TIMES * min(amounts):
        reasons.append("answers")
    return tuple(reasons)


def _common(some: frozenset[str], others: frozenset[str]) -> float:
    return len(some & others) / len(some | others)
