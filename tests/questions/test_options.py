"""The options of a choice: clear of the key and of one another, in order, the key's place as wanted."""

from random import Random

import pytest

from app.packs.spec import Ask, Text, ValueFormat
from app.questions.model import Solution, Wrong
from app.questions.options import Collision, KeyPlace, build_options, refuse_right_by_wrong_method
from app.questions.solvers.pressure_kinds import altitude_kinds
from tests.questions.engine import home

HEADING = ValueFormat(kind="heading", tolerance=2)
ASK = Ask(id="a", forms=("choice",), question=Text(en="q", fr="q"), value=HEADING)


def solution(key: object, **wrong: object) -> Solution:
    return Solution(key=key, given={}, steps=(), wrong=wrong)


def values(made: Solution, ask: Ask = ASK, place: float | None = None) -> list[object]:
    return [option.value for option in build_options(made, ask, ask.value, Random(1), place)]


def test_numbers_stand_in_order_whatever_the_seed() -> None:
    made = solution(100, a=90, b=120, c=130)
    for seed in range(20):
        options = build_options(made, ASK, HEADING, Random(seed), None)
        assert [option.value for option in options] == [90, 100, 120, 130]
        assert [option.correct for option in options] == [False, True, False, False]


def test_no_more_options_than_an_exam_has_and_the_key_among_them() -> None:
    numbers, codes = solution(100, a=90, b=120, c=130), ("up", "down", "same", "none")
    listed = Solution(key="same", given={}, steps=(), options=codes, wrong={"backwards": "down"})
    for seed in range(20):
        options = build_options(numbers, ASK, HEADING, Random(seed), None, 3)
        assert len(options) == 3
        assert [option.value for option in options if option.correct] == [100]
        some = build_options(listed, CODES.model_copy(update={"need": 1}), CODES.value, Random(seed), None, 2)
        assert {option.value for option in some} == {"down", "same"}  # what a misconception leads to stays


def test_near_values_are_dropped_and_too_few_collide() -> None:
    with pytest.raises(Collision, match="2 distinct"):
        values(solution(100, a=90, b=93, c=130))


def test_nearness_goes_round_north() -> None:
    with pytest.raises(Collision):
        values(solution(360, a=3, b=90, c=180))


def test_same_value_is_one_option_with_both_names() -> None:
    options = build_options(solution(100, a=90, b=90, c=130, d=140), ASK, HEADING, Random(1), None)
    assert options[0].misconceptions == ("a", "b")


def test_key_stands_where_wanted_or_says_it_cannot() -> None:
    made = solution(100, a=50, b=60, c=130, d=140, e=150)
    for place, index in ((0.0, 0), (0.3, 1), (0.6, 2)):
        assert values(made, place=place)[index] == 100
    with pytest.raises(KeyPlace):
        values(made, place=0.99)


def test_unofferable_values_are_left_to_diagnosis() -> None:
    assert 400 not in values(solution(100, a=Wrong(400, option=False), b=90, c=130, d=150))


def test_a_wrong_method_that_gives_the_key_spoils_the_draw() -> None:
    with pytest.raises(Collision, match="a would be marked right"):
        refuse_right_by_wrong_method(solution(100, a=102), HEADING)


CODES = Ask(id="a", forms=("choice",), question=Text(en="q", fr="q"), need=2)


def test_fixed_set_is_offered_whole() -> None:
    made = Solution(key="up", given={}, steps=(), wrong={"m": "down", "n": "same"}, options=("up", "down", "same"))
    options = build_options(made, CODES, CODES.value, Random(3), None)
    assert sorted(option.value for option in options) == ["down", "same", "up"]
    assert {option.value: option.misconceptions for option in options}["down"] == ("m",)


def test_fixed_set_keeps_its_order_when_told() -> None:
    made = Solution(key="up", given={}, steps=(), wrong={"m": "down", "n": "same"}, options=("up", "down", "same"))
    ask = CODES.model_copy(update={"ordered": True})
    assert [option.value for option in build_options(made, ask, ask.value, Random(3), None)] == ["up", "down", "same"]


def test_fixed_set_must_hold_the_key_and_enough_reasons() -> None:
    with pytest.raises(Collision, match="key is not among"):
        build_options(Solution(key="x", given={}, steps=(), options=("a", "b")), CODES, CODES.value, Random(1), None)
    made = Solution(key="a", given={}, steps=(), options=("a", "b", "c"))
    with pytest.raises(Collision, match="too few options"):
        build_options(made, CODES, CODES.value, Random(1), None)


@pytest.mark.parametrize("pair", ["true-indicated", "density-pressure"])
@pytest.mark.parametrize("deviation_c", [-8, 0, 8])
def test_altitudes_compared_have_a_misconception_behind_either_wrong_answer(pair: str, deviation_c: int) -> None:
    warmth = {"ask": "greater", "comparison": pair, "indicated_ft": 4000, "isa_deviation_c": deviation_c}
    made = altitude_kinds(warmth, home())
    assert set(made.wrong.values()) == set(made.options) - {made.key}
