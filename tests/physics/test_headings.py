import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.physics.angles import difference
from app.physics.errors import OutOfRange, Undefined
from app.physics.headings import (
    POINTS,
    DegreesMinutes,
    QuadrantBearing,
    compass_from,
    cruising_parity,
    degrees_from_minutes,
    degrees_minutes,
    deviation_between,
    from_quadrant,
    isogonal_between_deg,
    magnetic_from_compass_heading,
    magnetic_from_true,
    nearest_point,
    point_deg,
    quadrant_bearing,
    reciprocal,
    reciprocal_runway,
    runway_direction_deg,
    runway_number,
    true_from_magnetic,
    variation_between,
    variation_updated_deg,
    vfr_cruising_altitudes_ft,
)
from tests.tolerances import ARCMINUTE, EXACT

HEADING = st.floats(0.0, 360.0, exclude_max=True)
CORRECTION = st.floats(-60.0, 60.0)


@given(HEADING, CORRECTION, CORRECTION)
def test_true_to_compass_and_back(true: float, variation: float, deviation: float) -> None:
    magnetic = magnetic_from_true(true, variation)
    compass = compass_from(magnetic, deviation)
    assert abs(difference(magnetic_from_compass_heading(compass, deviation), magnetic)) < EXACT
    assert abs(difference(true_from_magnetic(magnetic, variation), true)) < EXACT
    assert variation_between(true, magnetic) == pytest.approx(variation, abs=EXACT)
    assert deviation_between(magnetic, compass) == pytest.approx(deviation, abs=EXACT)


def test_east_is_least_toward_compass() -> None:
    assert magnetic_from_true(5.0, 10.0) == 355.0
    assert magnetic_from_true(355.0, -10.0) == 5.0
    assert compass_from(3.0, 4.0) == 359.0


@pytest.mark.parametrize(
    ("printed", "change_min", "years", "updated"),
    [
        ((-1, 17, 20), 6.0, 12, (-1, 16, 8)),  # 17 20 W with 6' E a year for 12 years
        ((-1, 0, 30), 9.0, 10, (1, 1, 0)),  # across zero: 0 30 W becomes 1 00 E
        ((1, 2, 50), 5.0, 4, (1, 3, 10)),  # minutes carry
        ((1, 0, 20), -4.0, 10, (-1, 0, 20)),
    ],
)
def test_annual_change_is_a_signed_sum_in_base_sixty(
    printed: tuple[int, int, int], change_min: float, years: int, updated: tuple[int, int, int]
) -> None:
    found = variation_updated_deg(degrees_from_minutes(*printed), change_min, years)
    assert degrees_minutes(found) == DegreesMinutes(*updated)


def test_minutes_carry_when_rounded() -> None:
    assert degrees_minutes(5.0 - ARCMINUTE / 4.0) == DegreesMinutes(1, 5, 0)
    assert degrees_minutes(-0.01 * ARCMINUTE) == DegreesMinutes(-1, 0, 0)


@given(st.sampled_from([-1, 1]), st.integers(0, 90), st.integers(0, 59))
def test_degrees_and_minutes_come_back(sign: int, degrees: int, minutes: int) -> None:
    expected = DegreesMinutes(sign if degrees or minutes else 1, degrees, minutes)
    assert degrees_minutes(degrees_from_minutes(sign, degrees, minutes)) == expected


def test_more_than_sixty_minutes_is_refused() -> None:
    with pytest.raises(OutOfRange, match="minutes"):
        degrees_from_minutes(1, 3, 61.0)


@pytest.mark.parametrize(
    ("first", "second", "fraction", "variation"),
    [(-2.0, 0.0, 0.5, -1.0), (-1.0, 1.0, 0.3, -0.4), (1.0, -1.0, 0.7, -0.4), (14.0, 16.0, 0.4, 14.8)],
)
def test_isogonals_interpolate_with_their_sign(first: float, second: float, fraction: float, variation: float) -> None:
    assert isogonal_between_deg(first, second, fraction) == pytest.approx(variation, abs=EXACT)


