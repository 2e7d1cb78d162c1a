"""Spread between students without chance, and groups that cannot fairly be compared."""

from math import sqrt
from random import Random

import pytest

from app.insight.cohorts import Work, spread, unlike


def test_spread_by_hand() -> None:
    """Law of total variance: shares 0, 0, 1, 1, 1/2 vary by 1/4; chance gives 1/4 / 9 to one of five."""
    assert spread([(10, 0), (10, 0), (10, 10), (10, 10), (10, 5)]) == pytest.approx(sqrt(1 / 4 - 1 / 180))


def test_students_who_are_alike_have_no_spread() -> None:
    assert spread([(10, 5)] * 5) == 0


def test_spread_is_that_of_a_beta_binomial() -> None:
    """A Beta(6, 4) chance has the standard deviation sqrt(6 * 4 / (10^2 * 11)): the textbook formula."""
    random = Random(4)
    chances = [random.betavariate(6, 4) for _ in range(20_000)]
    counts = [(8, sum(random.random() < chance for _ in range(8))) for chance in chances]
    assert spread(counts) == pytest.approx(sqrt(24 / 1100), abs=0.004)


def test_too_few_say_nothing() -> None:
    assert spread([(10, 5)] * 4 + [(4, 1)] * 9) is None


def work(families: str, answers: float = 10) -> Work:
    return Work(frozenset(families), answers)


@pytest.mark.parametrize(
    ("groups", "reasons"),
    [
        ([work("abcd"), work("ab")], ()),  # exactly half in common
        ([work("abcd"), work("a")], ("families",)),
        ([work("ab"), work("ab"), work("xy")], ("families",)),
        ([work("a", 10), work("a", 30)], ()),  # exactly threefold
        ([work("a", 10), work("a", 31)], ("answers",)),
        ([work("ab", 2), work("cd", 9)], ("families", "answers")),
        ([work("a")], ()),
        ([], ()),
    ],
)
def test_unlike(groups: list[Work], reasons: tuple[str, ...]) -> None:
    assert unlike(groups) == reasons
