"""Tries out a school's own question: what the formulas make of many draws, and why some of these are never asked."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations
from random import Random
from typing import Any, NamedTuple

from app.packs.own_reckoned import KEY, parameter_name
from app.packs.spec import Family
from app.questions.options import Collision, build_options
from app.questions.parameters import draw_parameters
from app.questions.solvers.reckoned import Reckoned, Unfair, reckon, refuse_told, solution_of
from app.questions.values import agrees, is_apart

RIGHT, NEAR = "right", "near"


class Refusal(NamedTuple):
    """Why a draw is not asked: a code of Unfair, RIGHT (a wrong answer counts as the key) or NEAR (two are too near).

    `where` holds names of numbers, KEY or ids of wrong answers.
    """

    code: str
    where: tuple[str, ...]


class Trial(NamedTuple):
    """One draw: its numbers, what the formulas make (nothing where one has no value), and why it is not asked."""

    numbers: Mapping[str, float]
    key: float | None
    wrong: Mapping[str, float]
    refusal: Refusal | None


def try_out(family: Family, count: int) -> tuple[Trial, ...]:
    """Return so many draws of a question's numbers, the same every time."""
    rng = Random(1)
    return tuple(_try(family, draw_parameters(family.parameters, rng)) for _ in range(count))


def alike(trials: Sequence[Trial]) -> Iterator[tuple[str, str]]:
    """Yield the wrong answers that every draw gives one value."""
    made = [trial.wrong for trial in trials if trial.key is not None]
    for first, second in combinations(made[0], 2) if made else ():
        if all(wrong[first] == wrong[second] for wrong in made):
            yield first, second


def _try(family: Family, parameters: Mapping[str, Any]) -> Trial:
    formulas = parameters["formulas"]
    try:
        made = reckon(parameters)
    except Unfair as error:
        drawn = {name: parameters.get(parameter_name(name)) for name in (each["name"] for each in formulas["numbers"])}
        known = {name: value for name, value in drawn.items() if value is not None}
        return Trial(known, None, {}, Refusal(error.code, (error.where,)))
    return Trial(made.numbers, made.key, made.wrong, _refusal(family, formulas, made))


def _refusal(family: Family, formulas: Mapping[str, Any], made: Reckoned) -> Refusal | None:
    ask = family.asks[0]
    try:
        refuse_told(formulas, made)
    except Unfair as error:
        return Refusal(error.code, (error.where,))
    for name, value in made.wrong.items():
        if agrees(value, made.key, ask.value):
            return Refusal(RIGHT, (name,))
    if "choice" not in ask.forms:
        return None
    try:
        build_options(solution_of(formulas, made), ask, ask.value, Random(1), None)
    except Collision:
        values = {KEY: made.key, **made.wrong}
        pairs = combinations(values, 2)
        return Refusal(
            NEAR, next(pair for pair in pairs if not is_apart(values[pair[0]], values[pair[1]], ask, ask.value))
        )
    return None
