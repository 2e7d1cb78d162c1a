"""Things of which some are so and some are not: several to tick, or one to choose."""

from collections.abc import Mapping
from math import comb
from typing import Any

from app.questions.model import Solution, Step
from app.questions.solvers.subsets import few_of

Beliefs = Mapping[str, str]  # thing -> the misconception behind getting it wrong; "" where it may have many reasons


def to_tick(ask: str, lists: tuple[Beliefs, Beliefs], counts: tuple[int, int], shuffle: int, **more: Any) -> Solution:
    """Ask for so many of the right things among so many wrong ones; each whole number `shuffle` is another choice."""
    right_list, wrong_list = lists
    right = few_of(tuple(right_list), counts[0], shuffle)
    wrong = few_of(tuple(wrong_list), counts[1], shuffle // comb(len(right_list), counts[0]))
    return Solution(
        key=right,
        given={"ask": ask},
        options=(*right, *wrong),
        slips={
            **{(item, "left-out"): right_list[item] for item in right if right_list[item]},
            **{(item, "chosen"): wrong_list[item] for item in wrong},
        },
        steps=tuple(Step("because", {"why": f"why-{item}"}) for item in right),
        **more,
    )


def to_choose(ask: str, lists: tuple[Beliefs, Beliefs], shuffle: int, **more: Any) -> Solution:
    """Ask for the one right thing beside wrong ones, one of each misconception."""
    right_list, wrong_list = lists
    (right,) = few_of(tuple(right_list), 1, shuffle)
    wrong: dict[str, Any] = {}
    for belief in dict.fromkeys(wrong_list.values()):
        shuffle //= 3
        behind = tuple(item for item, other in wrong_list.items() if other == belief)
        (wrong[belief],) = few_of(behind, 1, shuffle)
    steps = (Step("because", {"why": f"why-{right}"}),)
    return Solution(key=right, given={"ask": ask}, wrong=wrong, steps=steps, **more)
