"""A class's weak spots: every skill's share right drawn toward the class's own mean, with an honest interval.

Partial pooling on the logit scale; between-skill variance by DerSimonian and Laird 1986 (Controlled Clinical Trials 7,
177), stabilised. Why pooling, not a cut-off: Gelman, Hill and Yajima 2012 (J. Res. Educ. Effectiveness 5, 189).
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import exp, log, sqrt

from app.insight.distributions import Z95, beta_quantile, normal_below

STUDENT_VARIANCE = 0.03
PRIOR_TAU2 = 0.15
PRIOR_SKILLS = 3
BELOW_MEAN = 0.05
FLAG_ABOVE = 0.8
FEW_STUDENTS = 5
HELD_FROM = 0.5
SMALL_CLASS = 12
SMALL_CLASS_WIDENING = 1.3
MISCONCEPTION_PRIOR = (1.0, 9.0)


@dataclass(frozen=True, slots=True)
class SkillCount:
    """What a class answered of one skill: right and answered, student by student."""

    skill: str
    answers: tuple[int, ...]
    right: int

    @property
    def answered(self) -> int:
        """All answers."""
        return sum(self.answers)


@dataclass(frozen=True, slots=True)
class WeakSpot:
    """One skill in a class: estimate with its 95 % interval, students and answers behind it, whether it is flagged."""

    skill: str
    estimate: float
    low: float
    high: float
    students: int
    answers: int
    flagged: bool

    @property
    def few(self) -> bool:
        """Whether fewer than five students stand behind it: a caution belongs beside it."""
        return self.students < FEW_STUDENTS


@dataclass(frozen=True, slots=True)
class _Raw:
    count: SkillCount
    z: float
    variance: float


def weak_spots(counts: Sequence[SkillCount]) -> tuple[WeakSpot, ...]:
    """Return every skill with answers, weakest first."""
    raw = [_Raw(count, *raw_share(count)) for count in counts if count.answered]
    if not raw:
        return ()
    mean, mean_variance, tau2 = _pool(raw)
    spots = [_spot(each, mean, mean_variance, tau2) for each in raw]
    return tuple(sorted(spots, key=lambda spot: (spot.estimate, spot.skill)))


def raw_share(count: SkillCount) -> tuple[float, float]:
    """Return a skill's share right by itself, on the logit scale, and its variance; there must be answers."""
    p = _share(count.right, count.answered)
    return log(p / (1 - p)), _variance(count, p)


def _share(right: int, answered: int) -> float:
    return (right + 0.5) / (answered + 1)


def _variance(count: SkillCount, p: float) -> float:
    """Return the variance on the logit scale of a skill's share right where its true share is p."""
    total, students = count.answered, sum(1 for n in count.answers if n)
    uneven = sum((n / total - 1 / students) ** 2 for n in count.answers if n)
    spread = p * (1 - p)
    return (spread / (total + 1) + STUDENT_VARIANCE * uneven) / spread**2


def _pool(raw: Sequence[_Raw]) -> tuple[float, float, float]:
    """Return the class mean on the logit scale, its variance, and the variance between skills."""
    tau2 = _between(raw)
    weights = [1 / (each.variance + tau2) for each in raw]
    mean = sum(w * each.z for w, each in zip(weights, raw, strict=True)) / sum(weights)
    return mean, 1 / sum(weights), tau2


def _between(raw: Sequence[_Raw]) -> float:
    """Return the variance between skills: what was found, drawn to what is usual, the more the less the answers tell.

    Found with each skill's variance as it were at the class's own share: its own would be largest where few answers are
    all right or all wrong, and hide how far skills lie apart. A skill tells by the square of its reliability: it counts
    whole only where its own variance is small beside what is usual.
    """
    share = _share(sum(each.count.right for each in raw), sum(each.count.answered for each in raw))
    variances = [_variance(each.count, share) for each in raw]
    weights = [1 / each for each in variances]
    centre = sum(w * each.z for w, each in zip(weights, raw, strict=True)) / sum(weights)
    heterogeneity = sum(w * (each.z - centre) ** 2 for w, each in zip(weights, raw, strict=True))
    scale = sum(weights) - sum(w * w for w in weights) / sum(weights)
    found = max(0.0, (heterogeneity - (len(raw) - 1)) / scale) if len(raw) > 1 else 0.0
    told = max(0.0, sum((PRIOR_TAU2 / (PRIOR_TAU2 + each)) ** 2 for each in variances) - 1)
    return (told * found + PRIOR_SKILLS * PRIOR_TAU2) / (told + PRIOR_SKILLS)


def _spot(raw: _Raw, mean: float, mean_variance: float, tau2: float) -> WeakSpot:
    pull = raw.variance / (raw.variance + tau2)
    z = mean + (1 - pull) * (raw.z - mean)
    spread = sqrt((1 - pull) * raw.variance + pull * pull * mean_variance)
    students = sum(1 for n in raw.count.answers if n)
    reach = Z95 * spread * (SMALL_CLASS_WIDENING if students < SMALL_CLASS else 1.0)
    bar = max(_probability(mean) - BELOW_MEAN, 0.01)
    below = normal_below((log(bar / (1 - bar)) - z) / spread)
    return WeakSpot(
        skill=raw.count.skill,
        estimate=_probability(z),
        low=_probability(z - reach),
        high=_probability(z + reach),
        students=students,
        answers=raw.count.answered,
        flagged=below > FLAG_ABOVE,
    )


@dataclass(frozen=True, slots=True)
class HeldMisconception:
    """A misconception in a class: who likely holds it, the share with its 95 % interval, and how many students."""

    misconception: str
    holders: tuple[str, ...]
    share: float
    low: float
    high: float
    students: int

    @property
    def few(self) -> bool:
        """Whether fewer than five students stand behind it."""
        return self.students < FEW_STUDENTS


def held_misconceptions(
    probabilities: Mapping[str, Mapping[str, float]], *, held_from: float = HELD_FROM
) -> tuple[HeldMisconception, ...]:
    """Return what somebody likely holds, by misconception -> student -> probability, the most widely held first.

    The share is the mean probability drawn toward a tenth as a Beta(1, 9) prior draws it.
    """
    found = []
    for name, by_student in probabilities.items():
        if max(by_student.values(), default=0.0) < held_from:
            continue
        expected, students = sum(by_student.values()), len(by_student)
        a = MISCONCEPTION_PRIOR[0] + expected
        b = MISCONCEPTION_PRIOR[1] + students - expected
        holders = tuple(sorted((s for s, p in by_student.items() if p >= held_from), key=lambda s: -by_student[s]))
        found.append(
            HeldMisconception(
                name, holders, a / (a + b), beta_quantile(0.025, a, b), beta_quantile(0.975, a, b), students
            )
        )
    return tuple(sorted(found, key=lambda each: (-len(each.holders), -each.share, each.misconception)))


def _probability(z: float) -> float:
    return 1 / (1 + exp(-z))
