"""Figures of questions from sums, and of sets, against the same computed from every single answer."""

from random import Random

import numpy as np
import pytest

from app.insight.item_quality import AnswersToFamily, RestSums, judge_family, rest_correlation
from app.insight.scale import item_figures, reliability
from app.insight.set_quality import judge_set


def answers(seed: int, count: int) -> list[tuple[bool, float]]:
    """Answers with the share right elsewhere of whoever gave them."""
    rng = Random(seed)
    shares = [rng.random() for _ in range(count)]
    return [(rng.random() < 0.2 + 0.6 * share, share) for share in shares]


def sums_of(given: list[tuple[bool, float]]) -> RestSums:
    rests = [rest for _, rest in given]
    return RestSums(
        len(given),
        sum(right for right, _ in given),
        sum(rests),
        sum(rest * rest for rest in rests),
        sum(rest for right, rest in given if right),
    )


@pytest.mark.parametrize("seed", range(5))
def test_correlation_from_sums_is_pearsons(seed: int) -> None:
    given = answers(seed, 400)
    wanted = np.corrcoef([right for right, _ in given], [rest for _, rest in given])[0, 1]  # numpy's own
    assert rest_correlation(sums_of(given)) == pytest.approx(wanted, abs=1e-9)


@pytest.mark.parametrize("given", [[], [(True, 0.5)], [(True, 0.3), (True, 0.9)], [(True, 0.5), (False, 0.5)]])
def test_what_does_not_vary_goes_with_nothing(given: list[tuple[bool, float]]) -> None:
    assert rest_correlation(sums_of(given)) is None


def contrary(count: int) -> RestSums:
    """Whoever is right here is wrong elsewhere."""
    return sums_of([(place % 2 == 0, float(place % 2)) for place in range(count)])


def test_nothing_is_flagged_under_thirty_answers() -> None:
    def flags(count: int) -> tuple[str, ...]:
        return judge_family(AnswersToFamily("a", count, 1, contrary(count), {}, {"idle": 80}, {"+10": 9})).flags

    assert flags(29) == ()
    assert flags(30) == ("negative-discrimination", "too-hard", "idle-option", "unexplained-value")


def sat(students: int, seed: int = 3) -> np.ndarray:
    rng = Random(seed)
    people = [rng.gauss(0, 1) for _ in range(students)]
    return np.array([[rng.random() < 1 / (1 + np.exp(b - a)) for b in (-1, 0, 0.5, 1)] for a in people], dtype=np.int8)


def test_set_has_reliability_and_a_latent_model_only_for_many() -> None:
    few, some, many = (judge_set(sat(count)) for count in (40, 200, 500))
    assert few.reliability == reliability(sat(40))
    assert few.items == item_figures(sat(40))
    assert (few.model, some.model, many.model) == ("", "rasch", "two-parameter")
    assert len({slope for slope, _ in filter(None, some.latent)}) == 1
    difficulties = [pair[1] for pair in many.latent if pair]
    assert difficulties == sorted(difficulties)


def test_item_that_all_had_right_has_no_place_in_the_model() -> None:
    table = sat(200)
    table[:, 1] = 1
    assert [pair is None for pair in judge_set(table).latent] == [False, True, False, False]


def test_one_student_has_no_reliability() -> None:
    assert judge_set(sat(1)).reliability is None
