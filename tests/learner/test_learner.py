"""The learner model against worked values.

Filter steps and the integrated binomial: by adaptive integration, to seven figures. Poisson-binomial: exact.
Review intervals: what FSRS-6 gives with its default parameters when every review comes as it falls due.
"""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from math import exp, log
from random import Random

import pytest

from app.learner.evidence import (
    PRACTICE,
    SKILL_NOISE,
    Evidence,
    Level,
    Posed,
    Skill,
    _observe,
    aged,
    learn,
    new_skill,
    predict_right,
)
from app.learner.mastery import judge, likely_right
from app.learner.quadrature import normal_nodes
from app.learner.readiness import Asked, Section, binomial, convolve, readiness, score_distribution
from app.learner.recall import Recall, recall_chance, review
from app.learner.selection import Candidate, best_suited, choose

NOW = datetime(2026, 9, 1, 12, tzinfo=UTC)
INTEGRATION = 3e-5  # fifteen nodes against adaptive integration


PLAIN = Posed(0.0, 4)


def evidence(posed: Posed = PLAIN, **changes: object) -> Evidence:
    return replace(Evidence(posed, correct=True, at=NOW), **changes)  # type: ignore[arg-type]


def typed(*offered: str) -> Posed:
    return Posed(0.0, 0, offered)


@pytest.mark.parametrize("days", [0, 1, 30])
def test_a_class_is_told_the_estimate_that_judge_gives(days: int) -> None:
    level, skill, now = Level(0.3), Skill(0.4, answers=5, last_at=NOW, misconceptions={"east": 0.2}), NOW
    later = now + timedelta(days=days)
    assert likely_right(level, skill, later) == judge(level, skill, later).estimate


@pytest.mark.parametrize(
    ("mean", "variance", "correct", "after", "spread"),
    [
        (0, 1.7, True, 0.3729132, 1.5609357),
        (0, 1.7, False, -0.5593698, 1.3871054),
        (1.5, 0.6, False, 1.1774864, 0.591983),
    ],
)
def test_filter_step(mean: float, variance: float, correct: bool, after: float, spread: float) -> None:  # noqa: FBT001
    posterior = _observe(mean, variance, Skill(), evidence(correct=correct))
    assert mean + posterior.shift == pytest.approx(after, abs=INTEGRATION)
    assert variance + posterior.shrink == pytest.approx(spread, abs=INTEGRATION)


def test_nodes_integrate_a_normal() -> None:
    nodes = normal_nodes(15)
    moments = [sum(w * x**n for x, w in nodes) for n in (0, 1, 2, 4, 6)]
    assert moments == pytest.approx([1, 0, 1, 3, 15], abs=1e-9)


def test_right_answers_raise_and_wrong_ones_lower() -> None:
    level, skill = learn(Level(), Skill(), evidence())
    assert level.mean > 0
    assert skill.mean > 0
    low, _ = learn(Level(), Skill(), evidence(correct=False))
    assert low.mean < 0


def test_practice_brings_skills_closer_together() -> None:
    """Everybody's skill moved by what practice brings it, summed over the nodes, against the variance that is kept."""
    level, skill = Level(0.1, 0.05), Skill(0.2, 0.15)
    _, after = learn(level, skill, evidence())
    seen = _observe(0.3, 0.2, skill, evidence())
    mean, variance = 0.2 + 0.75 * seen.shift, 0.15 + 0.75**2 * seen.shrink
    able = Level(0.1 + 0.25 * seen.shift).mean
    people = [(mean + variance**0.5 * x, w) for x, w in normal_nodes(15)]
    moved = [(x + PRACTICE / (1 + exp(able + x)), w) for x, w in people]
    middle = sum(w * x for x, w in moved)
    spread = sum(w * (x - middle) ** 2 for x, w in moved)
    assert spread < 0.93 * variance
    assert after.mean == pytest.approx(middle, abs=1e-3)
    assert after.variance - SKILL_NOISE == pytest.approx(spread, rel=5e-3)


