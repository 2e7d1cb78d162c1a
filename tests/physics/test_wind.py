from math import inf

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from app.physics.angles import difference
from app.physics.errors import OutOfRange, Undefined
from app.physics.wind import (
    Wind,
    clock_fraction,
    crosswind_by_clock_kt,
    crosswind_kt,
    drift_by_clock_deg,
    drift_deg,
    find_wind,
    greatest_wind_kt,
    ground_speed_kt,
    heading_home_deg,
    headwind_kt,
    max_drift_deg,
    runway_wind,
    solve_heading,
    solve_track,
    wind_correction_deg,
)
from tests.tolerances import EXACT, HALF_DEGREE, HALF_KNOT, PRINTED_TENTH

HEADING = st.floats(0.0, 360.0, exclude_max=True)
TAS = st.floats(60.0, 200.0)
WIND = st.floats(0.0, 50.0)


@pytest.mark.parametrize(
    ("triangle", "expected"),
    [((90.0, 110.0, 50.0, 25.0), (-8.4, 82.0, 90.0)), ((225.0, 95.0, 200.0, 30.0), (-7.7, 217.0, 67.0))],
)
def test_worked_triangles(triangle: tuple[float, float, float, float], expected: tuple[float, float, float]) -> None:
    """Track, TAS and wind; correction, heading and ground speed worked out apart from this project."""
    solution = solve_heading(*triangle)
    assert solution.wca_deg == pytest.approx(expected[0], abs=PRINTED_TENTH)
    assert solution.heading_deg == pytest.approx(expected[1], abs=HALF_DEGREE)
    assert solution.gs_kt == pytest.approx(expected[2], abs=HALF_KNOT)


@given(HEADING, TAS, HEADING, WIND)
def test_heading_and_track_are_inverse(track: float, tas: float, wind_from: float, wind: float) -> None:
    there = solve_heading(track, tas, wind_from, wind)
    back = solve_track(there.heading_deg, tas, wind_from, wind)
    assert abs(difference(back.track_deg, track)) < 1e-6
    assert back.gs_kt == pytest.approx(there.gs_kt, abs=1e-6)
    assert back.drift_deg == pytest.approx(-there.wca_deg, abs=1e-6)


@given(HEADING, TAS, HEADING, st.floats(1.0, 50.0))
def test_wind_is_found_again(track: float, tas: float, wind_from: float, wind: float) -> None:
    there = solve_heading(track, tas, wind_from, wind)
    found = find_wind(there.heading_deg, tas, track, there.gs_kt)
    assert found.kt == pytest.approx(wind, abs=1e-6)
    assert abs(difference(found.from_deg, wind_from)) < 1e-6


def test_no_difference_is_a_calm() -> None:
    assert find_wind(40.0, 100.0, 40.0, 100.0) == Wind(0.0, 0.0)


@pytest.mark.parametrize(("tas", "gs", "name"), [(0.0, 90.0, "tas_kt"), (100.0, -1.0, "gs_kt")])
def test_wind_needs_speeds(tas: float, gs: float, name: str) -> None:
    with pytest.raises(OutOfRange, match=name):
        find_wind(40.0, tas, 40.0, gs)


@given(HEADING, TAS, HEADING, WIND)
def test_way_home_mirrors_the_correction(track: float, tas: float, wind_from: float, wind: float) -> None:
    out = solve_heading(track, tas, wind_from, wind)
    home = solve_heading(track + 180.0, tas, wind_from, wind)
    assert abs(difference(heading_home_deg(track, out.wca_deg), home.heading_deg)) < 1e-6


def test_way_home_is_not_the_reciprocal_heading() -> None:
    """TT 090, WCA -8.4: home on 278, not on 262."""
    assert heading_home_deg(90.0, -8.4) == pytest.approx(278.4, abs=EXACT)


@pytest.mark.parametrize(("heading", "track", "drift"), [(355.0, 5.0, 10.0), (5.0, 355.0, -10.0), (90.0, 90.0, 0.0)])
def test_drift_is_right_when_the_track_is_right_of_the_nose(heading: float, track: float, drift: float) -> None:
    assert drift_deg(heading, track) == drift