def test_beyond_the_next_isogonal_is_refused() -> None:
    with pytest.raises(OutOfRange, match="fraction"):
        isogonal_between_deg(1.0, 2.0, 1.1)


@pytest.mark.parametrize(
    ("azimuth", "number"),
    [(183.0, 18), (187.0, 19), (356.0, 36), (4.0, 36), (354.9, 35), (360.0, 36), (5.1, 1), (94, 9)],
)
def test_runway_number_is_the_nearest_ten(azimuth: float, number: int) -> None:
    assert runway_number(azimuth) == number


@pytest.mark.parametrize("azimuth", [5.0, 185.0, 355.0, 184.99999999])
def test_half_way_between_runway_numbers_is_refused(azimuth: float) -> None:
    with pytest.raises(Undefined, match="half-way"):
        runway_number(azimuth)


@given(st.integers(1, 36))
def test_other_end_of_the_other_end_is_this_end(number: int) -> None:
    other = reciprocal_runway(number)
    assert abs(other - number) == 18
    assert reciprocal_runway(other) == number
    assert runway_number(runway_direction_deg(number)) == number
    assert runway_direction_deg(other) == reciprocal(runway_direction_deg(number))


@pytest.mark.parametrize("function", [reciprocal_runway, runway_direction_deg])
@pytest.mark.parametrize("number", [0, 37])
def test_there_is_no_runway_zero(function: type[float], number: int) -> None:
    with pytest.raises(OutOfRange, match="runway"):
        function(number)


@pytest.mark.parametrize(
    ("track", "parity"), [(0.0, "odd"), (179.9, "odd"), (180.0, "even"), (359.9, "even"), (360, "odd")]
)
def test_half_circle_rule(track: float, parity: str) -> None:
    assert cruising_parity(track) == parity


def test_vfr_altitudes() -> None:
    """CAR 602.34 and 14 CFR 91.159: thousands plus 500 below 18 000 ft."""
    assert vfr_cruising_altitudes_ft(90.0) == (3500, 5500, 7500, 9500, 11500, 13500, 15500, 17500)
    assert vfr_cruising_altitudes_ft(270.0) == (4500, 6500, 8500, 10500, 12500, 14500, 16500)


@given(HEADING)
def test_nearest_point_is_within_half_a_sector(direction: float) -> None:
    assert abs(difference(point_deg(nearest_point(direction)), direction)) <= 22.5 + EXACT


def test_points_stand_every_forty_five() -> None:
    assert [nearest_point(45.0 * i) for i in range(9)] == [*POINTS, "N"]
    assert (nearest_point(22.5), nearest_point(337.5)) == ("NE", "N")


@given(HEADING)
def test_quadrant_bearing_comes_back(direction: float) -> None:
    bearing = quadrant_bearing(direction)
    assert 0.0 <= bearing.angle_deg <= 90.0
    assert abs(difference(from_quadrant(bearing), direction)) < EXACT


@pytest.mark.parametrize(
    ("direction", "bearing"),
    [
        (150.0, QuadrantBearing("S", 30.0, "E")),
        (210.0, QuadrantBearing("S", 30.0, "W")),
        (330.0, QuadrantBearing("N", 30.0, "W")),
        (90.0, QuadrantBearing("N", 90.0, "E")),
        (180.0, QuadrantBearing("S", 0.0, "E")),
        (0.0, QuadrantBearing("N", 0.0, "E")),
    ],
)
def test_quadrants(direction: float, bearing: QuadrantBearing) -> None:
    assert quadrant_bearing(direction) == bearing


def test_quadrant_angle_is_checked() -> None:
    with pytest.raises(OutOfRange, match="angle_deg"):
        from_quadrant(QuadrantBearing("N", 91.0, "E"))
