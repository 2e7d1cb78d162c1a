from math import cos, inf, nan, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.physics.angles import (
    asin_deg,
    atan2_deg,
    atan_deg,
    cos_deg,
    difference,
    mean_direction,
    middle_of_swing,
    round_half_up,
    shown,
    signed,
    sin_deg,
    tan_deg,
    unwrap,
    whole,
    wrap360,
)
from app.physics.errors import OutOfRange, Undefined
from tests.tolerances import EXACT

ANY_ANGLE = st.floats(-1e6, 1e6)
HEADING = st.floats(0.0, 360.0, exclude_max=True)


@given(ANY_ANGLE)
def test_wrap_stays_in_range_and_is_idempotent(deg: float) -> None:
    wrapped = wrap360(deg)
    assert 0.0 <= wrapped < 360.0
    assert wrap360(wrapped) == wrapped


@given(HEADING)
def test_wrap_leaves_a_heading_alone(heading: float) -> None:
    assert wrap360(heading) == heading


@given(ANY_ANGLE)
def test_signed_is_the_same_direction(deg: float) -> None:
    turned = signed(deg)
    assert -180.0 < turned <= 180.0
    assert signed(turned) == turned
    assert abs(difference(wrap360(deg), turned)) < EXACT


@given(HEADING, HEADING)
def test_difference_leads_from_one_to_the_other(a: float, b: float) -> None:
    assert abs(difference(wrap360(b + difference(a, b)), a)) < EXACT


@given(ANY_ANGLE)
def test_sine_and_cosine_agree_with_the_machine(deg: float) -> None:
    assert sin_deg(deg) == pytest.approx(sin(radians(deg)), abs=EXACT)
    assert cos_deg(deg) == pytest.approx(cos(radians(deg)), abs=EXACT)


@given(st.floats(-89.0, 89.0))
def test_inverses_give_the_angle_back(deg: float) -> None:
    assert asin_deg(sin_deg(deg)) == pytest.approx(deg, abs=1e-6)
    assert atan_deg(tan_deg(deg)) == pytest.approx(deg, abs=EXACT)
    assert atan2_deg(sin_deg(deg), cos_deg(deg)) == pytest.approx(deg, abs=EXACT)


def test_asin_is_exact_at_the_half() -> None:
    assert (asin_deg(0.5), asin_deg(-0.5)) == (30.0, -30.0)


@pytest.mark.parametrize("ratio", [1.0000001, -1.5, nan])
def test_asin_refuses_what_no_sine_is(ratio: float) -> None:
    with pytest.raises(OutOfRange, match="ratio"):
        asin_deg(ratio)


@pytest.mark.parametrize("deg", [90.0, -90.0, 270.0])
def test_tangent_refuses_a_right_angle(deg: float) -> None:
    with pytest.raises(OutOfRange, match="no tangent"):
        tan_deg(deg)


@pytest.mark.parametrize("deg", [nan, inf, -inf])
@pytest.mark.parametrize("function", [wrap360, signed, sin_deg, cos_deg, tan_deg, shown])
def test_what_is_no_number_is_refused(function: type[float], deg: float) -> None:
    with pytest.raises(OutOfRange):
        function(deg)


def test_no_vector_has_no_direction() -> None:
    with pytest.raises(Undefined):
        atan2_deg(0.0, -0.0)


@pytest.mark.parametrize(
    ("x", "digits", "rounded"),
    [
        (2.5, 0, 3.0),
        (3.5, 0, 4.0),
        (-2.5, 0, -3.0),
        (0.5, 0, 1.0),
        (12.499999999999998, 0, 13.0),
        (12.4999, 0, 12.0),
        (2.675, 2, 2.68),
        (1.005, 2, 1.01),
        (185.0, -1, 190.0),
        (-0.2, 0, 0.0),
    ],
)
def test_halves_round_away_from_zero(x: float, digits: int, rounded: float) -> None:
    assert round_half_up(x, digits) == rounded


@given(st.integers(-100_000, 100_000))
def test_rounding_mirrors(halves: int) -> None:
    assert whole(halves / 2.0) == -whole(-halves / 2.0)


def test_rounding_refuses_what_has_no_decimals_left() -> None:
    with pytest.raises(OutOfRange):
        round_half_up(1e16)


@pytest.mark.parametrize(
    ("deg", "heading"), [(0.4, 360), (359.5, 360), (359.4, 359), (0.5, 1), (720.0, 360), (-1, 359)]
)
def test_shown_is_1_to_360(deg: float, heading: int) -> None:
    assert shown(deg) == heading


@pytest.mark.parametrize(
    ("directions", "mean"), [((350.0, 10.0), 0.0), ((80.0, 100.0), 90.0), ((359.0, 1.0, 3.0), 1.0), ((200.0,), 200.0)]
)
def test_mean_direction_crosses_north(directions: tuple[float, ...], mean: float) -> None:
    assert difference(mean_direction(directions), mean) == pytest.approx(0.0, abs=EXACT)


@pytest.mark.parametrize("directions", [(), (0.0, 180.0), (10.0, 130.0, 250.0)])
def test_opposites_have_no_mean(directions: tuple[float, ...]) -> None:
    with pytest.raises(Undefined):
        mean_direction(directions)


@given(HEADING, st.floats(0.0, 179.0))
def test_middle_of_a_swing_is_the_mean_of_its_ends(low: float, spread: float) -> None:
    middle = middle_of_swing(low, wrap360(low + spread))
    assert difference(middle, mean_direction((low, low + spread))) == pytest.approx(0.0, abs=1e-6)


def test_unwrap_keeps_the_count_of_turns() -> None:
    assert unwrap(2.0, 359.0) == 362.0
    assert unwrap(358.0, 2.0) == -2.0
    assert unwrap(358.0, 722.0) == 718.0
