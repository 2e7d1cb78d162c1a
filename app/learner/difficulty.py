"""How hard an item is, on the logit scale: its family's grade, moved by what this item holds."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from app.learner.logistic import sigmoid

GRADES: Mapping[str, float] = {"easy": -0.7, "medium": 0.0, "hard": 0.7}
GRADE_SPREAD = 0.5
FEATURE_SPREAD = 0.3
ROUNDS = 30


@dataclass(frozen=True, slots=True)
class FamilyDifficulty:
    """A family's difficulty: of a plain item, and what each feature (from -1 to 1) adds."""

    plain: float
    weights: Mapping[str, float] = field(default_factory=dict)

    def of(self, features: Mapping[str, float]) -> float:
        """Return the difficulty of an item with these features."""
        return self.plain + sum(self.weights.get(name, 0.0) * value for name, value in features.items())


@dataclass(frozen=True, slots=True)
class PooledAnswer:
    """One answer for calibration: the learner's ability when it was given, guess chance, features, right or not."""

    ability: float
    guess: float
    features: Mapping[str, float]
    correct: bool


def first_difficulty(grade: str) -> FamilyDifficulty:
    """Return what the author's grade says, before anybody answered."""
    return FamilyDifficulty(GRADES[grade])


def calibrate(grade: str, answers: Sequence[PooledAnswer]) -> FamilyDifficulty:
    """Return the family's difficulty from pooled answers, held near the author's grade by a normal prior.

    Gradient steps on the penalised log likelihood, each coordinate with its own curvature; about 100 answers suffice.
    """
    prior = GRADES[grade]
    plain, weights = prior, dict.fromkeys(sorted({name for answer in answers for name in answer.features}), 0.0)
    for _ in range(ROUNDS):
        slopes = [_slope(answer, FamilyDifficulty(plain, weights)) for answer in answers]
        plain += _step(((s, 1.0) for s in slopes), plain - prior, GRADE_SPREAD)
        for name in weights:
            parts = ((s, answer.features.get(name, 0.0)) for s, answer in zip(slopes, answers, strict=True))
            weights[name] += _step(parts, weights[name], FEATURE_SPREAD)
    return FamilyDifficulty(plain, weights)


def _slope(answer: PooledAnswer, difficulty: FamilyDifficulty) -> tuple[float, float]:
    """Return the first and (negative) second slope of one answer's log likelihood against difficulty."""
    s = sigmoid(answer.ability - difficulty.of(answer.features))
    p = answer.guess + (1 - answer.guess) * s
    change = (1 - answer.guess) * s * (1 - s)
    return (-change / p if answer.correct else change / (1 - p)), change * change / (p * (1 - p))


def _step(slopes: Iterable[tuple[tuple[float, float], float]], from_prior: float, spread: float) -> float:
    """Return a damped Newton step of one coordinate."""
    first, second = -from_prior / spread**2, 1 / spread**2
    for (slope, curvature), feature in slopes:
        first += slope * feature
        second += curvature * feature * feature
    return 0.5 * first / second
