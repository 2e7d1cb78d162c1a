"""Takes a few of a longer list, so that a family with a fixed list of facts still asks something new each time."""

from collections.abc import Sequence
from itertools import combinations, islice
from math import comb
from typing import TypeVar

T = TypeVar("T")


def few_of(items: Sequence[T], count: int, shuffle: int) -> tuple[T, ...]:
    """Return `count` of the items in their own order; each whole number `shuffle` >= 0 stands for one of the ways."""
    return next(islice(combinations(items, count), shuffle % comb(len(items), count), None))
