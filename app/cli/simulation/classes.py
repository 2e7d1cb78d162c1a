"""Simulated classes: how often what is flagged as a weak spot is one, and how often a class without any is flagged.

Students answer as the other studies' do; counts go through `insight.weak_spots` as the class's page hands them over.
"""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from math import log
from random import Random

from app.cli.simulation.course import SKILLS
from app.cli.simulation.learners import KINDS, Kind, SyntheticLearner, new_learner, pose
from app.cli.simulation.measures import Figure
from app.cli.simulation.shapes import Kin
from app.insight.weak_spots import BELOW_MEAN, SkillCount, weak_spots
from app.learner.logistic import sigmoid

SIZES = (8, 20, 40)
FEWEST, MOST = 3, 9  # answers of one student to one kind of question
LOWERED = 1.2
MOST_LOWERED = 3
KIND = tuple(KINDS.values())


@dataclass(slots=True)
class ClassAnswers:
    """What a class answered of each skill, and the true chances of being right that stood behind the answers."""

    answers: dict[str, list[int]] = field(default_factory=lambda: defaultdict(list))
    right: dict[str, int] = field(default_factory=lambda: defaultdict(int))
    chances: dict[str, list[float]] = field(default_factory=lambda: defaultdict(list))

    def flagged(self) -> frozenset[str]:
        """Return the skills that the page flags."""
        counts = [SkillCount(skill, tuple(each), self.right[skill]) for skill, each in self.answers.items()]
        return frozenset(spot.skill for spot in weak_spots(counts) if spot.flagged)

    def weak(self) -> frozenset[str]:
        """Return the skills whose true share lies as far below the class's mean as a flag claims."""
        true = {skill: sum(each) / len(each) for skill, each in self.chances.items()}
        mean = sigmoid(sum(log(p / (1 - p)) for p in true.values()) / len(true))
        return frozenset(skill for skill, p in true.items() if p < mean - BELOW_MEAN)


def study_flags(bank: Sequence[Kin], classes: int, seed: int) -> Iterator[Figure]:
    """By size: flags that are right, weak skills that are flagged, and classes without any that are flagged."""
    for size in SIZES:
        hits = flags = weak = 0
        for number in range(classes):
            found = with_weak_spots(bank, size, Random(f"classes {seed} {size} {number}"))
            hits += len(found.flagged() & found.weak())
            flags += len(found.flagged())
            weak += len(found.weak())
        alarms = [
            bool(without_any(bank, size, Random(f"even classes {seed} {size} {number}")).flagged())
            for number in range(classes)
        ]
        yield Figure(f"{size} students: flags that are right", hits / flags if flags else 0.0, 0.9, at_least=True)
        yield Figure(f"{size} students: weak skills that are flagged", hits / weak if weak else 0.0)
        yield Figure(f"{size} students: classes without any that are flagged", sum(alarms) / classes, 0.05)


def with_weak_spots(bank: Sequence[Kin], size: int, rng: Random) -> ClassAnswers:
    """Let a class answer that is weaker in one to three skills; its students differ skill by skill besides."""
    families = tuple(rng.sample(bank, SKILLS))
    lowered = rng.sample([family.id for family in families], rng.randint(1, MOST_LOWERED))
    students = [new_learner(KIND[number % len(KIND)], families, rng) for number in range(size)]
    for student in students:
        for skill in lowered:
            student.skills[skill] -= LOWERED
    return _answer(families, students, rng)


def without_any(bank: Sequence[Kin], size: int, rng: Random) -> ClassAnswers:
    """Let a class answer whose students differ in their level alone: every skill is as hard as any other."""
    asked = rng.sample(bank, SKILLS)
    families = tuple(replace(asked[0], id=each.id) for each in asked)
    students = [
        SyntheticLearner(Kind(), rng, rng.gauss(0, 1), {each.id: 0.0 for each in families}) for _ in range(size)
    ]
    return _answer(families, students, rng)


def _answer(families: Sequence[Kin], students: Sequence[SyntheticLearner], rng: Random) -> ClassAnswers:
    found = ClassAnswers()
    for student in students:
        for family in families:
            count = rng.randint(FEWEST, MOST)
            found.answers[family.id].append(count)
            for _ in range(count):
                question = pose(family, rng)
                found.chances[family.id].append(student.chance(question))
                given = student.answer(question)
                found.right[family.id] += given.correct
                student.learn(family.id, given)
    return found
