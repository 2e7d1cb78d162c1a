"""The exact posterior of simulated answers: what one could foresee who knew the population and did every sum.

No filter can do better on the same answers, so that the rest of its distance from the true probabilities is no fault of
its own. Given a kind and a level, the skills are independent: each is a table over starting points and misconceptions.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from app.cli.simulation.course import ANSWERS_A_DAY
from app.cli.simulation.learners import (
    HOLD,
    KINDS,
    SKILL_VARIANCE,
    SLIP,
    Given,
    Kind,
    Question,
    guess,
)
from app.cli.simulation.shapes import Kin
from app.learner.quadrature import normal_nodes

NODES = 13
Numbers = npt.NDArray[np.float64]
PLACES, WEIGHTS = (np.array(each) for each in zip(*normal_nodes(NODES), strict=True))


def foresee(families: Sequence[Kin], answers: Sequence[tuple[Question, Given]]) -> Sequence[float]:
    """Return the probability of a right answer, given all that came before, for each answer of one learner."""
    beliefs = [_Belief(kind, families) for kind in KINDS.values()]
    logs = np.zeros(len(beliefs))
    foreseen = []
    for number, (question, given) in enumerate(answers, start=1):
        odds = np.exp(logs - logs.max())
        seen = [belief.see(question, given) for belief in beliefs]
        foreseen.append(float(odds @ [right for right, _ in seen] / odds.sum()))
        logs += np.log([chance for _, chance in seen])
        if number % ANSWERS_A_DAY == 0:
            for belief in beliefs:
                belief.sleep()
    return foreseen


@dataclass
class _Table:
    """A skill by level and starting point, and how likely each is with no misconception (0) or one of them."""

    skill: Numbers
    chance: Numbers
    practised: bool = False


class _Belief:
    """What is known of a learner who is taken to be of a kind."""

    def __init__(self, kind: Kind, families: Sequence[Kin]) -> None:
        self.kind = kind
        self.levels, self.weights = kind.level + PLACES, WEIGHTS.copy()
        self.names = {family.id: family.showable for family in families}
        self.tables = {family.id: self._first(len(family.showable)) for family in families}

    def see(self, question: Question, given: Given) -> tuple[float, float]:
        """Return the chance of a right answer and of the one that was given, and learn from it."""
        table, posed = self.tables[question.family], question.posed
        ability = self.levels[:, None] + table.skill
        knowing = self._knowing(ability - posed.difficulty, guess(posed.options))[:, :, None]
        names = self.names[question.family]
        hold = np.array([0.0] + [HOLD * (name in posed.offered) for name in names])
        right = knowing * (1 - hold)
        seen = right
        if not given.correct:
            shown = np.array([0.0] + [float(name in given.shown) for name in names])
            seen = (1 - knowing) * (1 - hold) * question.share(given.shown) + hold * shown
        chance_right = float(self.weights @ (table.chance * right).sum((1, 2)))
        after = table.chance * seen
        by_level = after.sum((1, 2))
        chance_seen = float(self.weights @ by_level)
        self.weights = self.weights * by_level / chance_seen
        table.chance = after / by_level[:, None, None]
        if not given.correct:
            mended = self.kind.mended * table.chance[:, :, 1:]
            table.chance[:, :, 1:] -= mended
            table.chance[:, :, 0] += mended.sum(2)
        table.skill = table.skill + self.kind.gain / (1 + np.exp(ability))
        table.practised = True
        return chance_right, chance_seen

    def sleep(self) -> None:
        """Let a day pass: what was not practised fades as the kind does."""
        for table in self.tables.values():
            if not table.practised:
                table.skill = table.skill - self.kind.fading
            table.practised = False

    def _first(self, misconceptions: int) -> _Table:
        held = [self.kind.held / misconceptions] * misconceptions if misconceptions else []
        state = np.array([1 - sum(held), *held])
        skill = np.tile(PLACES * SKILL_VARIANCE**0.5, (NODES, 1))
        return _Table(skill, np.tile(WEIGHTS[:, None] * state, (NODES, 1, 1)))

    def _knowing(self, logit: Numbers, floor: float) -> Numbers:
        p = floor + (1 - SLIP - floor) / (1 + np.exp(-logit))
        return (1 - self.kind.careless) * p + self.kind.careless * floor
