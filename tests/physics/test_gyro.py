import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.physics.errors import OutOfRange
from app.physics.gyro import (
    drift_per_check_deg,
    earth_wander_deg_h,
    east_speed_kt,
    forecast_error_deg,
    nut_correction_deg_h,
    reading_after,
    reading_rate_deg_h,
    transport_wander_deg_h,
    within_limit,
)
from tests.tolerances import EXACT, PRINTED_TENTH


def test_all_three_together() -> None:
    """60 N, nut set for 30 S, 173 kt west: -13.0 + 5.0 - 7.5 = -15.5 degrees an hour."""
    assert reading_rate_deg_h(60.0, -173.0, -30.0) == pytest.approx(-15.5, abs=PRINTED_TENTH + 0.01)


@given(st.floats(-80.0, 80.0))
def test_nut_set_for_the_place_stops_the_wander(latitude: float) -> None:
    assert reading_rate_deg_h(latitude, nut_latitude_deg=latitude) == pytest.approx(0.0, abs=EXACT)
    assert nut_correction_deg_h(latitude) == -earth_wander_deg_h(latitude)


@given(st.floats(-80.0, 80.0), st.floats(-300.0, 300.0))
def test_hemispheres_mirror(latitude: float, east: float) -> None:
    assert reading_rate_deg_h(-latitude, east) == pytest.approx(-reading_rate_deg_h(latitude, east), abs=EXACT)


def test_quarter_hours_of_a_free_gyro() -> None:
    """Earth rotation alone: 2.7 degrees in 15 minutes at latitude 45, 3.3 at 60."""
    drift = [abs(earth_wander_deg_h(latitude)) / 4.0 for latitude in (45.0, 60.0)]
    assert drift == pytest.approx([2.7, 3.3], abs=PRINTED_TENTH)


def test_only_the_eastward_part_counts() -> None:
    assert east_speed_kt(120.0, 90.0) == 120.0
    assert east_speed_kt(120.0, 210.0) == -60.0
    assert transport_wander_deg_h(60.0, east_speed_kt(120.0, 0.0)) == 0.0


def test_reading_falls_with_time() -> None:
    assert reading_after(5.0, -12.0, 45.0) == -4.0


@pytest.mark.parametrize(("error", "minutes", "drift"), [(4.0, 20.0, 3.0), (-6.0, 40.0, -2.25), (5.0, 15.0, 5.0)])
def test_error_is_brought_to_fifteen_minutes(error: float, minutes: float, drift: float) -> None:
    assert drift_per_check_deg(error, minutes) == drift
    assert within_limit(error, minutes, 3.0) == (abs(drift) <= 3.0)


def test_forecast_is_proportional() -> None:
    assert forecast_error_deg(3.0, 20.0, 50.0) == 7.5


def test_no_time_no_rate() -> None:
    with pytest.raises(OutOfRange, match="minutes"):
        forecast_error_deg(3.0, 0.0, 10.0)


def test_meridians_meet_at_the_pole() -> None:
    with pytest.raises(OutOfRange, match="pole"):
        transport_wander_deg_h(89.5, 100.0)
    with pytest.raises(OutOfRange, match="latitude_deg"):
        earth_wander_deg_h(90.5)
