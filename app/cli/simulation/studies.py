"""What is measured of synthetic learners by the fast path."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import cycle
from math import ceil
from random import Random
from statistics import median

from app.cli.simulation.course import Course, Policy, answers_to_mastery, at_random, by_rule, fewest_right_first
from app.cli.simulation.exact import foresee
from app.cli.simulation.learners import (
    HOLD,
    KINDS,
    SLIP,
    Kind,
    SyntheticLearner,
    new_learner,
    pose,
)
from app.cli.simulation.measures import Pair, brier, calibration_error, log_loss
from app.cli.simulation.shapes import Kin
from app.learner.evidence import aged
from app.learner.logistic import sigmoid
from app.learner.mastery import judge
from app.learner.readiness import Asked, Section, binomial, convolve, readiness

SKILLS = 12
ANSWERS = 240
NAMED_ABOVE, SURE = 0.8, 0.8
DETECTION_ANSWERS = 25
EXAM_QUESTIONS_A_SKILL, EXAM_OPTIONS, EXAM_PASS = 3, 4, 0.6
READINESS_AT = (120, 240)
MOST_ANSWERS = 900
LARGEST_SEED = 2**31


@dataclass(frozen=True, slots=True)
class Figure:
    """One measured figure with its aim: at most, at least, or none."""

    name: str
    value: float
    aim: float | None = None
    at_least: bool = False

    @property
    def met(self) -> bool | None:
        """Whether the aim was met; None where there is none."""
        if self.aim is None:
            return None
        return self.value >= self.aim if self.at_least else self.value <= self.aim


def study_predictions(bank: Sequence[Kin], learners: int, seed: int) -> Iterator[Figure]:
    """Predictions of each next answer, mastery and readiness: all six kinds in equal shares, skills asked at random."""
    predicted: list[Pair] = []
    true: list[Pair] = []
    sure: list[bool] = []
    rule: list[bool] = []
    ready: dict[int, list[Pair]] = {at: [] for at in READINESS_AT}
    for course, rng in _courses(bank, learners, seed):
        for number in range(1, ANSWERS + 1):
            _ask(course, rng, predicted, true)
            if number in ready:
                ready[number].extend(_readiness(course))
        for family in course.families:
            mastery = judge(course.level, course.skills[family.id], course.now)
            if mastery.probability > SURE:
                sure.append(course.learner.masters(family.id))
            if mastery.mastered:
                rule.append(course.learner.masters(family.id))
    yield Figure("log loss", log_loss(predicted), 0.56)
    yield Figure("log loss of the true probabilities", log_loss(true))
    yield Figure("log loss above the true probabilities", log_loss(predicted) - log_loss(true), 0.045)
    yield Figure("Brier score", brier(predicted))
    yield Figure("calibration error", calibration_error(predicted), 0.02)
    yield Figure("P(mastered) > .8: truly mastered", _share(sure), 0.95, at_least=True)
    yield Figure("mastered by the whole rule: truly mastered", _share(rule), 0.95, at_least=True)
    for at, pairs in ready.items():
        yield Figure(f"readiness, calibration error at {at} answers", calibration_error(pairs), 0.04)


def study_kinds(bank: Sequence[Kin], learners: int, seed: int) -> Iterator[Figure]:
    """How well each kind of learner is foreseen, on the same answers as `study_predictions`."""
    pairs: dict[str, tuple[list[Pair], list[Pair]]] = {name: ([], []) for name in KINDS}
    for (course, rng), name in zip(_courses(bank, learners, seed), cycle(KINDS), strict=False):
        predicted, true = pairs[name]
        for _ in range(ANSWERS):
            _ask(course, rng, predicted, true)
    for name, (predicted, true) in pairs.items():
        yield Figure(f"log loss: {name}", log_loss(predicted))
        yield Figure(f"log loss above the true probabilities: {name}", log_loss(predicted) - log_loss(true))


def _ask(course: Course, rng: Random, predicted: list[Pair], true: list[Pair]) -> None:
    """Ask any skill, and keep the model's and the true probability of a right answer beside what came."""
    question = pose(rng.choice(course.families), rng)
    chances = course.predicted(question), course.learner.chance(question)
    correct = float(course.take(question).correct)
    predicted.append((chances[0], correct))
    true.append((chances[1], correct))


