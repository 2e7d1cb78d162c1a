"""What to ask next: due reviews first, then the skill where an answer helps most; and how hard the item should be."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from math import log1p
from random import Random
from typing import Literal

from app.learner.evidence import MISCONCEPTION_PRIOR, Level, Posed, Skill, predict_right
from app.learner.mastery import judge

Purpose = Literal["learn", "diagnose", "consolidate"]
WANTED_RIGHT: Mapping[Purpose, float] = {"learn": 0.725, "diagnose": 0.65, "consolidate": 0.825}
SKIPPED_LAST = 2
REST_COUNTS = 2  # how much days without it speak for a skill
RIGHT_COUNTS = 1 / 2  # how much each right answer speaks against it
STUCK_ANSWERS = 8
STUCK_BELOW = 0.2
MISCONCEIVED_ABOVE = 0.8
SUSPECTED_ABOVE = 0.05
TELLING = 6.0  # how far off the wanted share right an item may lie to show misconceptions of probability 1
NEED_DIGITS = 6  # beyond that two needs differ by rounding alone, and chance decides


@dataclass(frozen=True, slots=True)
class Candidate:
    """A skill that could be asked: its state, its exam weight, when a review is due, answers since it last gained."""

    family: str
    skill: Skill
    weight: float = 1.0
    due_at: datetime | None = None
    mastered: bool = False
    since_gain: int = 0


@dataclass(frozen=True, slots=True)
class Choice:
    """The skill chosen and why.

    contrast: the misconception to meet head on: show the contrast item and its explanation, not another plain drill.
    suspect: one that may be held; an item that can show it settles the matter.
    """

    family: str
    reason: Literal["due", "misconception", "weakest"]
    purpose: Purpose
    contrast: str | None = None
    suspect: str | None = None


def choose(
    level: Level, candidates: Sequence[Candidate], last: Sequence[str], now: datetime, rng: Random
) -> Choice | None:
    """Return what to ask next, or None when there is nothing; the last two skills asked are skipped where possible."""
    fresh = [each for each in candidates if each.family not in last[-SKIPPED_LAST:]] or list(candidates)
    if not fresh:
        return None
    due = [each for each in fresh if each.due_at is not None and each.due_at <= now]
    if due:
        first = min(due, key=lambda each: (each.due_at or now, each.family))
        purpose: Purpose = "consolidate" if first.mastered else "learn"
        return Choice(first.family, "due", purpose, _contrast(level, first, now), _suspect(first))
    scored = [(round(_need(level, each, now), NEED_DIGITS), rng.random(), each) for each in fresh]
    best = max(scored, key=lambda entry: entry[:2])[2]
    contrast = _contrast(level, best, now)
    purpose = "diagnose" if best.skill.answers < 2 else "consolidate" if best.mastered else "learn"
    return Choice(best.family, "misconception" if contrast else "weakest", purpose, contrast, _suspect(best))


def _need(level: Level, candidate: Candidate, now: datetime) -> float:
    skill = candidate.skill
    days = (now - skill.last_at).total_seconds() / 86400 if skill.last_at else 0.0
    missing = 1 - judge(level, skill, now).probability
    return candidate.weight * missing * (1 + REST_COUNTS * log1p(max(days, 0.0))) / (1 + RIGHT_COUNTS * skill.right)


def _contrast(level: Level, candidate: Candidate, now: datetime) -> str | None:
    """Return the misconception to meet head on, if one is likely or the skill is stuck."""
    name = _likeliest(candidate.skill)
    if name is None or candidate.skill.misconceptions[name] > MISCONCEIVED_ABOVE:
        return name
    stuck = candidate.since_gain >= STUCK_ANSWERS and judge(level, candidate.skill, now).probability < STUCK_BELOW
    return name if stuck else None


def _suspect(candidate: Candidate) -> str | None:
    """Return the likeliest misconception, if it is likelier than of somebody never seen."""
    name, held = _likeliest(candidate.skill), candidate.skill.misconceptions
    if name is None or held[name] <= max(SUSPECTED_ABOVE, MISCONCEPTION_PRIOR / len(held)):
        return None
    return name


def _likeliest(skill: Skill) -> str | None:
    held = skill.misconceptions
    return max(held, key=lambda each: held[each]) if held else None


def best_suited(level: Level, skill: Skill, posed: Sequence[Posed], purpose: Purpose, now: datetime) -> int:
    """Return the index of the item that suits best: near the wanted share right, and able to show what may be held."""

    def off(each: Posed) -> float:
        held = sum(skill.misconceptions.get(name, 0.0) for name in each.offered)
        return abs(predict_right(level, skill, each, now) - WANTED_RIGHT[purpose]) - TELLING * held

    gaps = [off(each) for each in posed]
    return gaps.index(min(gaps))
