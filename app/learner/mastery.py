"""Whether a skill is mastered, and why not yet."""

from dataclasses import dataclass
from datetime import datetime
from math import erf, log, sqrt
from typing import Literal

from app.learner.evidence import Level, Skill, aged, aged_mean
from app.learner.logistic import sigmoid

AIM = 0.8
MASTERED_FROM = 0.8
LOST_BELOW = 0.6
LEAST_ANSWERS = 6
LEAST_TYPED_RIGHT = 2
LEAST_DAYS = 2

Reason = Literal["few-answers", "few-typed", "one-day", "uncertain", "below"]


@dataclass(frozen=True, slots=True)
class Mastery:
    """The probability that the learner is right at least four times in five, its likely range, and what is missing."""

    probability: float
    estimate: float
    low: float
    high: float
    missing: tuple[Reason, ...]

    @property
    def mastered(self) -> bool:
        """Whether nothing is missing."""
        return not self.missing


def judge(level: Level, skill: Skill, now: datetime, *, was_mastered: bool = False) -> Mastery:
    """Return the mastery of a skill as of now; one that was mastered stays so until its probability falls below .6."""
    skill = aged(skill, now)
    mean, spread = level.mean + skill.mean, sqrt(level.variance + skill.variance)
    clear = 1 - skill.misconceived
    probability = clear * _normal_below((mean - log(AIM / (1 - AIM))) / spread)
    low, high = (clear * sigmoid(mean + k * spread) for k in (-1.0, 1.0))
    missing = _missing(skill, probability, was_mastered=was_mastered)
    return Mastery(probability, clear * sigmoid(mean), low, high, missing)


def likely_right(level: Level, skill: Skill, now: datetime) -> float:
    """Return how likely the learner is right on an item of middling difficulty as of now: the estimate of `judge`."""
    return (1 - skill.misconceived) * sigmoid(level.mean + aged_mean(skill, now))


def _missing(skill: Skill, probability: float, *, was_mastered: bool) -> tuple[Reason, ...]:
    if was_mastered and probability >= LOST_BELOW:
        return ()
    missing: list[Reason] = []
    if skill.answers < LEAST_ANSWERS:
        missing.append("few-answers")
    if skill.typed_right < LEAST_TYPED_RIGHT:
        missing.append("few-typed")
    elif len(skill.typed_right_days) < LEAST_DAYS:
        missing.append("one-day")
    if probability < MASTERED_FROM:
        missing.append("below" if probability < 1 / 2 else "uncertain")
    return tuple(missing)


def _normal_below(z: float) -> float:
    return (1 + erf(z / sqrt(2))) / 2
