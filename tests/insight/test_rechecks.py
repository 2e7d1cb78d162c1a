"""Before and after: intervals held to exact ones, and no claim from little."""

from math import asin, pi, sin, sqrt

import pytest

from app.insight.rechecks import Share, carried, right, verdict
from app.insight.weak_spots import SkillCount

SURE, CLEAR = [1.0] * 8, [0.0] * 8


def test_interval_of_what_is_carried_is_jeffreys() -> None:
    """Beta(1/2, 1/2) is the arcsine law; the distribution function of Beta(3/2, 1/2) has a closed form too."""
    nobody = carried([], 0)
    assert nobody.low == pytest.approx(sin(pi * 0.025 / 2) ** 2)
    one = carried([1.0], 6)
    below = [2 / pi * (asin(sqrt(x)) - sqrt(x * (1 - x))) for x in (one.low, one.high)]
    assert below == pytest.approx([0.025, 0.975])
    assert (one.estimate, one.students, one.answers) == (1, 1, 6)


def test_students_who_differ_widen_what_is_right() -> None:
    alike, unlike = right(SkillCount("", (10,) * 14, 70)), right(SkillCount("", (127, *[1] * 13), 70))
    assert alike.estimate == unlike.estimate == 0.5
    assert unlike.low < alike.low < 0.5 < alike.high < unlike.high


def test_a_small_group_has_a_wider_range() -> None:
    many, few = right(SkillCount("", (10,) * 12, 60)), right(SkillCount("", (15,) * 8, 60))
    assert few.high - few.low > many.high - many.low


def test_nobody_behind_it_says_nothing() -> None:
    assert right(SkillCount("", (), 0)) == Share(0.0, 0.0, 1.0, 0, 0)
    assert carried([], 0).students == 0
    assert verdict(carried([], 0), carried([], 0)) == "too-few"


@pytest.mark.parametrize(
    ("before", "after", "expected"),
    [
        (carried(SURE, 40), carried(CLEAR, 40), "lower"),
        (carried(CLEAR, 40), carried(SURE, 40), "higher"),
        (carried(SURE, 40), carried([1.0] * 5 + [0.0] * 3, 40), "open"),
        (carried(SURE[:2], 40), carried(CLEAR[:2], 40), "too-few"),
        (carried(SURE, 40), carried(CLEAR, 9), "too-few"),
        (right(SkillCount("", (10,) * 8, 20)), right(SkillCount("", (10,) * 8, 70)), "higher"),
    ],
)
def test_only_what_lies_apart_is_said(before: Share, after: Share, expected: str) -> None:
    assert verdict(before, after) == expected


def test_under_five_is_few() -> None:
    assert carried([0.5] * 4, 20).few
    assert not carried([0.5] * 5, 20).few
