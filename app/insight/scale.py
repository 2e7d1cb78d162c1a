"""Classical statistics of a set of items: share right, item-rest correlation, KR-20 with Feldt's interval.

KR-20 is Cronbach's alpha of items marked 0 or 1.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from app.insight.distributions import f_quantile
from app.insight.item_quality import shrunken

LEAST_ANSWERS = 30

Marks = NDArray[np.int8]


@dataclass(frozen=True, slots=True)
class ItemFigures:
    """One item: answers, share right, correlation with the rest of the set, and that correlation shrunken.

    Both are None where all had the item alike, or all the rest: then there is nothing to tell.
    """

    answers: int
    share_right: float
    item_rest: float | None
    item_rest_shrunken: float | None

    @property
    def judged(self) -> bool:
        """Whether there are answers enough to flag anything."""
        return self.answers >= LEAST_ANSWERS


@dataclass(frozen=True, slots=True)
class Reliability:
    """KR-20 with its 95 % interval (Feldt 1965, Psychometrika 30, 357 to 370)."""

    value: float
    low: float
    high: float


def item_figures(marks: Marks) -> tuple[ItemFigures, ...]:
    """Return figures of every item from a students x items table of 0 and 1."""
    total = marks.sum(axis=1)
    found = []
    for item in range(marks.shape[1]):
        column = marks[:, item]
        r = correlation(column, total - column)
        drawn_in = None if r is None else shrunken(r, len(column))
        found.append(ItemFigures(len(column), float(column.mean()), r, drawn_in))
    return tuple(found)


def correlation(left: NDArray[np.int_] | Marks, right: NDArray[np.int_] | Marks) -> float | None:
    """Return Pearson's correlation, None where one side does not vary."""
    a, b = left - left.mean(), right - right.mean()
    size = float(np.sqrt((a * a).sum() * (b * b).sum()))
    return float((a * b).sum()) / size if size else None


def reliability(marks: Marks) -> Reliability | None:
    """Return KR-20 of a students x items table with at least two of each (ValueError otherwise).

    None where all have the same score: a spread that is not there cannot be reliable or not.
    """
    students, items = marks.shape
    if students < 2 or items < 2:
        raise ValueError(f"{students} students and {items} items; KR-20 needs two of each")
    spread = marks.sum(axis=1).var(ddof=1)
    if not spread:
        return None
    value = float(items / (items - 1) * (1 - marks.var(axis=0, ddof=1).sum() / spread))
    low, high = feldt_interval(value, students, items)
    return Reliability(value, low, high)


def feldt_interval(value: float, students: int, items: int) -> tuple[float, float]:
    """Return the 95 % interval of a reliability coefficient."""
    first, second = students - 1, (students - 1) * (items - 1)
    return 1 - (1 - value) * f_quantile(0.975, first, second), 1 - (1 - value) * f_quantile(0.025, first, second)