def study_exact(bank: Sequence[Kin], learners: int, seed: int) -> Iterator[Figure]:
    """How far above the true probabilities the filter lies, and the exact posterior, on the same answers."""
    filtered: list[Pair] = []
    exact: list[Pair] = []
    true: list[Pair] = []
    for course, rng in _courses(bank, learners, seed):
        answers = []
        for _ in range(ANSWERS):
            question = pose(rng.choice(course.families), rng)
            chances = course.predicted(question), course.learner.chance(question)
            given = course.take(question)
            answers.append((question, given))
            filtered.append((chances[0], float(given.correct)))
            true.append((chances[1], float(given.correct)))
        foreseen = foresee(course.families, answers)
        exact += [(p, float(given.correct)) for p, (_, given) in zip(foreseen, answers, strict=True)]
    yield Figure("log loss above the true ones, a twentieth of the learners", log_loss(filtered) - log_loss(true))
    yield Figure("log loss above the true ones, exact posterior", log_loss(exact) - log_loss(true))


def study_detection(bank: Sequence[Kin], learners: int, seed: int) -> Iterator[Figure]:
    """How soon a held misconception is named, and how often one that nobody holds, in 25 answers of a skill.

    The items are those that the program would choose among real ones. Who is mended before anything is named counts as
    never named where explanations may mend.
    """
    rng = Random(f"detection {seed}")
    able = [family for family in bank if family.showable]
    counts: dict[Kind, list[int]] = {HOLDS_ON: [], MAY_MEND: [], HOLDS_NONE: []}
    for _ in range(learners):
        family = rng.choice(able)
        for kind, of_kind in counts.items():
            learner = new_learner(kind, (family,), rng)
            of_kind.append(_named_after(learner, family, learner.held.get(family.id), rng))
    named = {kind: _share([count <= DETECTION_ANSWERS for count in each]) for kind, each in counts.items()}
    yield Figure("answers until a misconception is named, median", float(median(counts[HOLDS_ON])), 4)
    yield Figure("the same where explanations may mend it first", float(median(counts[MAY_MEND])))
    yield Figure("named in 25 answers", named[HOLDS_ON])
    yield Figure("false alarms in 25 answers", named[HOLDS_NONE], 0.01)


HOLDS_ON, MAY_MEND, HOLDS_NONE = Kind(held=1.0, mended=0.0), Kind(held=1.0), Kind(held=0.0)


def study_selection(bank: Sequence[Kin], learners: int, seed: int) -> Iterator[Figure]:
    """Answers until nine skills in ten are mastered: other rules divided by ours, in three scenarios."""
    policies: tuple[tuple[str, Policy], ...] = (("random", at_random), ("fewest right first", fewest_right_first))
    for name, count, known, uneven in SCENARIOS:
        ours = _mean_answers(bank, (count, known, uneven), by_rule, learners, seed)
        for other, policy in policies:
            theirs = _mean_answers(bank, (count, known, uneven), policy, learners, seed)
            aim = 1.15 if policy is at_random else None
            yield Figure(f"{other} / rule: {name}", theirs / ours, aim, at_least=True)


SCENARIOS = (
    ("12 skills, none known", 12, 0.0, 0.84),
    ("24 skills, half known", 24, 0.5, 0.84),
    ("12 skills, half known, uneven", 12, 0.5, 1.5),
)


def _courses(bank: Sequence[Kin], learners: int, seed: int) -> Iterator[tuple[Course, Random]]:
    kinds = list(KINDS.values())
    for number in range(learners):
        rng = Random(f"course {seed} {number}")
        families = tuple(rng.sample(bank, SKILLS))
        yield Course(new_learner(kinds[number % len(kinds)], families, rng), families), rng


def _mean_answers(
    bank: Sequence[Kin], scenario: tuple[int, float, float], policy: Policy, learners: int, seed: int
) -> float:
    count, known, uneven = scenario
    total = 0
    for number in range(learners):
        rng = Random(f"selection {seed} {number}")
        families = tuple(rng.sample(bank, count))
        skills = {
            family.id: 2.0 if place < known * count else -0.5 + rng.gauss(0, uneven)
            for place, family in enumerate(families)
        }
        learner = SyntheticLearner(Kind(), rng, 0.0, skills)
        total += answers_to_mastery(Course(learner, families), policy, rng, MOST_ANSWERS)
    return total / learners


def _named_after(learner: SyntheticLearner, family: Kin, held: str | None, rng: Random) -> int:
    """Return after how many answers the held misconception, or any where none is, is named; else one more than all."""
    course = Course(learner, (family,))
    for number in range(1, DETECTION_ANSWERS + 1):
        course.take(course.chosen(family, rng))
        probabilities = course.skills[family.id].misconceptions
        if (probabilities[held] if held else max(probabilities.values())) > NAMED_ABOVE:
            return number
    return DETECTION_ANSWERS + 1


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


def _share(seen: Sequence[bool]) -> float:
    return sum(seen) / len(seen) if seen else 0.0