@pytest.mark.parametrize("wind_from", [50.0, 90.0, 130.0])
def test_impossible_wind_is_refused(wind_from: float) -> None:
    """60 kt of airspeed against 80 kt: across, no heading holds the track; on the nose, no headway."""
    with pytest.raises(OutOfRange, match="wind_kt"):
        ground_speed_kt(90.0, 60.0, wind_from, 80.0)


def test_wind_across_as_fast_as_the_aircraft_is_refused() -> None:
    with pytest.raises(OutOfRange, match="no heading"):
        wind_correction_deg(0.0, 60.0, 90.0, 60.0)
    assert wind_correction_deg(0.0, 60.0, 90.0, 30.0) == 30.0


def test_standing_over_the_ground_has_no_track() -> None:
    with pytest.raises(Undefined):
        solve_track(270.0, 50.0, 270.0, 50.0)


@pytest.mark.parametrize(("tas", "wind"), [(0.0, 10.0), (-5.0, 10.0), (100.0, -1.0), (100.0, inf)])
def test_speeds_are_checked(tas: float, wind: float) -> None:
    for call in (lambda: solve_track(0.0, tas, 0.0, wind), lambda: max_drift_deg(tas, wind)):
        with pytest.raises(OutOfRange, match="_kt"):
            call()


@given(st.integers(1, 36), HEADING, WIND)
def test_components_make_up_the_wind(runway: int, wind_from: float, wind: float) -> None:
    parts = runway_wind(runway * 10.0, wind_from, wind)
    assert parts.headwind_kt**2 + parts.crosswind_kt**2 == pytest.approx(wind**2, abs=1e-6)
    other = runway_wind(runway * 10.0 + 180.0, wind_from, wind)
    assert (other.headwind_kt, other.crosswind_kt) == pytest.approx((-parts.headwind_kt, -parts.crosswind_kt), abs=1e-6)


def test_wind_from_the_right_is_positive() -> None:
    assert crosswind_kt(270.0, 300.0, 20.0) == 10.0
    assert crosswind_kt(270.0, 240.0, 20.0) == -10.0
    assert headwind_kt(270.0, 330.0, 20.0) == 10.0
    assert headwind_kt(360.0, 180.0, 20.0) == -20.0


def test_a_half_is_a_half() -> None:
    """25 kt at 30 degrees is 12.5, not a hair below: the rounding of a key must not hang on the machine."""
    assert crosswind_kt(90.0, 120.0, 25.0) == 12.5


@given(HEADING, HEADING, st.floats(5.0, 30.0))
def test_greatest_wind_just_reaches_the_limit(runway: float, wind_from: float, limit: float) -> None:
    assume(abs(crosswind_kt(runway, wind_from, 1.0)) > 1e-6)
    wind = greatest_wind_kt(limit, runway, wind_from)
    assert abs(crosswind_kt(runway, wind_from, wind)) == pytest.approx(limit, rel=1e-6)


def test_no_wind_along_the_runway_is_too_much() -> None:
    assert greatest_wind_kt(15.0, 90.0, 270.0) == inf


def test_maximum_drift_and_clock() -> None:
    assert max_drift_deg(120.0, 20.0) == 10.0
    assert [clock_fraction(angle) for angle in (0.0, 15.0, 30.0, 45.0, 60.0, 90.0)] == [0.0, 0.25, 0.5, 0.75, 1.0, 1.0]
    assert drift_by_clock_deg(120.0, 20.0, 30.0) == 5.0
    assert crosswind_by_clock_kt(20.0, 45.0) == 15.0


@given(st.floats(0.0, 90.0), st.sampled_from([90.0, 100.0, 110.0, 120.0]), st.floats(0.1, 0.25))
def test_clock_rule_is_near_the_triangle(angle: float, tas: float, share: float) -> None:
    """Winds to a quarter of the airspeed: apart by 15 - asin(sin 60 / 4) = 2.5 degrees at most, at 60 degrees off."""
    exact = wind_correction_deg(0.0, tas, angle, share * tas)
    assert drift_by_clock_deg(tas, share * tas, angle) == pytest.approx(exact, abs=2.5)


def test_clock_takes_an_angle_off_track() -> None:
    with pytest.raises(OutOfRange, match="angle_deg"):
        clock_fraction(120.0)
