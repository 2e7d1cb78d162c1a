"""Numbers as people write them, in both languages."""

import pytest

from app.questions import numbers

NBSP = "\u00a0"


@pytest.mark.parametrize(("value", "text"), [(0, "360"), (360, "360"), (7, "007"), (-1, "359"), (359.6, "360")])
def test_heading_has_three_digits_and_north_is_360(value: float, text: str) -> None:
    assert numbers.heading(value) == text


@pytest.mark.parametrize(
    ("value", "english", "french"),
    [(13, f"13°{NBSP}E", f"13°{NBSP}E"), (-2.5, f"2.5°{NBSP}W", f"2,5°{NBSP}O"), (0, "0°", "0°")],
)
def test_east_and_west_have_their_letters(value: float, english: str, french: str) -> None:
    assert numbers.east_west(value, "en") == english
    assert numbers.east_west(value, "fr") == french


def test_south_is_s_in_both() -> None:
    assert numbers.north_south(-33, "fr") == f"33°{NBSP}S"


@pytest.mark.parametrize(
    ("value", "places", "language", "text"),
    [
        (2.5, 0, "en", "3"),
        (-0.25, 1, "en", "−0.3"),
        (1.05, 1, "fr", "1,1"),
        (12500, 0, "fr", "12\u202f500"),
        (3500, 0, "en", "3500"),
    ],
)
def test_decimals_round_half_up(value: float, places: int, language: str, text: str) -> None:
    assert numbers.decimals(value, places, language) == text  # type: ignore[arg-type]


@pytest.mark.parametrize(("value", "text"), [(3, "+3"), (-3, "−3"), (0, "0"), (0.2, "0")])
def test_signed(value: float, text: str) -> None:
    assert numbers.signed(value, "en") == text


def test_arc_minutes() -> None:
    assert numbers.arc_minutes(-968, "fr") == f"16°{NBSP}08′{NBSP}O"
    assert numbers.arc_minutes(0, "en") == f"0°{NBSP}00′"


def test_clock_differs_by_language() -> None:
    assert numbers.clock(845, "en") == "14:05"
    assert numbers.clock(845, "fr") == f"14{NBSP}h{NBSP}05"
    assert numbers.four_digit_time(1445) == "0005"


@pytest.mark.parametrize(("value", "text"), [(80, f"1{NBSP}min 20{NBSP}s"), (60, f"1{NBSP}min"), (0, f"0{NBSP}s")])
def test_minutes_and_seconds(value: float, text: str) -> None:
    assert numbers.minutes_seconds(value, "en") == text


@pytest.mark.parametrize(
    ("value", "code"), [(0, "north"), (360, "north"), (44, "north-east"), (337, "north-west"), (338, "north")]
)
def test_points(value: float, code: str) -> None:
    assert numbers.point(value) == code


def test_a_sign_before_the_short_form() -> None:
    assert [numbers.NUMBER_FILTERS["signed_exact"](v, "fr") for v in (9.5, -3.5, -8, 0)] == ["+9,5", "−3,5", "−8", "0"]


def test_exact_is_as_short_as_it_stands() -> None:
    assert [numbers.exact(v, "en") for v in (3, 2.5, 0.25, 1 / 3)] == ["3", "2.5", "0.25", "0.333"]
