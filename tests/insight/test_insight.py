"""Statistics against published tables.

LSAT sections 6 and 7: Bock and Lieberman 1970 (Psychometrika 35, 179 to 197); estimates of section 6: Rizopoulos 2006
(J. Stat. Software 17(5)); section 7 and Feldt's interval: computed with the reference program, kept here as numbers.
"""

import csv
from math import comb, exp
from pathlib import Path
from random import Random

import numpy as np
import pytest

from app.insight.distributions import beta_below, change, f_quantile, wilson
from app.insight.item_quality import AnswersToFamily, RestSums, judge_family
from app.insight.latent import fit_rasch, fit_two_parameter
from app.insight.scale import Reliability, feldt_interval, item_figures, reliability
from app.insight.weak_spots import SkillCount, held_misconceptions, weak_spots

PRINTED = 0.004  # Rizopoulos prints estimates that another optimiser meets to this
THIRD_DECIMAL = 0.0006
LSAT = Path(__file__).parents[1] / "authorities/lsat.csv"


def lsat(section: int) -> tuple[np.ndarray, np.ndarray]:
    lines = [line for line in LSAT.read_text().splitlines() if not line.startswith("#")]
    table = np.array([[int(cell) for cell in row] for row in list(csv.reader(lines))[1:]])
    counts = table[:, 4 + section - 5]
    return table[counts > 0, :5].astype(np.int8), counts[counts > 0]


def marks(section: int) -> np.ndarray:
    patterns, counts = lsat(section)
    return np.repeat(patterns, counts, axis=0)


def kr20(table: np.ndarray) -> Reliability:
    found = reliability(table)
    assert found is not None
    return found


def test_alpha_and_item_rest_of_lsat6() -> None:
    assert kr20(marks(6)).value == pytest.approx(0.295, abs=THIRD_DECIMAL)
    found = [item.item_rest for item in item_figures(marks(6))]
    assert found == pytest.approx([0.113, 0.153, 0.173, 0.144, 0.122], abs=THIRD_DECIMAL)


def test_alpha_of_lsat7() -> None:
    assert kr20(marks(7)).value == pytest.approx(0.453, abs=THIRD_DECIMAL)


def test_rasch_of_lsat6() -> None:
    fit = fit_rasch(*lsat(6))
    assert fit.log_likelihood == pytest.approx(-2466.938, abs=0.002)
    assert fit.slopes[0] == pytest.approx(0.7551, abs=PRINTED)
    assert fit.difficulties == pytest.approx([-3.6153, -1.3224, -0.3176, -1.7301, -2.7802], abs=PRINTED)


def test_two_parameter_of_lsat6() -> None:
    fit = fit_two_parameter(*lsat(6))
    assert fit.slopes == pytest.approx([0.8254, 0.7229, 0.8905, 0.6886, 0.6575], abs=PRINTED)
    assert fit.difficulties == pytest.approx([-3.3597, -1.3696, -0.2799, -1.8659, -3.1236], abs=PRINTED)


def test_two_parameter_of_lsat7() -> None:
    fit = fit_two_parameter(*lsat(7))
    assert fit.log_likelihood == pytest.approx(-2658.805, abs=0.002)
    assert fit.slopes == pytest.approx([0.988, 1.081, 1.706, 0.765, 0.736], abs=PRINTED)


def test_feldt_interval() -> None:
    assert feldt_interval(0.85, 89, 7) == pytest.approx((0.7970649, 0.8931666), abs=1e-7)


def test_wilson_interval() -> None:
    assert wilson(7, 8) == pytest.approx((0.529112, 0.977583), abs=1e-6)
    assert wilson(0, 8) == pytest.approx((0, 0.324408), abs=1e-6)
    assert wilson(0, 0) == (0.0, 1.0)


@pytest.mark.parametrize(
    ("right", "count", "low", "high"),
    [(81, 263, 0.2553, 0.3662), (15, 148, 0.0624, 0.1605), (0, 20, 0.0, 0.1611), (1, 29, 0.0061, 0.1718)],
)
def test_wilson_interval_of_newcombe(right: int, count: int, low: float, high: float) -> None:
    """Newcombe 1998, Statistics in Medicine 17, 857, table I, score method without correction (as others quote it)."""
    assert wilson(right, count) == pytest.approx((low, high), abs=5e-5)


def test_beta_and_f_at_known_points() -> None:
    assert beta_below(0.5, 2, 2) == pytest.approx(0.5)
    assert (beta_below(0, 2, 3), beta_below(1, 2, 3)) == (0.0, 1.0)
    assert beta_below(0.3, 1, 1) == pytest.approx(0.3)
    assert f_quantile(0.5, 7, 7) == pytest.approx(1)


def test_constant_items_do_not_break_the_figures() -> None:
    table = np.ones((5, 2), dtype=np.int8)
    assert item_figures(table)[0].item_rest is None
    assert reliability(table) is None
    assert not item_figures(table)[0].judged
    with pytest.raises(ValueError, match="needs two"):
        reliability(np.ones((1, 2), dtype=np.int8))


def simulated_class(weak: dict[str, float], seed: int, students: int = 40) -> list[SkillCount]:
    rng = Random(seed)
    counts = []
    for skill in (f"s{n}" for n in range(12)):
        answers = tuple(6 + int(rng.random() * 6) for _ in range(students))
        right = 0
        for n in answers:
            p = min(max(rng.gauss(weak.get(skill, 0.75), 0.1), 0.02), 0.98)
            right += sum(rng.random() < p for _ in range(n))
        counts.append(SkillCount(skill, answers, right))
    return counts


