"""Before and after: what the same students likely carried, or got right, then and now.

A group chosen for what it gets wrong is no sample of its class: its shares are drawn toward no class mean. Two figures
differ only where their intervals lie apart, which errs on the side of saying nothing.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, sqrt
from typing import Literal

from app.insight.distributions import Z95, beta_quantile
from app.insight.weak_spots import FEW_STUDENTS, SMALL_CLASS, SMALL_CLASS_WIDENING, SkillCount, raw_share

LEAST_STUDENTS = 3
LEAST_ANSWERS = 10
JEFFREYS = 0.5

Verdict = Literal["lower", "higher", "open", "too-few"]


@dataclass(frozen=True, slots=True)
class Share:
    """A share with its 95 % interval, and the students and answers behind it."""

    estimate: float
    low: float
    high: float
    students: int
    answers: int

    @property
    def few(self) -> bool:
        """Whether fewer than five students stand behind it: a caution belongs beside it."""
        return self.students < FEW_STUDENTS


def carried(chances: Sequence[float], answers: int) -> Share:
    """Return the share of students who carry a misconception, from the chance of each; Jeffreys' interval."""
    held, students = sum(chances), len(chances)
    a, b = JEFFREYS + held, JEFFREYS + students - held
    return Share(
        held / students if students else 0.0, beta_quantile(0.025, a, b), beta_quantile(0.975, a, b), students, answers
    )


def right(count: SkillCount) -> Share:
    """Return the share of answers that were right, its interval wide enough for students who differ."""
    students = sum(1 for n in count.answers if n)
    if not students:
        return Share(0.0, 0.0, 1.0, 0, 0)
    z, variance = raw_share(count)
    reach = Z95 * sqrt(variance) * (SMALL_CLASS_WIDENING if students < SMALL_CLASS else 1.0)
    low, high = (1 / (1 + exp(-each)) for each in (z - reach, z + reach))
    return Share(count.right / count.answered, low, high, students, count.answered)


def verdict(before: Share, after: Share) -> Verdict:
    """Return what can be said of two shares of the same students: nothing from too few, nothing where they overlap."""
    if min(before.students, after.students) < LEAST_STUDENTS or min(before.answers, after.answers) < LEAST_ANSWERS:
        return "too-few"
    if after.high < before.low:
        return "lower"
    return "higher" if after.low > before.high else "open"
