"""Synthetic learners of six kinds: what they know, how they answer, learn, forget and hold misconceptions.

They answer by the model's equations with constants of their own, so that fitting the model does not move whom it is
judged by.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import log
from random import Random

from app.learner.difficulty import GRADES
from app.learner.evidence import Posed
from app.learner.logistic import sigmoid
from app.packs.library import Library

OPTIONS = 4
SKILL_VARIANCE = 0.7
GAIN = 0.30
SLIP = 0.05
TYPED_GUESS = 0.02
TYPED_WRONG_SHARE = 0.04
HELD = 0.10
HOLD = 0.8
EXPLAINED = 0.08
FEATURE_SPREAD = 0.3
MASTERY = log(0.8 / 0.2)


@dataclass(frozen=True, slots=True)
class Kind:
    """How a kind differs: where its level lies, how much an answer teaches, what share is thrown at random.

    fading: logits a day without practice. held: share of skills with a misconception.
    """

    level: float = 0.0
    gain: float = GAIN
    careless: float = 0.0
    fading: float = 0.0
    held: float = HELD


KINDS: Mapping[str, Kind] = {
    "steady": Kind(),
    "guesser": Kind(level=-0.5, careless=0.25),
    "forgetful": Kind(fading=0.05),
    "misconception": Kind(held=0.35),
    "pretrained": Kind(level=1.2, held=0.03),
    "plateau": Kind(gain=0.05),
}


@dataclass(frozen=True, slots=True)
class Kin:
    """What the simulation takes of a family: how hard it is and which misconceptions it knows."""

    id: str
    difficulty: float
    misconceptions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Question:
    """A question: of which family, and what the model knows of it."""

    family: str
    posed: Posed


@dataclass(frozen=True, slots=True)
class Given:
    """An answer: right or not, and the misconception whose value it is."""

    correct: bool
    shown: tuple[str, ...] = ()


@dataclass(slots=True)
class SyntheticLearner:
    """Somebody whose true state is known."""

    kind: Kind
    rng: Random
    level: float
    skills: dict[str, float]
    held: dict[str, str] = field(default_factory=dict)

    def ability(self, family: str) -> float:
        """Return the true ability in a family, on the logit scale."""
        return self.level + self.skills[family]

    def masters(self, family: str) -> bool:
        """Whether four plain questions in five would be right, and no misconception is held."""
        return self.ability(family) >= MASTERY and family not in self.held

    def chance(self, question: Question) -> float:
        """Return the true probability of a right answer."""
        floor = guess(question.posed.options)
        p = (1 - self.kind.careless) * self._knowing(question) + self.kind.careless * floor
        return (1 - HOLD) * p if self.held.get(question.family) in question.posed.offered else p

    def answer(self, question: Question) -> Given:
        """Answer a question."""
        held, rng = self.held.get(question.family), self.rng
        if held in question.posed.offered and rng.random() < HOLD:
            return Given(False, (str(held),))  # noqa: FBT003 - an answer
        p = self._knowing(question)
        if rng.random() < (guess(question.posed.options) if rng.random() < self.kind.careless else p):
            return Given(True)  # noqa: FBT003 - an answer
        return Given(False, self._wrong(question.posed))  # noqa: FBT003 - an answer

    def _knowing(self, question: Question) -> float:
        floor = guess(question.posed.options)
        return floor + (1 - SLIP - floor) * sigmoid(self.ability(question.family) - question.posed.difficulty)

    def learn(self, family: str, given: Given) -> None:
        """Take in the answer and its explanation."""
        self.skills[family] += self.kind.gain * (1 - sigmoid(self.ability(family)))
        if not given.correct and family in self.held and self.rng.random() < EXPLAINED:
            del self.held[family]

    def sleep(self, days: float, practised: Mapping[str, float]) -> None:
        """Let days pass; what was practised holds until then."""
        for family in self.skills:
            if family not in practised:
                self.skills[family] -= self.kind.fading * days

    def _wrong(self, posed: Posed) -> tuple[str, ...]:
        if not posed.offered:
            return ()
        if posed.options:
            return (self.rng.choice(posed.offered),)
        hit = self.rng.random() < TYPED_WRONG_SHARE * len(posed.offered)
        return (self.rng.choice(posed.offered),) if hit else ()


def guess(options: int) -> float:
    """Return the chance of a right answer without knowledge."""
    return 1 / options if options else TYPED_GUESS


def kin_of(library: Library, count: int, rng: Random) -> tuple[Kin, ...]:
    """Return some real families, as the simulation sees them."""
    return tuple(rng.sample(all_kin(library), count))


def all_kin(library: Library) -> tuple[Kin, ...]:
    """Return every real family, as the simulation sees it."""
    families = [library.family(name) for name in sorted(library.families)]
    return tuple(Kin(each.id, GRADES[each.grade], tuple(m.id for m in each.misconceptions)) for each in families)


def new_learner(kind: Kind, families: Sequence[Kin], rng: Random) -> SyntheticLearner:
    """Return a learner of a kind, drawn from the model's own priors around the kind's level."""
    skills = {family.id: rng.gauss(0, SKILL_VARIANCE**0.5) for family in families}
    held = {
        family.id: rng.choice(family.misconceptions)
        for family in families
        if family.misconceptions and rng.random() < kind.held
    }
    return SyntheticLearner(kind, rng, rng.gauss(kind.level, 1.0), skills, held)


def pose(family: Kin, rng: Random) -> Question:
    """Return a question of a family: half of them typed, the others with four options."""
    hard = family.difficulty + rng.gauss(0, FEATURE_SPREAD)
    if rng.random() < 1 / 2:
        return Question(family.id, Posed(hard, 0, family.misconceptions))
    wrong = min(OPTIONS - 1, len(family.misconceptions))
    return Question(family.id, Posed(hard, OPTIONS, tuple(rng.sample(family.misconceptions, wrong))))