def test_a_clearly_weak_skill_is_flagged_first() -> None:
    spots = weak_spots(simulated_class({"s3": 0.45}, 1))
    assert spots[0].skill == "s3"
    assert spots[0].flagged
    assert spots[0].low < spots[0].estimate < spots[0].high


def test_classes_without_a_weak_skill_are_seldom_flagged() -> None:
    flagged = sum(any(spot.flagged for spot in weak_spots(simulated_class({}, seed))) for seed in range(200))
    assert flagged <= 0.05 * 200


def sparse_class(spread: float, rng: Random) -> tuple[list[SkillCount], dict[str, float]]:
    """Seven students and as many kinds of questions as the packs have, most answered a few times; the true shares."""
    levels = [rng.gauss(0.9, 0.8) for _ in range(7)]
    counts, true = [], {}
    for number, answers in enumerate([110, 72, 70, 63, *[10] * 10, *[2, 3, 4, 5, 6] * 14]):
        harder, asked = rng.gauss(0, spread), rng.sample(range(7), min(7, answers))
        each = [1 / (1 + exp(harder - level)) for level in levels]
        who = [asked[place % len(asked)] for place in range(answers)]
        right = sum(rng.random() < each[student] for student in who)
        counts.append(SkillCount(str(number), tuple(who.count(student) for student in range(7)), right))
        true[str(number)] = sum(each) / 7
    return counts, true


@pytest.mark.parametrize(("spread", "held"), [(0.0, 0.95), (0.4, 0.93), (0.8, 0.86)])
def test_ranges_hold_where_most_kinds_have_few_answers(spread: float, held: float) -> None:
    """Between-skill variance taken from kinds that tell nothing drew all to the mean: half of the ranges were wrong."""
    rng, inside, spots = Random(5), 0, 0
    for _ in range(60):
        counts, true = sparse_class(spread, rng)
        for spot in weak_spots(counts):
            inside += spot.low <= true[spot.skill] <= spot.high
            spots += 1
    assert inside / spots >= held


def test_small_classes_get_wider_intervals_and_a_caution() -> None:
    large = weak_spots(simulated_class({}, 3, students=12))[0]
    small = weak_spots(simulated_class({}, 3, students=4))[0]
    assert small.few
    assert not large.few
    assert small.high - small.low > large.high - large.low
    assert weak_spots([SkillCount("a", (0, 0), 0)]) == ()
    assert len(weak_spots([SkillCount("a", (3,), 1)])) == 1


def test_misconceptions_name_who_and_how_sure() -> None:
    held = {"adds-east": {f"s{n}": (0.9 if n < 7 else 0.05) for n in range(14)}, "few": {"s1": 0.6}}
    first, second = held_misconceptions(held)
    assert (first.misconception, len(first.holders), first.students) == ("adds-east", 7, 14)
    assert first.low < first.share < first.high
    assert second.few
    assert held_misconceptions({"nobody": {"s1": 0.4}, "unanswered": {}}) == ()


def going(r: float, answers: int) -> RestSums:
    """Answers half right of people half of whom are right elsewhere, the two going together as r says."""
    half = answers / 2
    return RestSums(answers, round(half), half, half, answers * (round(half) / answers / 2 + r / 4) if answers else 0)


def test_a_correlation_is_flagged_only_with_thirty_answers_behind_it() -> None:
    assert judge_family(AnswersToFamily("f", 90, 45, going(-1, 29), {}, {})).flags == ()
    assert judge_family(AnswersToFamily("f", 90, 45, going(-1, 30), {}, {})).flags == ("negative-discrimination",)
    assert judge_family(AnswersToFamily("f", 90, 45, going(0, 0), {}, {})).rest is None


def test_questions_are_flagged_with_reasons_only_on_enough_answers() -> None:
    bad = AnswersToFamily("f", 100, 10, going(-0.3, 100), {"a": 60, "b": 1}, {"a": 100, "b": 100}, {"041": 4, "9": 1})
    quality = judge_family(bad)
    assert quality.flags == ("negative-discrimination", "too-hard", "idle-option", "unexplained-value")
    assert quality.idle == ("b",)
    assert quality.candidates == (("041", 4),)
    assert judge_family(AnswersToFamily("f", 29, 0, going(-1, 29), {}, {})).flags == ()
    assert judge_family(AnswersToFamily("f", 40, 39, going(-0.05, 40), {}, {})).flags == (
        "weak-discrimination",
        "too-easy",
    )
    assert judge_family(AnswersToFamily("f", 0, 0, going(0, 0), {}, {})).share_right == 0


@pytest.mark.parametrize(("counts", "shares"), [((10, 10), (0.5, 0.5)), ((12, 30), (0.4, 0.8)), ((40, 15), (0.9, 0.6))])
def test_interval_of_a_change_holds_the_true_change_as_often_as_it_says(
    counts: tuple[int, int], shares: tuple[float, float]
) -> None:
    """Exactly, over all that can be answered; small counts may hold it a little more or less often than 95 %."""
    n, m = counts
    first, second = (
        [comb(count, right) * p**right * (1 - p) ** (count - right) for right in range(count + 1)]
        for count, p in zip(counts, shares, strict=True)
    )
    held = 0.0
    for right, chance in enumerate(first):
        for later, other in enumerate(second):
            low, high = change((right, n), (later, m))
            held += chance * other * (low <= shares[1] - shares[0] <= high)
    assert 0.93 < held < 0.98
    assert change((3, n), (3, 0)) == (-1.0, 1.0)
