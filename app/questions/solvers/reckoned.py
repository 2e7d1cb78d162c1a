"""A school's own questions whose numbers are drawn: their formulas are parameters that never vary."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from app.packs.formulas import NoValue, read_formula, to_nearest
from app.packs.own_numbers import LARGEST
from app.packs.own_reckoned import KEY, SOLVER, YOURS, parameter_name
from app.physics.angles import round_half_up, shown
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution, Wrong
from app.questions.solvers.registry import solver


class Unfair(Redraw):
    """These numbers make no fair question. `code`: zero, large or domain (a formula has no value), or told.

    `where` is the name of a number, KEY or a wrong answer's id.
    """

    def __init__(self, code: str, where: str) -> None:
        super().__init__(f"{code}: {where}")
        self.code, self.where = code, where


class Reckoned(NamedTuple):
    """What the formulas make of the numbers drawn: all numbers by name, the key and each wrong value."""

    numbers: Mapping[str, float]
    key: float
    wrong: Mapping[str, float]


@solver(SOLVER)
def reckoned(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: what the formula of the right answer makes, rounded as the question says."""
    formulas = parameters["formulas"]
    made = reckon(parameters)
    refuse_told(formulas, made)
    return solution_of(formulas, made)


def solution_of(formulas: Mapping[str, Any], made: Reckoned) -> Solution:
    """Return what was reckoned as a solution; given are the numbers that the question tells."""
    named = {parameter_name(name): value for name, value in made.numbers.items()}
    told = {parameter_name(name) for name in formulas["stem"]}
    return Solution(
        key=made.key,
        given={name: value for name, value in named.items() if name in told},
        quantities={**named, parameter_name(KEY): made.key},
        wrong={name: Wrong(value, more={parameter_name(YOURS): value}) for name, value in made.wrong.items()},
        steps=tuple(formulas["steps"]),
    )


def reckon(parameters: Mapping[str, Any]) -> Reckoned:
    """Return what the formulas make; Unfair where one of them has no value."""
    formulas = parameters["formulas"]
    numbers: dict[str, float] = {}
    for each in formulas["numbers"]:
        name, formula = each["name"], each["formula"]
        value = parameters[parameter_name(name)] if formula is None else _value(name, formula, numbers)
        numbers[name] = shown(value) if each["shown"] == "heading" else _plain(round_half_up(value, int(each["shown"])))
    nearest = formulas["nearest"]
    key = _rounded(_value(KEY, formulas["key"], numbers), nearest)
    known = {**numbers, KEY: key}
    wrong = {name: _rounded(_value(name, text, known), nearest) for name, text in formulas["wrong"].items()}
    return Reckoned(numbers, key, wrong)


def refuse_told(formulas: Mapping[str, Any], made: Reckoned) -> None:
    """Raise Unfair where a number that the question tells is the key."""
    for name in formulas["stem"]:
        if made.numbers[name] == made.key:
            raise Unfair("told", name)
    if made.key in formulas["stated"]:
        raise Unfair("told", KEY)


def _value(where: str, formula: str, numbers: Mapping[str, float]) -> float:
    try:
        value = read_formula(formula).value(numbers)
    except NoValue as error:
        raise Unfair(error.code, where) from error
    if abs(value) > LARGEST:
        raise Unfair("large", where)
    return value


def _rounded(value: float, nearest: str) -> float:
    return shown(value) if nearest == "heading" else _plain(to_nearest(value, float(nearest)))


def _plain(value: float) -> float:
    """Return a whole number as one, so that it is kept and listed as people write it."""
    return int(value) if value == int(value) else value