def test_misconception_is_named_after_few_answers() -> None:
    level, skill = Level(), new_skill(("v-sign", "d-sign", "stops"))
    posed = typed("v-sign", "d-sign", "stops")
    for _ in range(3):
        level, skill = learn(level, skill, evidence(posed, correct=False, shown=("v-sign",)))
    assert skill.misconceptions["v-sign"] > 0.8
    assert skill.misconceptions["d-sign"] < 0.05
    for _ in range(6):
        level, skill = learn(level, skill, evidence(posed))
    assert skill.misconceptions["v-sign"] < 0.1


def test_two_misconceptions_behind_one_option_share_the_blame() -> None:
    _, skill = learn(
        Level(), new_skill(("a", "b")), evidence(Posed(0.0, 4, ("a", "b")), correct=False, shown=("a", "b"))
    )
    assert skill.misconceptions["a"] == pytest.approx(skill.misconceptions["b"])


def test_too_fast_says_nothing() -> None:
    level, skill = learn(Level(0.3), Skill(0.2), evidence(correct=False, fast=True))
    assert (level.mean, skill.mean, skill.answers) == (0.3, 0.2, 0)


def test_a_month_away_brings_doubt_back() -> None:
    skill = Skill(1.0, 0.1, answers=12, last_at=NOW)
    assert aged(skill, NOW - timedelta(days=1)) == aged(skill, NOW + timedelta(days=2)) == skill
    later = aged(skill, NOW + timedelta(days=30))
    assert later.variance == pytest.approx(0.1 + 28 * 0.03)
    assert later.mean == pytest.approx(1.0 - 0.30 * log(1 + 28 / 3))
    assert aged(skill, NOW + timedelta(days=300)).variance == 1.0
    assert aged(replace(skill, answers=60), NOW + timedelta(days=30)).mean > later.mean


def test_a_month_away_widens_the_range_and_the_first_right_answers_bring_it_back() -> None:
    level, skill = answered(12)
    evening, back = NOW + timedelta(days=3), NOW + timedelta(days=33)
    before, after = judge(level, skill, evening), judge(level, skill, back, was_mastered=True)
    assert before.mastered
    assert after.high - after.low > 1.5 * (before.high - before.low)
    assert after.probability < before.probability
    for _ in range(2):
        level, skill = learn(level, skill, evidence(typed("a"), at=back))
    again = judge(level, skill, back)
    assert again.mastered
    assert after.probability < again.probability


def test_what_was_mastered_by_few_answers_is_not_after_a_month() -> None:
    level, skill = Level(0.6, 0.1), Skill(1.6, 0.3, answers=6, last_at=NOW)
    assert judge(level, skill, NOW + timedelta(days=1), was_mastered=True).mastered
    assert not judge(level, skill, NOW + timedelta(days=31), was_mastered=True).mastered


def test_predicted_share_is_between_guess_and_slip() -> None:
    assert 0.25 < predict_right(Level(-5), Skill(), PLAIN, NOW) < 0.3
    assert 0.9 < predict_right(Level(5), Skill(), PLAIN, NOW) < 0.95


def test_a_misconception_stands_only_in_the_way_of_items_that_could_show_it() -> None:
    skill = replace(Skill(), misconceptions={"v-sign": 0.5})
    plain = predict_right(Level(), skill, PLAIN, NOW)
    assert predict_right(Level(), skill, Posed(0.0, 4, ("v-sign",)), NOW) == pytest.approx((1 - 0.8 * 0.5) * plain)
    assert plain == predict_right(Level(), Skill(), PLAIN, NOW)


