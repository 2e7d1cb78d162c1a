"""What an item is said to be able to show is what its wrong answers are graded to show, in every form."""

from dataclasses import replace
from random import Random

import pytest

from app.cli.simulation.shapes import telling_answers
from app.grader.grade import grade
from app.grader.made_up import fields_of, wrong_value
from app.grader.reply import parse_reply
from app.questions.draw import NoDraw, draw, offered_forms
from app.questions.model import Item, NotOffered
from tests.questions.engine import home, library

SEEDS = (1, 2)


def items(family: str) -> list[Item]:
    """Return a few items of a family in each of its forms."""
    drawn = []
    for form in offered_forms(library().family(family)):
        for seed in SEEDS:
            try:
                drawn.append(draw(library(), family, seed, home(), form))
            except (NotOffered, NoDraw):
                continue
    return drawn


def shown(item: Item, held: set[str]) -> tuple[str, ...]:
    """Return what a wrong answer of somebody who holds these is graded to show."""
    value = wrong_value(library(), item, Random(1), held)
    marks = grade(library(), item, parse_reply(library(), item, fields_of(library(), item, value), "en"))
    assert not marks.correct
    return marks.misconceptions


@pytest.mark.parametrize("family", sorted(library().families))
def test_each_misconception_that_could_show_does_show(family: str) -> None:
    for item in items(family):
        for name in item.misconceptions:
            assert name in shown(item, {name}), (item.form, item.seed)
        assert set(shown(item, set())) <= item.misconceptions


def test_misconceptions_behind_one_answer_stand_together() -> None:
    allowance = replace(home(), rollout_rule="allowance")  # the other pole and the other turn: as far, the other way
    item = draw(library(), "rollout-north-south", 1, allowance, "typed")
    together = next(names for names in telling_answers(item) if len(names) > 1)
    assert set(together) <= set(shown(item, {together[0]}))


def test_choice_tells_by_its_options_alone() -> None:
    item = draw(library(), "true-to-compass", 1, home(), "choice")
    assert len(telling_answers(item)) == len(item.options) - 1
    assert item.misconceptions < set(dict(item.wrong_values()))
