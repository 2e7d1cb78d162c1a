"""How well each next answer of synthetic learners is foreseen, and mastery and readiness with it: the fast path."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import cycle
from math import ceil
from random import Random

from app.cli.simulation.course import SKILLS, Course
from app.cli.simulation.exact import foresee
from app.cli.simulation.learners import ANCHORED, HOLD, KINDS, OWN, SLIP, Given, Population, Question, new_learner, pose
from app.cli.simulation.measures import Figure, Pair, brier, calibration_error, constant_loss, log_loss, share
from app.cli.simulation.shapes import Kin
from app.learner.evidence import aged
from app.learner.logistic import sigmoid
from app.learner.mastery import judge
from app.learner.readiness import Asked, Section, binomial, convolve, readiness

ANSWERS = 240
SURE = 0.8
EXAM_QUESTIONS_A_SKILL, EXAM_OPTIONS, EXAM_PASS = 3, 4, 0.6
READINESS_AT = (120, 240)
LOG_LOSS_AIM = 0.56


@dataclass(slots=True)
class _Foreseen:
    """The model's and the true probability of a right answer, each beside what came."""

    predicted: list[Pair] = field(default_factory=list)
    true: list[Pair] = field(default_factory=list)

    def ask(self, course: Course, rng: Random) -> tuple[Question, Given]:
        """Ask any skill."""
        question = pose(rng.choice(course.families), rng)
        chances = course.predicted(question), course.learner.chance(question)
        given = course.take(question)
        self.predicted.append((chances[0], float(given.correct)))
        self.true.append((chances[1], float(given.correct)))
        return question, given

    def add(self, other: "_Foreseen") -> None:
        """Take in others' answers."""
        self.predicted += other.predicted
        self.true += other.true

    @property
    def above(self) -> float:
        """How far the model's log loss lies above that of the true probabilities."""
        return log_loss(self.predicted) - log_loss(self.true)

    def figures(self, name: str = "") -> Iterator[Figure]:
        """Yield what is measured of predictions, and what no model could change: the true and a constant one."""
        yield Figure(f"{name}log loss", log_loss(self.predicted), LOG_LOSS_AIM)
        yield Figure(f"{name}log loss of the true probabilities", log_loss(self.true))
        yield Figure(f"{name}log loss of a constant", constant_loss(self.true))
        yield Figure(f"{name}log loss above the true probabilities", self.above, 0.045)
        yield Figure(f"{name}Brier score", brier(self.predicted))
        yield Figure(f"{name}calibration error", calibration_error(self.predicted), 0.02)


def study_predictions(bank: Sequence[Kin], learners: int, seed: int) -> Iterator[Figure]:
    """Predictions of each next answer, mastery and readiness: all six kinds in equal shares, skills asked at random."""
    by_kind = {name: _Foreseen() for name in KINDS}
    everyone = _Foreseen()
    sure: list[bool] = []
    rule: list[bool] = []
    ready: dict[int, list[Pair]] = {at: [] for at in READINESS_AT}
    for (course, rng), name in zip(_courses(bank, learners, seed), cycle(KINDS), strict=False):
        for number in range(1, ANSWERS + 1):
            by_kind[name].ask(course, rng)
            if number in ready:
                ready[number].extend(_readiness(course))
        for family in course.families:
            mastery = judge(course.level, course.skills[family.id], course.now)
            masters = course.learner.masters(family.id)
            sure += [masters] * (mastery.probability > SURE)
            rule += [masters] * mastery.mastered
    for foreseen in by_kind.values():
        everyone.add(foreseen)
    yield from everyone.figures()
    yield Figure("P(mastered) > .8: truly mastered", share(sure), 0.95, at_least=True)
    yield Figure("mastered by the whole rule: truly mastered", share(rule), 0.95, at_least=True)
    for at, pairs in ready.items():
        yield Figure(f"readiness, calibration error at {at} answers", calibration_error(pairs), 0.04)
    for name, foreseen in by_kind.items():
        yield Figure(f"log loss: {name}", log_loss(foreseen.predicted))
        yield Figure(f"log loss above the true probabilities: {name}", foreseen.above)


def study_anchored(bank: Sequence[Kin], learners: int, seed: int) -> Iterator[Figure]:
    """Predictions for learners as far apart as those for whom the aim of the log loss was set."""
    foreseen = _Foreseen()
    for course, rng in _courses(bank, learners, seed, ANCHORED):
        for _ in range(ANSWERS):
            foreseen.ask(course, rng)
    yield from foreseen.figures("further apart: ")


def study_exact(bank: Sequence[Kin], learners: int, seed: int) -> Iterator[Figure]:
    """How far above the true probabilities the filter lies, and the exact posterior, on the same answers."""
    filtered, exact = _Foreseen(), _Foreseen()
    for course, rng in _courses(bank, learners, seed):
        answers = [filtered.ask(course, rng) for _ in range(ANSWERS)]
        foreseen = foresee(course.families, answers)
        exact.predicted += [(p, float(given.correct)) for p, (_, given) in zip(foreseen, answers, strict=True)]
    exact.true = filtered.true
    yield Figure("log loss above the true ones, a twentieth of the learners", filtered.above)
    yield Figure("log loss above the true ones, exact posterior", exact.above)


def _courses(
    bank: Sequence[Kin], learners: int, seed: int, population: Population = OWN
) -> Iterator[tuple[Course, Random]]:
    kinds = list(KINDS.values())
    for number in range(learners):
        rng = Random(f"course {seed} {number}")
        families = tuple(rng.sample(bank, SKILLS))
        yield Course(new_learner(kinds[number % len(kinds)], families, rng, population), families), rng


def _readiness(course: Course) -> Iterator[Pair]:
    """Yield the chance the model gives to an exam, and the true one; nothing where there are too few answers."""
    asked = tuple(Asked(each.id, EXAM_QUESTIONS_A_SKILL, EXAM_OPTIONS, each.difficulty) for each in course.families)
    least = ceil(EXAM_PASS * EXAM_QUESTIONS_A_SKILL * len(asked))
    skills = {name: aged(skill, course.now) for name, skill in course.skills.items()}
    ready = readiness(course.level, skills, (Section("all", asked, 0),), least)
    if ready.words != "not-enough":
        yield ready.chance, true_chance(course, asked, least)


def true_chance(course: Course, asked: Sequence[Asked], least: int) -> float:
    """Return the probability with which a synthetic learner reaches the mark, by the items that an exam would ask."""
    learner, families = course.learner, {family.id: family for family in course.families}
    whole = [1.0]
    for part in asked:
        floor = 1 / part.options
        p = floor + (1 - SLIP - floor) * sigmoid(learner.ability(part.family) - part.difficulty)
        p = (1 - learner.kind.careless) * p + learner.kind.careless * floor
        p *= 1 - HOLD * families[part.family].share_showing(learner.held.get(part.family))
        whole = convolve(whole, binomial(part.questions, p))
    return sum(whole[least:])
