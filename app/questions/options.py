"""Builds the options of a choice: the key and wrong values that misconceptions lead to, clear of one another."""

from collections.abc import Sequence
from random import Random
from typing import Any, TypeVar

from app.packs.spec import Ask, ValueFormat
from app.questions.model import Option, Solution, Wrong
from app.questions.values import agrees, is_apart, is_numeric, sort_key

T = TypeVar("T")


class Collision(Exception):
    """Too few distinct wrong values survive, or a wrong method gives the right answer."""


class KeyPlace(Exception):
    """The key cannot stand at the wanted place among these options."""


def wrong_of(solution: Solution) -> list[tuple[str, Wrong]]:
    """Return every misconception with its wrong value, in the solver's order."""
    return [(name, w if isinstance(w, Wrong) else Wrong(w)) for name, w in solution.wrong.items()]


def refuse_right_by_wrong_method(solution: Solution, form: ValueFormat) -> None:
    """Raise Collision when any misconception's value would count as the key."""
    for name, wrong in wrong_of(solution):
        if agrees(wrong.value, solution.key, form):
            raise Collision(f"{name} would be marked right")


def build_options(
    solution: Solution, ask: Ask, form: ValueFormat, rng: Random, place: float | None, most: int | None = None
) -> tuple[Option, ...]:
    """Return the options in the order shown, no more than `most`, the key among them.

    `place` from 0 to 1 says where among numeric options the key shall stand (None: anywhere). Raises Collision when
    fewer than `ask.need` distinct wrong values survive, KeyPlace when the key cannot stand there.
    """
    if solution.options:
        return _fixed_set(solution, ask, form, rng, most)
    need = ask.need if most is None else min(ask.need, most - 1)
    wrong = _distinct_wrong(solution, ask, form)
    if len(wrong) < need:
        raise Collision(f"{len(wrong)} distinct wrong values, {need} needed")
    key = Option(solution.key, correct=True)
    if not is_numeric(form, solution.key):
        return tuple(_shuffled([key, *_shuffled(wrong, rng)[:need]], rng))
    chosen = _around_key(solution.key, wrong, need, form, rng, place)
    return tuple(sorted([key, *chosen], key=lambda option: sort_key(option.value, form)))


def _fixed_set(solution: Solution, ask: Ask, form: ValueFormat, rng: Random, most: int | None) -> tuple[Option, ...]:
    options = []
    for value in solution.options:
        behind = tuple(name for name, wrong in wrong_of(solution) if wrong.value == value)
        options.append(Option(value, behind, correct=value == solution.key))
    if sum(option.correct for option in options) != 1:
        raise Collision("the key is not among the fixed options")
    if sum(bool(option.misconceptions) for option in options) < min(ask.need, len(options) - 1):
        raise Collision("too few options have a misconception behind them")
    if most is not None and len(options) > most:
        options = _fewer(options, most, rng)
    if ask.ordered:
        return tuple(options)
    if is_numeric(form, solution.key):
        return tuple(sorted(options, key=lambda option: sort_key(option.value, form)))
    return tuple(_shuffled(options, rng))


def _fewer(options: Sequence[Option], most: int, rng: Random) -> list[Option]:
    """Return the key and wrong options, in the same order; those that a misconception leads to stay the longest."""
    wrong = _shuffled([option for option in options if not option.correct], rng)
    stay = sorted(wrong, key=lambda option: not option.misconceptions)[: most - 1]
    return [option for option in options if option.correct or option in stay]


def _distinct_wrong(solution: Solution, ask: Ask, form: ValueFormat) -> list[Option]:
    """Merge equal values into one option; drop those too near to the key or to an option already kept."""
    kept: list[Option] = []
    for name, wrong in wrong_of(solution):
        if not wrong.option:
            continue
        value = wrong.value
        same = next((i for i, option in enumerate(kept) if option.value == value), None)
        if same is not None:
            kept[same] = Option(value, (*kept[same].misconceptions, name))
        elif all(is_apart(value, other, ask, form) for other in [solution.key, *(option.value for option in kept)]):
            kept.append(Option(value, (name,)))
    return kept


def _around_key(
    key: Any, wrong: Sequence[Option], need: int, form: ValueFormat, rng: Random, place: float | None
) -> list[Option]:
    below = [option for option in wrong if sort_key(option.value, form) < sort_key(key, form)]
    above = [option for option in wrong if sort_key(option.value, form) > sort_key(key, form)]
    fits = [n for n in range(need + 1) if n <= len(below) and need - n <= len(above)]
    wanted = int(place * (need + 1)) if place is not None else fits[int(rng.random() * len(fits))]
    if wanted not in fits:
        raise KeyPlace(f"place {wanted} of {need + 1} cannot be had")
    return _shuffled(below, rng)[:wanted] + _shuffled(above, rng)[: need - wanted]


def _shuffled(values: Sequence[T], rng: Random) -> list[T]:
    """Return the values in a random order, through `random()` alone, which Python keeps the same for ever."""
    left = list(values)
    return [left.pop(int(rng.random() * len(left))) for _ in range(len(left))]
