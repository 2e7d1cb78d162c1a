"""The learner model: a two-level Gaussian filter with a misconception channel. One answer costs constant time.

A learner has a level, and for each family a skill on top of it, both normal on the logit scale; and a probability for
each named misconception. The constants are the project's choice, fitted to one batch of simulated learners and judged
on others, not on people. What is not practised fades: the skill sinks and gets doubtful again.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from math import log1p, sqrt

from app.learner.logistic import sigmoid
from app.learner.quadrature import normal_nodes

NODES = 15
LEVEL_VARIANCE = 1.5
SKILL_VARIANCE = 0.9
LEVEL_NOISE = 0.001
SKILL_NOISE = 0.005
LEVEL_FLOOR = 0.01
SKILL_FLOOR = 0.02
PRACTICE = 0.25
REST_DAYS = 2.0  # so long what was practised holds
FADING = 0.30
FADING_ANSWERS = 6
DOUBT_PER_DAY = 0.03
MOST_DOUBT = 1.0  # more than of somebody never seen: after a long gap even a surprise is believed
SLIP = 0.05
TYPED_GUESS = 0.02
TYPED_WRONG_SHARE = 0.04
FEWEST_SLIPS = 2
MISCONCEPTION_PRIOR = 0.12
MISCONCEPTION_HOLD = 0.8
EXPLAINED = 0.08


@dataclass(frozen=True, slots=True)
class Level:
    """A learner's level over all skills: mean and variance on the logit scale."""

    mean: float = 0.0
    variance: float = LEVEL_VARIANCE


@dataclass(frozen=True, slots=True)
class Skill:
    """One family's skill on top of the level, its misconceptions' probabilities, and what mastery needs to know."""

    mean: float = 0.0
    variance: float = SKILL_VARIANCE
    answers: int = 0
    right: int = 0
    last_at: datetime | None = None
    typed_right: int = 0
    typed_right_days: tuple[date, ...] = ()
    misconceptions: Mapping[str, float] = field(default_factory=dict)

    @property
    def misconceived(self) -> float:
        """The probability that some misconception is held."""
        return sum(self.misconceptions.values())


@dataclass(frozen=True, slots=True)
class Posed:
    """What the model has to know of an item.

    difficulty on the logit scale; options: how many were offered, 0 where one answers without; offered: the
    misconceptions this item could show; listed: things are ticked, sorted or matched, so that somebody who holds none
    of them shows one easily.
    """

    difficulty: float
    options: int
    offered: tuple[str, ...] = ()
    listed: bool = False

    @property
    def wrong_share(self) -> float:
        """The chance that a wrong answer of somebody who holds no misconception shows a certain one."""
        if self.options:
            return 1 / (self.options - 1)
        return 1 / max(len(self.offered), FEWEST_SLIPS) if self.listed else TYPED_WRONG_SHARE


@dataclass(frozen=True, slots=True)
class Evidence:
    """One graded answer.

    shown: the misconceptions whose value the answer equals; fast: far faster than reading allows, so it says nothing.
    day: the learner's own date, that of UTC where it is not known.
    """

    posed: Posed
    correct: bool
    at: datetime
    shown: tuple[str, ...] = ()
    fast: bool = False
    day: date | None = None


def new_skill(misconceptions: tuple[str, ...]) -> Skill:
    """Return the skill of somebody never seen: an eighth of probability shared over the family's misconceptions."""
    share = MISCONCEPTION_PRIOR / len(misconceptions) if misconceptions else 0.0
    return Skill(misconceptions=dict.fromkeys(misconceptions, share))


def predict_right(level: Level, skill: Skill, posed: Posed, now: datetime) -> float:
    """Return the probability of a right answer; only misconceptions that the item could show stand in its way."""
    mean, variance = _prior(level, aged(skill, now), posed.difficulty)
    hits = sum(weight * p for _, weight, p in _curve(mean, variance, guess(posed.options)))
    return (1 - MISCONCEPTION_HOLD * sum(skill.misconceptions.get(name, 0.0) for name in posed.offered)) * hits


def guess(options: int) -> float:
    """Return the chance of a right answer without knowledge: 1 in k options, 2 in 100 typed."""
    return 1 / options if options else TYPED_GUESS


def aged(skill: Skill, now: datetime) -> Skill:
    """Return the skill as the days since its last answer leave it: lower, more so after few answers, and in doubt."""
    idle = _idle_days(skill, now)
    if idle <= 0:
        return skill
    doubt = max(skill.variance, min(skill.variance + DOUBT_PER_DAY * idle, MOST_DOUBT))
    return replace(skill, mean=_sunk(skill, idle), variance=doubt)


def aged_mean(skill: Skill, now: datetime) -> float:
    """Return only the mean of the aged skill."""
    idle = _idle_days(skill, now)
    return _sunk(skill, idle) if idle > 0 else skill.mean


def _idle_days(skill: Skill, now: datetime) -> float:
    return (now - skill.last_at).total_seconds() / 86400 - REST_DAYS if skill.last_at else 0.0


