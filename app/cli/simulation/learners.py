"""Synthetic learners of six kinds: what they know, how they answer, learn, forget and hold misconceptions.

They answer by the model's equations with constants of their own, so that fitting the model does not move whom it is
judged by.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import log
from random import Random

from app.cli.simulation.shapes import Kin, Shape
from app.learner.evidence import Posed
from app.learner.logistic import sigmoid

SKILL_VARIANCE = 0.7
GAIN = 0.30
SLIP = 0.05
TYPED_GUESS = 0.02
TYPED_WRONG_SHARE = 0.04
LIST_WRONG_SHARE = 0.6  # of the lists filled in wrong: so many show some misconception by chance
HELD = 0.10
HOLD = 0.8
EXPLAINED = 0.08
FEATURE_SPREAD = 0.3
MASTERY = log(0.8 / 0.2)


@dataclass(frozen=True, slots=True)
class Kind:
    """How a kind differs: where its level lies, how much an answer teaches, what share is thrown at random.

    fading: logits a day without practice. held: share of skills with a misconception. mended: the chance that an
    explanation ends one.
    """

    level: float = 0.0
    gain: float = GAIN
    careless: float = 0.0
    fading: float = 0.0
    held: float = HELD
    mended: float = EXPLAINED


@dataclass(frozen=True, slots=True)
class Population:
    """How far learners lie apart: spread multiplies the deviations of levels and starting skills, level is added."""

    spread: float = 1.0
    level: float = 0.0


OWN = Population()
# As far apart as where the aim of the log loss was set: docs/simulation.md says how these two numbers were found.
ANCHORED = Population(spread=1.59, level=-0.05)

KINDS: Mapping[str, Kind] = {
    "steady": Kind(),
    "guesser": Kind(level=-0.5, careless=0.25),
    "forgetful": Kind(fading=0.05),
    "misconception": Kind(held=0.35),
    "pretrained": Kind(level=1.2, held=0.03),
    "plateau": Kind(gain=0.05),
}


@dataclass(frozen=True, slots=True)
class Question:
    """A question: of which family, what the model knows of it, and what its telling wrong answers show."""

    family: str
    posed: Posed
    tells: tuple[tuple[str, ...], ...]

    def share(self, shown: tuple[str, ...]) -> float:
        """Return the share of the wrong answers of people who hold nothing that show just this, or nothing."""
        if self.posed.options:
            return self.tells.count(shown) / len(self.tells)
        share = LIST_WRONG_SHARE / max(len(self.tells), 1) if self.posed.listed else TYPED_WRONG_SHARE
        return share if shown else 1 - share * len(self.tells)


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
            return Given(False, next(names for names in question.tells if held in names))  # noqa: FBT003 - an answer
        p = self._knowing(question)
        if rng.random() < (guess(question.posed.options) if rng.random() < self.kind.careless else p):
            return Given(True)  # noqa: FBT003 - an answer
        return Given(False, self._wrong(question))  # noqa: FBT003 - an answer

    def _knowing(self, question: Question) -> float:
        floor = guess(question.posed.options)
        return floor + (1 - SLIP - floor) * sigmoid(self.ability(question.family) - question.posed.difficulty)

    def learn(self, family: str, given: Given) -> None:
        """Take in the answer and its explanation."""
        self.skills[family] += self.kind.gain * (1 - sigmoid(self.ability(family)))
        if not given.correct and family in self.held and self.rng.random() < self.kind.mended:
            del self.held[family]

    def sleep(self, days: float, practised: Mapping[str, float]) -> None:
        """Let days pass; what was practised holds until then."""
        for family in self.skills:
            if family not in practised:
                self.skills[family] -= self.kind.fading * days

    def _wrong(self, question: Question) -> tuple[str, ...]:
        """Return what a wrong answer shows that comes from no misconception."""
        if not question.posed.options and self.rng.random() < question.share(()):
            return ()
        return self.rng.choice(question.tells)


def guess(options: int) -> float:
    """Return the chance of a right answer without knowledge."""
    return 1 / options if options else TYPED_GUESS


def new_learner(kind: Kind, families: Sequence[Kin], rng: Random, population: Population = OWN) -> SyntheticLearner:
    """Return a learner of a kind; in our own population drawn from the model's priors around the kind's level."""
    spread = population.spread
    skills = {family.id: rng.gauss(0, spread * SKILL_VARIANCE**0.5) for family in families}
    held = {
        family.id: rng.choice(family.showable) for family in families if family.showable and rng.random() < kind.held
    }
    return SyntheticLearner(kind, rng, rng.gauss(kind.level + population.level, spread), skills, held)


def pose(family: Kin, rng: Random) -> Question:
    """Return a question of a family: half of them without options, where it has both kinds."""
    open_one = rng.random() < 1 / 2
    return question_like(family, rng.choice((family.open if open_one else family.closed) or family.shapes), rng)


def question_like(family: Kin, shape: Shape, rng: Random) -> Question:
    """Return a question of a shape; its numbers make it harder or easier."""
    return Question(family.id, shape.posed(family.difficulty + rng.gauss(0, FEATURE_SPREAD)), shape.tells)
