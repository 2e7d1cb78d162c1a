"""How soon misconceptions are named, and how soon skills are mastered, by the fast path."""

from collections.abc import Iterator, Sequence
from random import Random
from statistics import median

from app.cli.simulation.course import Course, Policy, answers_to_mastery, at_random, by_rule, fewest_right_first
from app.cli.simulation.learners import Kind, SyntheticLearner, new_learner
from app.cli.simulation.measures import Figure, share
from app.cli.simulation.shapes import Kin

NAMED_ABOVE = 0.8
DETECTION_ANSWERS = 25
MOST_ANSWERS = 900


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
    named = {kind: share([count <= DETECTION_ANSWERS for count in each]) for kind, each in counts.items()}
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
