"""A course of answers by the pure learner model: the fast path, with the real families' grades and misconceptions.

It leaves out packs, wording, grading and storage; `real` drives the services and is compared with it.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from random import Random

from app.cli.simulation.learners import Given, Question, SyntheticLearner, pose, question_like
from app.cli.simulation.shapes import Kin, Shape
from app.learner.evidence import Evidence, Level, Skill, learn, new_skill, predict_right
from app.learner.selection import Candidate, Choice, best_suited, choose
from app.services.adaptive import HASTY_TRIES, WEIGHED
from app.services.mix import TRIES

START = datetime(2026, 9, 1, 17, 0, tzinfo=UTC)
ANSWERS_A_DAY = 10
SKILLS = 12
STEP = timedelta(minutes=1)


@dataclass(slots=True)
class Course:
    """What a learner answered and what the model made of it."""

    learner: SyntheticLearner
    families: Sequence[Kin]
    level: Level = field(default_factory=Level)
    skills: dict[str, Skill] = field(default_factory=dict)
    now: datetime = START
    last: list[str] = field(default_factory=list)
    today: dict[str, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Begin with what is known of nobody."""
        self.skills = {family.id: new_skill(family.misconceptions) for family in self.families}

    def predicted(self, question: Question) -> float:
        """Return the model's probability of a right answer."""
        return predict_right(self.level, self.skills[question.family], question.posed, self.now)

    def take(self, question: Question) -> Given:
        """Ask, and let both the learner and the model learn."""
        family, given = question.family, self.learner.answer(question)
        evidence = Evidence(question.posed, given.correct, self.now, given.shown)
        self.level, self.skills[family] = learn(self.level, self.skills[family], evidence)
        self.learner.learn(family, given)
        self.last.append(family)
        self.today[family] = 1.0
        self._move_clock()
        return given

    def chosen(self, family: Kin, rng: Random) -> Question:
        """Return a question of a family as the program chooses it: of a few items drawn, the one that suits best."""
        skill = self.skills[family.id]
        choice = choose(self.level, [Candidate(family.id, skill)], (), self.now, rng)
        if choice is None:
            return pose(family, rng)
        drawn = [question_like(family, shape, rng) for shape in self._drawn(family, choice, rng)]
        return drawn[best_suited(self.level, skill, [each.posed for each in drawn], choice.purpose, self.now)]

    def _drawn(self, family: Kin, choice: Choice, rng: Random) -> Sequence[Shape]:
        """Return the items to choose from, as `services/adaptive` draws them."""
        turn = (family.closed if len(self.last) % 2 else family.open) or family.shapes
        to_show, tries = choice.contrast or choice.suspect, TRIES if choice.contrast else HASTY_TRIES
        for group in (turn, family.shapes) if choice.contrast else (family.open, family.closed):
            found = (rng.choice(group) for _ in range(tries) if group and to_show)
            if shape := next((each for each in found if to_show in each.offered), None):
                return [shape]
        return rng.choices(turn, k=WEIGHED)

    def _move_clock(self) -> None:
        self.now += STEP
        if len(self.last) % ANSWERS_A_DAY == 0:
            self.learner.sleep(1.0, self.today)
            self.today = {}
            self.now = START + timedelta(days=len(self.last) // ANSWERS_A_DAY)


Policy = Callable[[Course, Random], Kin]


def by_rule(course: Course, rng: Random) -> Kin:
    """Choose by the program's own rule: the skill where an answer helps most."""
    candidates = [Candidate(family.id, course.skills[family.id]) for family in course.families]
    choice = choose(course.level, candidates, course.last, course.now, rng)
    return next(family for family in course.families if choice and family.id == choice.family)


def at_random(course: Course, rng: Random) -> Kin:
    """Choose any skill."""
    return rng.choice(course.families)


def fewest_right_first(course: Course, rng: Random) -> Kin:
    """Choose the skill with the fewest right answers so far."""
    return min(course.families, key=lambda family: (course.skills[family.id].right, rng.random()))


def answers_to_mastery(course: Course, policy: Policy, rng: Random, most: int) -> int:
    """Return after how many answers nine skills in ten are truly mastered; `most` where they are not by then."""
    wanted = 0.9 * len(course.families)
    for count in range(most):
        if sum(course.learner.masters(family.id) for family in course.families) >= wanted:
            return count
        course.take(pose(policy(course, rng), rng))
    return most