def answered(times: int, **changes: object) -> tuple[Level, Skill]:
    level, skill = Level(), new_skill(("a",))
    for n in range(times):
        at = NOW + timedelta(days=n // 5)
        level, skill = learn(level, skill, evidence(typed("a"), at=at, **changes))
    return level, skill


def test_mastery_needs_answers_typed_days_and_certainty() -> None:
    level, skill = answered(3)
    assert "few-answers" in judge(level, skill, NOW).missing
    level, skill = answered(5)
    assert "one-day" in judge(level, skill, NOW).missing
    level, skill = answered(12)
    assert judge(level, skill, NOW + timedelta(days=2)).mastered
    level, skill = answered(12, correct=False)
    assert set(judge(level, skill, NOW).missing) == {"few-typed", "below"}


def test_mastery_is_lost_only_below_its_lower_bar() -> None:
    level, skill = Level(0.0, 0.05), replace(Skill(), mean=1.7, variance=0.05, answers=3)
    now = judge(level, skill, NOW)
    assert 0.6 <= now.probability < 0.9
    assert judge(level, skill, NOW, was_mastered=True).mastered
    assert not now.mastered


def test_review_intervals_of_fsrs() -> None:
    recall: Recall | None = None
    now, intervals = NOW, []
    for rating in "3333331133333":
        recall = review(recall, correct=rating == "3", now=now)
        intervals.append((recall.due - now).days)
        now = recall.due
    assert intervals == [0, 2, 11, 46, 163, 498, 0, 0, 2, 4, 7, 12, 21]
    assert recall is not None
    assert recall_chance(recall, recall.due) == pytest.approx(0.9, abs=0.01)


def test_review_refuses_a_time_without_zone() -> None:
    with pytest.raises(ValueError, match="no time zone"):
        review(None, correct=True, now=datetime(2026, 9, 1))  # noqa: DTZ001


def test_poisson_binomial_is_exact() -> None:
    scores = [1.0]
    for p in (0.1, 0.2, 0.3, 0.4, 0.5):
        scores = convolve(scores, [1 - p, p])
    assert scores == pytest.approx([0.1512, 0.3714, 0.3274, 0.1274, 0.0214, 0.0012], abs=1e-9)


def test_binomial_tail() -> None:
    assert sum(binomial(60, 0.8)[42:]) == pytest.approx(0.9779315, abs=1e-7)


def test_score_under_uncertain_ability() -> None:
    chances = score_distribution(0.8, 0.5, Asked("f", 10, 4, 0.0))
    assert sum(chances) == pytest.approx(1)
    assert sum(chances[7:]) == pytest.approx(0.6837995, abs=INTEGRATION)


def exam(mean: float, days: float | None = None, answers: int = 9) -> object:
    day = NOW + timedelta(days=days or 0)
    skills = {name: aged(Skill(m, 0.1, answers, last_at=NOW), day) for name, m in (("a", mean), ("b", -mean))}
    sections = (Section("one", (Asked("a", 10, 4, 0.0),), 6), Section("two", (Asked("b", 10, 4, 0.0),), 6))
    return readiness(Level(0.5, 0.1), skills, sections, 12)


def test_readiness_names_the_limiting_section_and_fades() -> None:
    today = exam(1.0)
    assert today.limiting == "two"  # type: ignore[attr-defined]
    assert today.chance < min(today.sections.values()) + 1e-9  # type: ignore[attr-defined]
    assert exam(1.0, 30).chance < today.chance  # type: ignore[attr-defined]


def test_readiness_says_when_there_is_too_little() -> None:
    assert exam(1.0, answers=2).words == "not-enough"  # type: ignore[attr-defined]


@pytest.mark.parametrize(("level", "words"), [(-1.0, "unlikely"), (0.5, "open"), (0.9, "likely"), (3.0, "very-likely")])
def test_readiness_is_said_in_words(level: float, words: str) -> None:
    skills = {"a": Skill(0.0, 0.05, 30)}
    section = Section("one", (Asked("a", 20, 4, 0.0),), 14)
    assert readiness(Level(level, 0.05), skills, (section,), 14).words == words


def test_misconception_costs_the_marks_of_the_questions_that_can_show_it() -> None:
    ten, n = Asked("a", 10, 4, 0.0), 10

    def mean_right(names: int) -> float:
        held = dict.fromkeys([f"m{number}" for number in range(names)], 1 / names)
        skill = Skill(0.0, 0.0, 30, misconceptions=held)
        marks = [Section("all", (ten,), least) for least in range(1, n + 1)]
        return sum(readiness(Level(0.0, 0.0), {"a": skill}, (mark,), mark.least_right).chance for mark in marks)

    plain = n * (1 / 4 + (1 - 0.05 - 1 / 4) / 2)  # the sum of P(at least k right) is the mean
    assert mean_right(3) == pytest.approx(plain * (1 - 0.8))  # every question with four options can show it
    assert mean_right(12) == pytest.approx(plain * (1 - 0.8 * 3 / 12))


def test_choice_prefers_what_is_due_then_the_weakest() -> None:
    weak, strong = Candidate("weak", Skill(-1)), Candidate("strong", Skill(2, 0.1, 10, 10))
    due = Candidate("due", Skill(1), due_at=NOW - timedelta(days=1))
    assert choose(Level(), [weak, strong, due], [], NOW, Random(1)).family == "due"  # type: ignore[union-attr]
    assert choose(Level(), [weak, strong], [], NOW, Random(1)).family == "weak"  # type: ignore[union-attr]
    assert choose(Level(), [weak, strong], ["weak"], NOW, Random(1)).family == "strong"  # type: ignore[union-attr]
    assert choose(Level(), [], [], NOW, Random(1)) is None


def test_a_likely_misconception_is_met_head_on() -> None:
    held = replace(Skill(), misconceptions={"v-sign": 0.9, "d-sign": 0.02})
    chosen = choose(Level(), [Candidate("a", held)], [], NOW, Random(1))
    assert chosen is not None
    assert (chosen.reason, chosen.contrast) == ("misconception", "v-sign")
    stuck = replace(Skill(-3, 0.1, 12), misconceptions={"v-sign": 0.3})
    again = choose(Level(), [Candidate("a", stuck, since_gain=8)], [], NOW, Random(1))
    assert again is not None
    assert again.contrast == "v-sign"


def test_what_may_be_held_is_suspected_before_it_is_named() -> None:
    doubtful = replace(Skill(), misconceptions={"v-sign": 0.3, "d-sign": 0.02})
    chosen = choose(Level(), [Candidate("a", doubtful)], [], NOW, Random(1))
    assert chosen is not None
    assert (chosen.contrast, chosen.suspect) == (None, "v-sign")
    unknown = choose(Level(), [Candidate("a", new_skill(("v-sign", "d-sign")))], [], NOW, Random(1))
    assert unknown is not None
    assert unknown.suspect is None


def test_items_are_chosen_by_their_predicted_share() -> None:
    offered = [Posed(-2.0, 4), Posed(0.0, 4), Posed(2.0, 4)]
    assert best_suited(Level(0, 0.1), Skill(0, 0.1), offered, "learn", NOW) == 1
    assert best_suited(Level(2, 0.1), Skill(0, 0.1), offered, "diagnose", NOW) == 2


def test_of_items_as_hard_the_one_that_shows_more_of_what_may_be_held_is_chosen() -> None:
    doubtful = replace(Skill(), misconceptions={"v-sign": 0.02, "d-sign": 0.06, "both": 0.04})
    offered = [Posed(0.0, 0), Posed(0.0, 0, ("v-sign",)), Posed(0.0, 0, ("d-sign", "both")), Posed(0.0, 0, ("d-sign",))]
    assert best_suited(Level(), doubtful, offered, "learn", NOW) == 2


def test_slip_in_a_list_says_less_than_a_typed_value_and_as_much_as_an_option() -> None:
    skill = new_skill(("a", "b", "c"))

    def after(posed: Posed) -> float:
        return learn(Level(), skill, evidence(posed, correct=False, shown=("a",)))[1].misconceptions["a"]

    offered = ("a", "b", "c")
    typed, listed, option = (
        after(Posed(0, 0, offered)),
        after(Posed(0, 0, offered, listed=True)),
        after(Posed(0, 4, offered)),
    )
    assert skill.misconceptions["a"] < listed < typed
    assert listed == pytest.approx(option, abs=0.1)
    assert Posed(0, 0, ("a",), listed=True).wrong_share == 1 / 2
