"""Difficulties measured from simulated answers whose truth is known: found again within what the measuring promises."""

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from random import Random
from statistics import mean

import pytest

from app.learner.calibration import GRADE_SPREAD, PooledAnswer, calibrate
from app.learner.difficulty import first_difficulty
from app.learner.evidence import Evidence, Level, Posed
from app.learner.logistic import sigmoid

NOW = datetime(2026, 9, 1, 12, tzinfo=UTC)
PLAIN, FEATURE = 0.9, 0.5
KNOWN_VARIANCE = 0.14  # of a level that answers elsewhere have told: from a normal population of variance 1


def course(rng: Random, answers: int) -> Sequence[PooledAnswer]:
    """Answer by a learner's true skill, which grows; the model knows only a shrunken level."""
    level, skill = rng.gauss(0, 1), rng.gauss(0, 0.7**0.5)
    known = Level(
        rng.gauss((1 - KNOWN_VARIANCE) * level, (KNOWN_VARIANCE * (1 - KNOWN_VARIANCE)) ** 0.5), KNOWN_VARIANCE
    )
    made = []
    for day in range(answers):
        crossing, options = float(rng.random() < 0.5), rng.choice((0, 4))
        floor = 1 / options if options else 0.02
        p = floor + (0.95 - floor) * sigmoid(level + skill - PLAIN - FEATURE * crossing)
        evidence = Evidence(Posed(0.0, options), correct=rng.random() < p, at=NOW + timedelta(days=day))
        made.append(PooledAnswer(known, evidence, {"crosses-north": crossing}))
        skill += 0.25 * (1 - sigmoid(level + skill))
    return made


def test_difficulty_and_feature_are_found_again_within_their_error() -> None:
    batches = [Random(seed) for seed in range(10, 16)]
    found = [calibrate("medium", (), [course(rng, 5) for _ in range(40)]) for rng in batches]
    off = [(each.difficulty.plain - PLAIN) / each.error for each in found]
    assert max(each.error for each in found) < 0.3
    assert mean(z * z for z in off) ** 0.5 < 1.5
    assert max(map(abs, off)) < 3
    assert mean(each.difficulty.plain for each in found) == pytest.approx(PLAIN, abs=0.25)
    assert mean(each.difficulty.weights["crosses-north"] for each in found) == pytest.approx(FEATURE, abs=0.25)
    assert {(each.answers, each.learners) for each in found} == {(200, 40)}


def test_about_a_hundred_answers_move_it_and_a_few_do_not() -> None:
    rng = Random(5)
    few = calibrate("medium", (), [course(rng, 4)])
    many = calibrate("medium", (), [course(rng, 5) for _ in range(20)])
    assert abs(few.difficulty.plain) < 0.3 < many.difficulty.plain
    assert few.error == pytest.approx(GRADE_SPREAD, abs=0.1)
    assert many.error < 0.35


def test_nobody_s_answers_leave_the_grade() -> None:
    found = calibrate("hard", (), [])
    assert found.difficulty == first_difficulty("hard")
    assert found.error == pytest.approx(GRADE_SPREAD)
