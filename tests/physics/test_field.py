from datetime import date, datetime
from math import hypot, inf, nan, nextafter
from threading import Thread

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.physics.errors import OutOfRange
from app.physics.field import (
    MODEL_FROM,
    MODEL_NAME,
    MODEL_TO,
    Field,
    decimal_year,
    declination_uncertainty_deg,
    field_at,
    field_for_place,
    zone,
)

NANOTESLA = 1e-6


@given(st.floats(-90.0, 90.0), st.floats(-180.0, 180.0), st.floats(MODEL_FROM, MODEL_TO))
def test_components_make_up_the_field(latitude: float, longitude: float, year: float) -> None:
    field = field_at(latitude, longitude, year)
    assert hypot(field.north_nt, field.east_nt) == pytest.approx(field.horizontal_nt, abs=NANOTESLA)
    assert hypot(field.horizontal_nt, field.down_nt) == pytest.approx(field.total_nt, abs=NANOTESLA)


@pytest.mark.parametrize("latitude", [90.0, -90.0, nextafter(90.0, 0.0), nextafter(-90.0, 0.0), 89.99999999])
def test_poles_are_places(latitude: float) -> None:
    assert 50_000.0 < field_at(latitude, 0.0, 2026.0).total_nt < 60_000.0


def test_both_sides_of_the_date_line_are_one_place() -> None:
    west, east = field_at(52.0, -180.0, 2026.0), field_at(52.0, 180.0, 2026.0)
    assert west.declination_deg == pytest.approx(east.declination_deg, abs=1e-9)


@pytest.mark.parametrize("latitude", [90.1, -91.0, nan, inf])
def test_latitude_is_checked(latitude: float) -> None:
    with pytest.raises(OutOfRange, match="latitude_deg"):
        field_at(latitude, 0.0, 2026.0)
    with pytest.raises(OutOfRange, match="latitude_deg"):
        field_for_place(latitude, 0.0, date(2026, 1, 1))


@pytest.mark.parametrize("longitude", [180.1, -181.0, 240.0, nan, -inf])
def test_longitude_is_checked(longitude: float) -> None:
    with pytest.raises(OutOfRange, match="longitude_deg"):
        field_at(0.0, longitude, 2026.0)
    with pytest.raises(OutOfRange, match="longitude_deg"):
        field_for_place(0.0, longitude, date(2026, 1, 1))


@pytest.mark.parametrize("altitude_km", [-1.1, 851.0, nan])
def test_altitude_is_checked(altitude_km: float) -> None:
    with pytest.raises(OutOfRange, match="altitude_km"):
        field_at(0.0, 0.0, 2026.0, altitude_km)


@pytest.mark.parametrize("when", [2024.999, 2030.001, nan, date(2024, 12, 31), date(2030, 1, 2)])
def test_date_must_lie_in_the_model_s_life(when: date | float) -> None:
    with pytest.raises(OutOfRange, match=MODEL_NAME):
        field_at(45.0, -75.0, when)


@pytest.mark.parametrize("when", [date(2025, 1, 1), date(2030, 1, 1), MODEL_FROM, MODEL_TO])
def test_first_and_last_day_are_in(when: date | float) -> None:
    assert field_at(45.0, -75.0, when).dip_deg == pytest.approx(69.0, abs=0.5)


@pytest.mark.parametrize(
    ("day", "year"),
    [
        (date(2026, 1, 1), 2026.0),
        (date(2026, 7, 2), 2026.0 + 182.0 / 365.0),
        (date(2028, 7, 2), 2028.5),
        (date(2028, 12, 31), 2028.0 + 365.0 / 366.0),
        (datetime(2026, 1, 1, 18, 0), 2026.0),  # noqa: DTZ001 - the day is what counts
    ],
)
def test_decimal_year(day: date, year: float) -> None:
    assert decimal_year(day) == year


def test_place_is_rounded_to_a_hundredth_and_kept() -> None:
    day = date(2026, 11, 25)
    kept = field_for_place(45.321, -75.669, day)
    assert kept is field_for_place(45.3249, -75.6701, day)
    assert kept == field_at(45.32, -75.67, day)
    assert kept != field_for_place(45.33, -75.67, day)


@pytest.mark.parametrize("horizontal_nt", [-1.0, nan, inf])
def test_zone_refuses_what_is_no_strength(horizontal_nt: float) -> None:
    with pytest.raises(OutOfRange, match="horizontal_nt"):
        zone(horizontal_nt)


def test_uncertainty_needs_a_field() -> None:
    with pytest.raises(OutOfRange, match="horizontal_nt"):
        declination_uncertainty_deg(0.0)


def test_threads_do_not_spoil_each_other() -> None:
    """The model object computes in its own arrays: without the lock two threads would mix their places."""
    places = [(latitude, longitude) for latitude in (-60.0, 0.0, 60.0) for longitude in (-120.0, 0.0, 120.0)] * 20
    alone = [field_at(*place, 2026.5) for place in places]
    found: dict[int, list[Field]] = {}

    def look_up(number: int) -> None:
        found[number] = [field_at(*place, 2026.5) for place in places]

    threads = [Thread(target=look_up, args=(number,)) for number in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert all(found[number] == alone for number in range(4))
