"""Signs at the corners: right angles, either zero, the last float before north and the smallest float there is."""

from math import copysign, nextafter

import pytest

from app.physics.angles import atan2_deg, cos_deg, difference, shown, signed, sin_deg, tan_deg, wrap360
from app.physics.card import reading_deg

SMALLEST = 5e-324
LAST_BEFORE_NORTH = nextafter(360.0, 0.0)


def is_positive_zero(x: float) -> bool:
    return x == 0.0 and copysign(1.0, x) == 1.0


@pytest.mark.parametrize(
    ("deg", "wrapped", "either_side", "whole_heading"),
    [
        (0.0, 0.0, 0.0, 360),
        (-0.0, 0.0, 0.0, 360),
        (SMALLEST, SMALLEST, SMALLEST, 360),
        (-SMALLEST, 0.0, -SMALLEST, 360),
        (-1e-20, 0.0, -1e-20, 360),
        (90.0, 90.0, 90.0, 90),
        (180.0, 180.0, 180.0, 180),
        (-180.0, 180.0, 180.0, 180),
        (270.0, 270.0, -90.0, 270),
        (359.999, 359.999, 359.999 - 360.0, 360),
        (LAST_BEFORE_NORTH, LAST_BEFORE_NORTH, LAST_BEFORE_NORTH - 360.0, 360),
        (360.0, 0.0, 0.0, 360),
        (-360.0, 0.0, 0.0, 360),
        (540.0, 180.0, 180.0, 180),
        (-540.0, 180.0, 180.0, 180),
    ],
)
def test_wrapping(deg: float, wrapped: float, either_side: float, whole_heading: int) -> None:
    assert (wrap360(deg), signed(deg), shown(deg)) == (wrapped, either_side, whole_heading)


@pytest.mark.parametrize("deg", [0.0, -0.0, 360.0, -360.0, -SMALLEST])
def test_north_has_no_minus_sign(deg: float) -> None:
    assert is_positive_zero(wrap360(deg))


@pytest.mark.parametrize("turns", [-720.0, -360.0, 0.0, 360.0, 3600.0])
@pytest.mark.parametrize(
    ("deg", "sine", "cosine"), [(0.0, 0.0, 1.0), (90.0, 1.0, 0.0), (180.0, 0.0, -1.0), (270.0, -1.0, 0.0)]
)
def test_right_angles_are_exact(deg: float, sine: float, cosine: float, turns: float) -> None:
    assert (sin_deg(deg + turns), cos_deg(deg + turns)) == (sine, cosine)


@pytest.mark.parametrize("deg", [180.0, -180.0, 0.0, -0.0, 360.0])
def test_no_sine_or_tangent_is_minus_zero(deg: float) -> None:
    assert is_positive_zero(sin_deg(deg))
    assert is_positive_zero(tan_deg(deg))


def test_halves_are_exact() -> None:
    assert [sin_deg(d) for d in (30, 150, 210, 330, -30)] == [0.5, 0.5, -0.5, -0.5, -0.5]
    assert [cos_deg(d) for d in (60, 120, 240, 300, -60)] == [0.5, -0.5, -0.5, 0.5, 0.5]
    assert [tan_deg(d) for d in (45, 135, 225, 315)] == [1.0, -1.0, 1.0, -1.0]


def test_half_turn_is_positive_from_either_side() -> None:
    assert difference(0.0, 180.0) == difference(180.0, 0.0) == 180.0
    assert atan2_deg(-0.0, -1.0) == atan2_deg(0.0, -1.0) == 180.0


@pytest.mark.parametrize("heading_deg", [0.0, 90.0, 180.0, 270.0])
@pytest.mark.parametrize("dip_deg", [-70.0, 0.0, 70.0])
def test_level_card_reads_right_angles_exactly(heading_deg: float, dip_deg: float) -> None:
    assert reading_deg(heading_deg, dip_deg) == heading_deg


@pytest.mark.parametrize("heading_deg", [-0.0, -SMALLEST, SMALLEST, LAST_BEFORE_NORTH])
def test_level_card_near_north_reads_near_north(heading_deg: float) -> None:
    assert abs(difference(reading_deg(heading_deg, 60.0), heading_deg)) < 1e-12
