"""Sums of the working: the step round north spelt out, and results that follow from what is written."""

import pytest

from app.questions.sums import misses_by, past_north, value_of, write_sum


@pytest.mark.parametrize(
    ("written", "english"),
    [
        ("355 + 13 = 008", "355 + 13 = 368, less 360 = 008"),
        ("005 − 13 = 352", "005 − 13 = −8, plus 360 = 352"),
        ("013 − 13 = 360", "013 − 13 = 0, plus 360 = 360"),
        ("360 − (−7) = 007", "360 − (−7) = 367, less 360 = 007"),
        ("355° + 13° = 008°", "355° + 13° = 368°, less 360° = 008°"),
        ("350 + 17.5 = 008", "350 + 17.5 = 367.5, less 360 = 008"),
        ("347 + 13 = 360", "347 + 13 = 360"),
        ("010 ± 180 = 190", "010 ± 180 = 190"),
        ("002 − 348 = 14", "002 − 348 = −346, plus 360 = 14"),
        ("360 + 8 − 355 = 13", "360 + 8 − 355 = 13"),
    ],
)
def test_a_heading_past_north_shows_its_360(written: str, english: str) -> None:
    assert past_north(written, "en") == english


def test_the_same_in_french() -> None:
    assert past_north("355 + 13 = 008", "fr") == "355 + 13 = 368, moins 360 = 008"
    assert past_north("350 + 17,5 = 008", "fr") == "350 + 17,5 = 367,5, moins 360 = 008"


@pytest.mark.parametrize(
    ("filled", "written"),
    [
        ("4220 + 120 × (+11.4) = 5588", "4220 + 120 × 11.4 = 5588"),
        ("18 − (6.2) = +11.8", "18 − 6.2 = +11.8"),
        ("13 − (0) = 13", "13 − 0 = 13"),
        ("301 + (−6) + (+12) = 307", "301 + (−6) + 12 = 307"),
        ("5 − −3 = +8", "5 − (−3) = +8"),
        ("355 − (+13°) = 342", "355 − 13° = 342"),
        ("(+5 + (+9)) ÷ 2 = +7", "(+5 + 9) ÷ 2 = +7"),
        ("arcsin (1 ÷ 2) = 30", "arcsin (1 ÷ 2) = 30"),
        ("−5 − (+2) = −7", "−5 − 2 = −7"),
        ("010 − (+14) = 356", "010 − 14 = −4, plus 360 = 356"),
    ],
)
def test_only_negative_numbers_stand_in_brackets(filled: str, written: str) -> None:
    assert write_sum(filled, "en") == written


@pytest.mark.parametrize(
    ("expression", "value"),
    [("2 + 3 × 4", 14), ("(2 + 3) × 4", 20), ("60 × 4 ÷ 96", 2.5), ("12\u202f500 − 1,5", 12498.5), ("−4 + 6", 2)],
)
def test_plain_arithmetic(expression: str, value: float) -> None:
    assert value_of(expression) == value


@pytest.mark.parametrize(
    ("expression", "value"),
    [
        ("20 × sin 30°", 10),
        ("110 × cos 60° − 5", 50),
        ("arcsin (1 ÷ 2)", 30),
        ("arctan 1,0", 45),
        ("√(3,0² + 4,0²)", 5),
        ("180 ÷ π", 57.2957795),
    ],
)
def test_sines_and_roots(expression: str, value: float) -> None:
    assert value_of(expression) == pytest.approx(value)


@pytest.mark.parametrize("expression", ["20 × sin", "arcsin 2", "VS0", "010 ± 180", "(2 + 3", "4 ÷ 0", "5 NM", ""])
def test_what_cannot_be_told_is_left_alone(expression: str) -> None:
    assert value_of(expression) is None


def test_a_result_may_be_rounded_but_not_missed() -> None:
    assert misses_by("60 × 4 ÷ 97 = 2.5") == 0
    assert misses_by("124 + 17 = 142") == pytest.approx(0.5, abs=1e-5)
    assert misses_by("15 × sin 30° = 8") == 0
    assert misses_by("15 × sin 30° = 7.4") == pytest.approx(0.05, abs=1e-5)
    assert misses_by("60 × 35.6 / 75 = 28\u00a0min") == 0
    assert misses_by("60 × 35.6 / 75 = 29\u00a0min") > 0
    assert misses_by("355 + 13 = 008") > 300