def _sunk(skill: Skill, idle_days: float) -> float:
    return skill.mean - FADING * log1p(idle_days / (1 + skill.answers / FADING_ANSWERS))


def learn(level: Level, skill: Skill, evidence: Evidence) -> tuple[Level, Skill]:
    """Return level and skill after an answer; one given too fast to have been read changes only the count of days."""
    if evidence.fast:
        return level, replace(skill, last_at=evidence.at)
    skill = aged(skill, evidence.at)
    mean, variance = _prior(level, skill, evidence.posed.difficulty)
    posterior = _observe(mean, variance, skill, evidence)
    level_after = _moved(level.mean, level.variance, variance, posterior)
    skill_after = _moved(skill.mean, skill.variance, variance, posterior)
    new_level = Level(level_after[0], min(max(level_after[1], LEVEL_FLOOR) + LEVEL_NOISE, LEVEL_VARIANCE))
    able = sigmoid(new_level.mean + skill_after[0])
    practised = skill_after[0] + PRACTICE * (1 - able)
    nearer = 1 - PRACTICE * able * (1 - able)  # who knows less gains more: practice brings skills closer together
    new_variance = max(nearer * nearer * skill_after[1], SKILL_FLOOR) + SKILL_NOISE
    return new_level, _counted(skill, evidence, practised, new_variance, posterior.misconceptions)


@dataclass(frozen=True, slots=True)
class _Posterior:
    shift: float
    shrink: float
    misconceptions: Mapping[str, float]


def _prior(level: Level, skill: Skill, difficulty: float) -> tuple[float, float]:
    return level.mean + skill.mean - difficulty, level.variance + skill.variance


def _curve(mean: float, variance: float, floor: float) -> list[tuple[float, float, float]]:
    """Return (ability, weight, probability right) at every node."""
    spread = sqrt(variance)
    nodes = ((mean + spread * x, weight) for x, weight in normal_nodes(NODES))
    return [(x, weight, floor + (1 - SLIP - floor) * sigmoid(x)) for x, weight in nodes]


def _observe(mean: float, variance: float, skill: Skill, evidence: Evidence) -> _Posterior:
    """Weigh the nodes by the likelihood of what was seen."""
    held = {name: skill.misconceptions.get(name, 0.0) for name in evidence.posed.offered}
    none = 1 - MISCONCEPTION_HOLD * sum(held.values())
    seen = MISCONCEPTION_HOLD * sum(held.get(name, 0.0) for name in evidence.shown)
    curve = _curve(mean, variance, guess(evidence.posed.options))
    outcomes = [_outcome(p, evidence) for _, _, p in curve]
    likelihoods = [none * outcome + seen for outcome in outcomes]
    total = sum(w * like for (_, w, _), like in zip(curve, likelihoods, strict=True))
    first = sum(w * like * x for (x, w, _), like in zip(curve, likelihoods, strict=True)) / total
    second = sum(w * like * x * x for (x, w, _), like in zip(curve, likelihoods, strict=True)) / total
    average = sum(w * outcome for (_, w, _), outcome in zip(curve, outcomes, strict=True))
    return _Posterior(first - mean, second - first * first - variance, _blame(skill, evidence, average))


def _outcome(p: float, evidence: Evidence) -> float:
    """Return the chance of what was seen from somebody without misconceptions who is right with probability p."""
    if evidence.correct:
        return p
    share = evidence.posed.wrong_share
    if evidence.shown:
        return (1 - p) * share
    return (1 - p) * max(1 - share * len(evidence.posed.offered), share)


def _blame(skill: Skill, evidence: Evidence, average: float) -> Mapping[str, float]:
    """Return the misconceptions' probabilities after the answer and, if it was wrong, its explanation."""
    if not skill.misconceptions:
        return {}
    weighed = {}
    for name, probability in skill.misconceptions.items():
        if name in evidence.posed.offered:
            hit = MISCONCEPTION_HOLD if name in evidence.shown else 0.0
            weighed[name] = probability * ((1 - MISCONCEPTION_HOLD) * average + hit)
        else:
            weighed[name] = probability * average
    total = sum(weighed.values()) + (1 - skill.misconceived) * average
    kept = 1.0 if evidence.correct else 1 - EXPLAINED
    return {name: kept * value / total for name, value in weighed.items()}


def _moved(mean: float, own: float, whole: float, posterior: _Posterior) -> tuple[float, float]:
    share = own / whole
    return mean + share * posterior.shift, own + share * share * posterior.shrink


def _counted(
    skill: Skill, evidence: Evidence, mean: float, variance: float, misconceptions: Mapping[str, float]
) -> Skill:
    typed_right = evidence.correct and not evidence.posed.options
    days = skill.typed_right_days
    day = evidence.day or evidence.at.date()
    if typed_right and day not in days and len(days) < 2:
        days = (*days, day)
    return Skill(
        mean=mean,
        variance=variance,
        answers=skill.answers + 1,
        right=skill.right + evidence.correct,
        last_at=evidence.at,
        typed_right=skill.typed_right + typed_right,
        typed_right_days=days,
        misconceptions=misconceptions,
    )
