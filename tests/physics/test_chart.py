from math import acos, atan2, cos, degrees, radians, sin

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from app.physics.angles import difference
from app.physics.chart import (
    Place,
    departure_nm,
    great_circle_nm,
    nm_on_chart,
    track_at_mid_meridian_deg,
    track_at_start_deg,
)
from app.physics.errors import OutOfRange, Undefined
from tests.tolerances import EXACT

LATITUDE = st.floats(-70.0, 70.0)
LONGITUDE = st.floats(-179.0, 179.0)
STEP = st.floats(-3.0, 3.0)


@given(LATITUDE, LONGITUDE, STEP, STEP)
def test_mid_meridian_track_is_the_mean_of_the_great_circle_s_ends(
    latitude: float, longitude: float, north: float, east: float
) -> None:
    start = Place(latitude, longitude)
    end = Place(max(-70.0, min(70.0, latitude + north)), max(-180.0, min(180.0, longitude + east)))
    assume(20.0 < great_circle_nm(start, end) < 300.0)
    out, back = track_at_start_deg(start, end), track_at_start_deg(end, start) + 180.0
    mean = out + difference(back, out) / 2.0
    assert abs(difference(track_at_mid_meridian_deg(start, end), mean)) < 0.1


def vector(place: Place) -> tuple[float, float, float]:
    phi, lam = radians(place.latitude_deg), radians(place.longitude_deg)
    return cos(phi) * cos(lam), cos(phi) * sin(lam), sin(phi)


@given(LATITUDE, LONGITUDE, LATITUDE, LONGITUDE)
def test_great_circle_agrees_with_vectors(lat_a: float, lon_a: float, lat_b: float, lon_b: float) -> None:
    """Apart from the formulas: the end seen along north and east at the start, and the angle between the two."""
    start, end = Place(lat_a, lon_a), Place(lat_b, lon_b)
    assume(100.0 < great_circle_nm(start, end) < 10_000.0)
    phi, lam = radians(lat_a), radians(lon_a)
    north, east = (-sin(phi) * cos(lam), -sin(phi) * sin(lam), cos(phi)), (-sin(lam), cos(lam), 0.0)
    ahead, right = (sum(x * y for x, y in zip(axis, vector(end), strict=True)) for axis in (north, east))
    assert abs(difference(track_at_start_deg(start, end), degrees(atan2(right, ahead)))) < 1e-6
    between = acos(sum(x * y for x, y in zip(vector(start), vector(end), strict=True)))
    assert great_circle_nm(start, end) == pytest.approx(60.0 * degrees(between), abs=0.001)


@given(LATITUDE, LONGITUDE, LATITUDE, LONGITUDE)
def test_distance_is_the_same_both_ways(lat_a: float, lon_a: float, lat_b: float, lon_b: float) -> None:
    there = great_circle_nm(Place(lat_a, lon_a), Place(lat_b, lon_b))
    assert there == pytest.approx(great_circle_nm(Place(lat_b, lon_b), Place(lat_a, lon_a)), abs=EXACT)
    assert 0.0 <= there <= 180.0 * 60.0


@pytest.mark.parametrize(
    ("end", "nm", "track"),
    [
        (Place(46.0, -75.0), 60.0, 0.0),
        (Place(44.0, -75.0), 60.0, 180.0),
        (Place(45.0, -74.0), 42.4, 90.0),
        (Place(45.0, -76.0), 42.4, 270.0),
    ],
)
def test_a_degree_each_way(end: Place, nm: float, track: float) -> None:
    """A degree of latitude is 60 NM, of longitude at 45 N 60 cos 45 = 42.4."""
    start = Place(45.0, -75.0)
    assert great_circle_nm(start, end) == pytest.approx(nm, abs=0.05)
    assert track_at_mid_meridian_deg(start, end) == pytest.approx(track, abs=EXACT)
    assert abs(difference(track_at_start_deg(start, end), track)) < 0.5


def test_the_date_line_is_no_border() -> None:
    west, east = Place(52.0, -179.5), Place(52.0, 179.5)
    assert great_circle_nm(west, east) == pytest.approx(departure_nm(60.0, 52.0), abs=0.01)
    assert track_at_mid_meridian_deg(west, east) == 270.0


def test_opposite_ends_of_the_earth() -> None:
    assert great_circle_nm(Place(90.0, 0.0), Place(-90.0, 0.0)) == 10_800.0


def test_minutes_of_longitude_are_no_miles() -> None:
    assert departure_nm(30.0, 60.0) == 15.0


def test_length_on_the_paper() -> None:
    """One mile is 1852 m: at 1:500 000 it is 3.7 mm."""
    assert nm_on_chart(0.3704, 500_000.0) == pytest.approx(1.0, abs=EXACT)


def test_one_place_has_no_track() -> None:
    place = Place(45.0, -75.0)
    for function in (track_at_start_deg, track_at_mid_meridian_deg):
        with pytest.raises(Undefined):
            function(place, place)


@pytest.mark.parametrize(("latitude", "longitude"), [(91.0, 0.0), (0.0, 181.0)])
def test_places_lie_on_earth(latitude: float, longitude: float) -> None:
    with pytest.raises(OutOfRange):
        Place(latitude, longitude)
