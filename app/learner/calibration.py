"""What the answers of many learners say about a family's difficulty, held near the author's grade by a normal prior.

Each learner's answers to the family are gone through with the filter itself, at a supposed difficulty, from a skill
never seen: what one learner is better or worse at is then no evidence about the family. The penalised likelihood of all
is raised to its maximum by Newton steps with the expected curvature.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from app.learner.difficulty import FamilyDifficulty, first_difficulty
from app.learner.evidence import Evidence, Level, learn, new_skill, predict_right

GRADE_SPREAD = 0.5
FEATURE_SPREAD = 0.3
ROUNDS = 4
NUDGE = 0.05
FARTHEST = 3.0

Numbers = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class PooledAnswer:
    """One answer with the learner's level before it and the item's features."""

    level: Level
    evidence: Evidence
    features: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Calibrated:
    """A family's difficulty with the standard error of a plain item's, and whose answers say so."""

    difficulty: FamilyDifficulty
    error: float
    answers: int
    learners: int


def calibrate(grade: str, misconceptions: tuple[str, ...], courses: Sequence[Sequence[PooledAnswer]]) -> Calibrated:
    """Return the family's difficulty; courses: each learner's answers to it, in order."""
    names = sorted({name for course in courses for answer in course for name in answer.features})
    prior = np.array([first_difficulty(grade).plain] + [0.0] * len(names))
    precision = np.array([GRADE_SPREAD**-2] + [FEATURE_SPREAD**-2] * len(names))
    found, right = prior, np.array([float(each.evidence.correct) for course in courses for each in course])
    curvature = np.diag(precision)
    for _ in range(ROUNDS if right.size else 0):
        chances, slopes = _slopes(found, names, misconceptions, courses)
        spread = chances * (1 - chances)
        curvature = slopes.T @ (slopes / spread[:, None]) + np.diag(precision)
        gradient = slopes.T @ ((right - chances) / spread) - precision * (found - prior)
        found = np.clip(found + np.linalg.solve(curvature, gradient), -FARTHEST, FARTHEST)
    error = float(np.sqrt(np.linalg.inv(curvature)[0, 0]))
    return Calibrated(_difficulty(found, names), error, right.size, len(courses))


def _slopes(
    at: Numbers, names: Sequence[str], misconceptions: tuple[str, ...], courses: Sequence[Sequence[PooledAnswer]]
) -> tuple[Numbers, Numbers]:
    """Return each answer's chance of being right, and how it changes with every coordinate."""
    base = _chances(_difficulty(at, names), misconceptions, courses)
    nudged = [_chances(_difficulty(at + step, names), misconceptions, courses) for step in NUDGE * np.eye(at.size)]
    return base, (np.array(nudged) - base).T / NUDGE


def _chances(
    difficulty: FamilyDifficulty, misconceptions: tuple[str, ...], courses: Sequence[Sequence[PooledAnswer]]
) -> Numbers:
    chances = []
    for course in courses:
        skill = new_skill(misconceptions)
        for answer in course:
            posed = replace(answer.evidence.posed, difficulty=difficulty.of(answer.features))
            chances.append(predict_right(answer.level, skill, posed, answer.evidence.at))
            skill = learn(answer.level, skill, replace(answer.evidence, posed=posed))[1]
    return np.array(chances)


def _difficulty(at: Numbers, names: Sequence[str]) -> FamilyDifficulty:
    plain, *weights = at.tolist()
    return FamilyDifficulty(plain, dict(zip(names, weights, strict=True)))
