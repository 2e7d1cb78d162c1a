"""How likely an exam profile would be passed: section by section, from the learner's state. An estimate, in words."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import comb, sqrt
from typing import Literal

from app.learner.evidence import MISCONCEPTION_HOLD, SLIP, Level, Skill
from app.learner.logistic import sigmoid
from app.learner.quadrature import normal_nodes

LEVEL_NODES = 11
SKILL_NODES = 9
SKILL_VARIANCE_KEPT = 0.6
LEAST_ANSWERS_A_SKILL = 3

Words = Literal["not-enough", "unlikely", "open", "likely", "very-likely"]


@dataclass(frozen=True, slots=True)
class Asked:
    """Part of an exam's blueprint: a skill, how many questions of it, options an item, difficulty."""

    family: str
    questions: int
    options: int
    difficulty: float


@dataclass(frozen=True, slots=True)
class Section:
    """A section of an exam: what it asks of us, and the least number right, 0 where it has no mark of its own."""

    name: str
    asked: tuple[Asked, ...]
    least_right: int


@dataclass(frozen=True, slots=True)
class Readiness:
    """The chance of passing, as words and number; per section; the limiting one; or that there are too few answers."""

    words: Words
    chance: float
    sections: Mapping[str, float]
    limiting: str


def readiness(level: Level, skills: Mapping[str, Skill], sections: Sequence[Section], least_right: int) -> Readiness:
    """Return the chance of reaching `least_right` in all and every section's own mark.

    The skills are as of the exam's day (`evidence.aged`). One of the blueprint with fewer than three answers makes it
    "not enough answers yet".
    """
    wanted = {asked.family for section in sections for asked in section.asked}
    if any(skills.get(name, Skill()).answers < LEAST_ANSWERS_A_SKILL for name in wanted):
        return Readiness("not-enough", 0.0, {}, "")
    spread = sqrt(level.variance)
    total, by_section = 0.0, dict.fromkeys((section.name for section in sections), 0.0)
    for x, weight in normal_nodes(LEVEL_NODES):
        ability = level.mean + spread * x
        whole = [1.0]
        for section in sections:
            scores = _section_scores(ability, skills, section)
            by_section[section.name] += weight * sum(scores[section.least_right :])
            whole = convolve(whole, [0.0] * section.least_right + scores[section.least_right :])
        total += weight * sum(whole[least_right:])
    limiting = min(by_section, key=lambda name: by_section[name])
    return Readiness(in_words(total), total, by_section, limiting)


def in_words(chance: float) -> Words:
    """Return the range a chance lies in: under .3, .3 to .7, .7 to .9, from .9."""
    if chance < 0.3:
        return "unlikely"
    if chance < 0.7:
        return "open"
    return "likely" if chance < 0.9 else "very-likely"


def score_distribution(
    mean: float, variance: float, asked: Asked, misconceived: float = 0.0, shown: float = 1.0
) -> list[float]:
    """Return the chances of 0, 1, ... right out of the questions asked, ability normal on the logit scale.

    misconceived: the probability that a misconception is held; shown: the share of the questions that can show it.
    """
    floor = 1 / asked.options if asked.options else 0.02
    spread = sqrt(variance)
    chances = [0.0] * (asked.questions + 1)
    for x, weight in normal_nodes(SKILL_NODES):
        p = floor + (1 - SLIP - floor) * sigmoid(mean + spread * x - asked.difficulty)
        for right, chance in enumerate(binomial(asked.questions, p)):
            chances[right] += weight * (1 - misconceived) * chance
        for right, chance in enumerate(binomial(asked.questions, (1 - MISCONCEPTION_HOLD * shown) * p)):
            chances[right] += weight * misconceived * chance
    return chances


def binomial(count: int, p: float) -> list[float]:
    """Return the chances of 0 .. count successes."""
    return [comb(count, k) * p**k * (1 - p) ** (count - k) for k in range(count + 1)]


def convolve(left: Sequence[float], right: Sequence[float]) -> list[float]:
    """Return the distribution of the sum of two independent counts."""
    out = [0.0] * (len(left) + len(right) - 1)
    for i, a in enumerate(left):
        for j, b in enumerate(right):
            out[i + j] += a * b
    return out


def _section_scores(ability: float, skills: Mapping[str, Skill], section: Section) -> list[float]:
    scores = [1.0]
    for asked in section.asked:
        skill = skills[asked.family]
        variance = SKILL_VARIANCE_KEPT * skill.variance
        held, shown = skill.misconceived, _share_shown(asked, skill)
        scores = convolve(scores, score_distribution(ability + skill.mean, variance, asked, held, shown))
    return scores


def _share_shown(asked: Asked, skill: Skill) -> float:
    """Return how many questions in one can show a certain misconception: one has room for as many as wrong options."""
    if not asked.options or not skill.misconceptions:
        return 1.0
    return min(1.0, (asked.options - 1) / len(skill.misconceptions))
