from math import radians, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.physics.angles import difference
from app.physics.errors import OutOfRange
from app.physics.track import (
    ClockTime,
    DoubleErrorPlan,
    bearing_from_relative,
    clock_after,
    clock_code,
    critical_point,
    distance_in_nm,
    double_track_error,
    error_from_ten_degree_lines_deg,
    exact_angle_deg,
    local_time,
    minutes_between,
    minutes_for,
    off_track_by_indicator_nm,
    off_track_nm,
    one_in_sixty_deg,
    past_half_way,
    point_of_no_return,
    position_line_deg,
    relative_from_bearing,
    side_of_nose_deg,
    speed_over_kt,
    track_correction,
)
from tests.tolerances import EXACT

HEADING = st.floats(0.0, 360.0, exclude_max=True)
SPEED = st.floats(40.0, 200.0)


def test_each_angle_is_on_its_own_distance() -> None:
    """Right of track by 3 NM after 24 with 36 to go: opening 7.5, closing 5.0, together 12.5 to the left."""
    found = track_correction(3.0, 24.0, 36.0)
    assert (found.track_error_deg, found.closing_angle_deg, found.heading_change_deg) == (7.5, 5.0, -12.5)
    assert track_correction(-3.0, 24.0, 36.0).heading_change_deg == 12.5


@given(st.floats(-12.0, 12.0), st.floats(5.0, 100.0))
def test_one_in_sixty_and_back(off: float, along: float) -> None:
    assert off_track_nm(one_in_sixty_deg(off, along), along) == pytest.approx(off, abs=EXACT)


@given(st.floats(-20.0, 20.0), st.floats(1.0, 100.0))
def test_one_in_sixty_is_near_the_tangent(angle: float, along: float) -> None:
    """Within 2 degrees up to 20, where the rule makes 21.8 of it."""
    off = along * tan(radians(angle))
    assert exact_angle_deg(off, along) == pytest.approx(angle, abs=1e-6)
    assert one_in_sixty_deg(off, along) == pytest.approx(angle, abs=2.0)


def test_an_indicator_that_reads_too_much_takes_one_left() -> None:
    assert off_track_by_indicator_nm(6.0, 60.0) == -6.0
    assert off_track_by_indicator_nm(-6.0, 90.0) == 9.0


@given(HEADING, st.floats(3.0, 12.0), st.floats(5.0, 40.0))
def test_doubling_the_error_regains_the_track(heading: float, error: float, minutes: float) -> None:
    """Seen from the track: out by the error, back by the same angle for the same time."""
    plan = double_track_error(heading, error, minutes)
    assert plan.minutes == minutes
    assert difference(plan.regain_deg, heading) == pytest.approx(-2.0 * error, abs=EXACT)
    assert difference(plan.keep_deg, heading) == pytest.approx(-error, abs=EXACT)


def test_doubling_crosses_north() -> None:
    assert double_track_error(5.0, 6.0, 12.0) == DoubleErrorPlan(353.0, 12.0, 359.0)


def test_past_half_way_doubling_is_too_late() -> None:
    assert [past_half_way(gone, 30.0) for gone in (29.0, 30.0, 31.0)] == [False, False, True]


def test_ten_degree_lines() -> None:
    assert [error_from_ten_degree_lines_deg(share) for share in (0.5, -0.8, 1.0)] == [5.0, -8.0, 10.0]


@given(st.floats(1.0, 500.0), SPEED)
def test_time_speed_and_distance_agree(distance: float, speed: float) -> None:
    minutes = minutes_for(distance, speed)
    assert speed_over_kt(distance, minutes) == pytest.approx(speed, rel=EXACT)
    assert distance_in_nm(speed, minutes) == pytest.approx(distance, rel=EXACT)


def test_clock_rolls_over_midnight_both_ways() -> None:
    assert clock_after(23 * 60 + 50, 25.0) == ClockTime(15, 1)
    assert clock_after(10, -20.0) == ClockTime(23 * 60 + 50, -1)
    assert clock_after(600, 12.5) == ClockTime(613, 0)
    assert clock_after(1439, 0.5) == ClockTime(0, 1)


def test_minutes_between_cross_midnight() -> None:
    assert minutes_between(23 * 60 + 50, 15) == 25
    assert minutes_between(100, 100) == 0


def test_local_time_is_earlier_west_of_greenwich() -> None:
    assert local_time(2 * 60, -5.0) == ClockTime(21 * 60, -1)
    assert local_time(12 * 60, -3.5) == ClockTime(8 * 60 + 30, 0)
    assert local_time(20 * 60, 10.5) == ClockTime(6 * 60 + 30, 1)


@given(HEADING, HEADING)
def test_relative_bearings_come_back(heading: float, bearing: float) -> None:
    relative = relative_from_bearing(heading, bearing)
    assert abs(difference(bearing_from_relative(heading, relative), bearing)) < EXACT
    assert abs(difference(side_of_nose_deg(relative), relative)) < EXACT


def test_relative_is_clockwise_from_the_nose() -> None:
    assert bearing_from_relative(300.0, 100.0) == 40.0
    assert relative_from_bearing(350.0, 10.0) == 20.0
    assert side_of_nose_deg(340.0) == -20.0
    assert position_line_deg(10.0) == 190.0


@pytest.mark.parametrize(
    ("relative", "hour"),
    [(0, 12), (14.9, 12), (15, 1), (90, 3), (180, 6), (270, 9), (344.9, 11), (345, 12)],
)
def test_clock_code(relative: float, hour: int) -> None:
    assert clock_code(relative) == hour


@given(st.floats(60.0, 400.0), SPEED, SPEED)
def test_point_of_no_return_uses_all_the_endurance(endurance: float, out: float, home: float) -> None:
    point = point_of_no_return(endurance, out, home)
    assert point.minutes + minutes_for(point.distance_nm, home) == pytest.approx(endurance, rel=EXACT)
    assert point.distance_nm == pytest.approx(distance_in_nm(out, point.minutes), rel=EXACT)


@given(st.floats(10.0, 500.0), SPEED, SPEED)
def test_at_the_critical_point_on_and_back_take_the_same_time(leg: float, out: float, home: float) -> None:
    point = critical_point(leg, out, home)
    on, back = minutes_for(leg - point.distance_nm, out), minutes_for(point.distance_nm, home)
    assert on == pytest.approx(back, rel=1e-6)
    assert point.minutes == pytest.approx(minutes_for(point.distance_nm, out), rel=EXACT)


@pytest.mark.parametrize(
    ("call", "name"),
    [
        (lambda: one_in_sixty_deg(3.0, 0.0), "along_nm"),
        (lambda: exact_angle_deg(3.0, -1.0), "along_nm"),
        (lambda: track_correction(3.0, 10.0, 0.0), "along_nm"),
        (lambda: minutes_for(10.0, 0.0), "gs_kt"),
        (lambda: speed_over_kt(10.0, 0.0), "minutes"),
        (lambda: point_of_no_return(120.0, 0.0, 100.0), "gs_out_kt"),
        (lambda: critical_point(120.0, 100.0, 0.0), "gs_home_kt"),
        (lambda: past_half_way(10.0, -1.0), "left_nm"),
    ],
)
def test_out_of_range(call: object, name: str) -> None:
    assert callable(call)
    with pytest.raises(OutOfRange, match=name):
        call()
