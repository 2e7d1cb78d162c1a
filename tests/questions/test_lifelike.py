"""Numbers as a pilot meets them: isogonals lie far apart, winds come in tens of degrees, no field is in Antarctica."""

from cmath import rect
from dataclasses import replace
from math import cos, radians, sin, sqrt
from typing import Any

import pytest

from app.questions.draw import draw
from tests.questions.engine import home, library

DRAWS = range(200)


def test_a_degree_of_variation_is_tens_of_miles() -> None:
    asked = [draw(library(), "isogonal-read", seed, home(), "choice").solution.given for seed in DRAWS]
    points = [given for given in asked if given["ask"] == "point"]
    assert len(points) > len(DRAWS) / 3
    for given in points:
        apart_deg = abs(given["next_isogonal_deg"] - given["isogonal_deg"])
        assert 30 <= (given["gone_nm"] + given["left_nm"]) / apart_deg <= 110, given


def test_the_wind_is_in_tens_of_degrees() -> None:
    asked = [draw(library(), "drift-sense", seed, home(), "groups").solution.given for seed in DRAWS]
    for given in asked:
        assert all(given[f"wind_from_{wind}_deg"] % 10 == given["heading_deg"] % 10 == 0 for wind in "abcde"), given


def test_no_field_lies_south_of_the_last_land() -> None:
    asked = [draw(library(), "hi-earth-rate", seed, home(), "choice").solution.given for seed in DRAWS]
    southern = [given["latitude_deg"] for given in asked if given["latitude_deg"] < 0]
    assert len(southern) > len(DRAWS) / 10
    assert min(southern) >= -54


def test_the_ground_speed_to_the_alternate_is_what_the_wind_leaves() -> None:
    for seed in DRAWS:
        item = draw(library(), "diversion-estimate", seed, home(), "boxes").solution
        given = item.given
        against = rect(given["wind_kt"], radians(given["wind_from_deg"] - item.key["track"]))
        left_kt = sqrt(given["tas_kt"] ** 2 - against.imag**2) - against.real
        assert abs(given["gs_kt"] - left_kt) <= 0.5, given


def test_the_altimeter_is_checked_in_hectopascals_where_settings_are() -> None:
    at_home = replace(home(-33.9, 151.2, "au"), pressure_unit="hpa")
    asked = [draw(library(), "altimeter-ground-check", seed, at_home, "typed").solution for seed in DRAWS]
    found = [item for item in asked if item.given["ask"] != "error"]
    assert len(found) > len(DRAWS) / 3
    assert all("setting_inhg" not in item.given for item in asked)
    for item in found:
        too_high_ft = item.given["indicated_ft"] - item.given["elevation_ft"]
        assert item.key == item.given["setting_hpa"] - too_high_ft / 30, item.given


def test_pressure_altitude_is_worked_in_hectopascals_where_settings_are() -> None:
    at_home = replace(home(-33.9, 151.2, "au"), pressure_unit="hpa")
    for seed in DRAWS:
        item = draw(library(), "pressure-density-altitude", seed, at_home, "typed").solution
        pressure_ft = item.given["elevation_ft"] + 30 * (1013 - item.given["setting_hpa"])
        assert "setting_inhg" not in item.given
        assert pressure_ft == (item.key if item.given["ask"] == "pressure" else item.wrong["stops-at-pressure"])


def test_flying_into_low_pressure_is_worked_in_hectopascals_where_settings_are() -> None:
    at_home = replace(home(-33.9, 151.2, "au"), pressure_unit="hpa")
    for seed in DRAWS:
        item = draw(library(), "high-to-low-hot-to-cold", seed, at_home, "typed").solution
        given = item.given
        assert "setting_inhg" not in given
        lower_ft = 30 * (given["setting_hpa"] - given["actual_hpa"])
        assert item.wrong["pressure-only"] == given["indicated_ft"] - lower_ft - given.get("ridge_ft", 0)


def test_a_slow_needle_shows_too_little_and_comes_closer_to_right_with_speed() -> None:
    """The shape of a light aeroplane's correction table: common practice, no source."""
    asked = [draw(library(), "asi-marks-and-errors", seed, home(), "typed").solution.given for seed in DRAWS]
    tables = [given for given in asked if given["ask"] == "calibrated"]
    assert len(tables) > len(DRAWS) / 3
    for given in tables:
        for row in ("up", "down"):
            slow, fast = (given[f"{row}_{end}_cas_kt"] - given[f"{end}_ias_kt"] for end in ("low", "high"))
            assert 1 <= slow <= 8, given
            assert -3 <= fast <= slow - 3, given


def test_no_trainer_is_faster_than_a_fast_single() -> None:
    asked = [draw(library(), "tas-from-cas", seed, home(), "typed").solution for seed in DRAWS]
    assert all(90 <= item.given.get("cas_kt", item.given.get("ias_kt")) <= 150 for item in asked)
    assert max(item.key for item in asked) < 200


def test_a_leg_across_meridians_is_one_that_a_light_aeroplane_flies() -> None:
    """The angle changes by the difference of longitude times the sine of the latitude, here 52."""
    asked = [draw(library(), "measure-track-on-chart", seed, home(), "choice").solution.given for seed in DRAWS]
    legs = [given for given in asked if "angle_a_deg" in given]
    assert len(legs) > len(DRAWS) / 4
    for given in legs:
        longitude_deg = abs(given["angle_c_deg"] - given["angle_a_deg"]) / sin(radians(52))
        assert 60 * longitude_deg * cos(radians(52)) < 400, given


def test_what_a_fix_is_taken_from_is_in_sight() -> None:
    for seed in DRAWS:
        item = draw(library(), "position-line-fix", seed, home(), "pick")
        spots = {spot["label"]: complex(spot["east_nm"], spot["north_nm"]) for spot in item.parameters["spots"]}
        here = spots[item.key.removeprefix("ring-")]
        assert all(4 <= abs(here - spots[mark]) <= 19 for mark in "AB"), item.parameters


def test_arrival_is_by_day_in_a_local_time_of_the_home_place() -> None:
    for place, offsets in (
        ((51.7, -1.3, "uk"), {1}),
        ((-43.5, 172.6, "nz"), {12, 13}),
        ((39.7, -105.0, "us"), {*range(-8, -3)}),
    ):
        asked = [draw(library(), "eta-revision", seed, home(*place), "typed").solution for seed in range(40)]
        local = [item for item in asked if item.given["ask"] == "local"]
        assert len(local) > 8
        for item in local:
            assert item.given["offset_h"] in offsets
            assert 7 * 60 < item.key < 21 * 60, item.given


def test_what_an_hour_takes_goes_with_the_speed() -> None:
    """Some 0.2 to 0.35 litres a mile in cruise: common practice, no source."""
    for seed in DRAWS:
        given = draw(library(), "diversion-estimate", seed, home(), "boxes").solution.given
        assert 0.2 < given["burn_per_h"] / given["tas_kt"] < 0.35, given


@pytest.mark.parametrize(
    ("where", "unit", "least", "most"), [((39.7, -105.0, "us"), "gallons", 5, 12), ((45.3, -75.7), "litres", 18, 42)]
)
def test_fuel_is_counted_as_it_is_there(where: tuple[Any, ...], unit: str, least: int, most: int) -> None:
    for family in ("fuel-endurance-and-reserve", "diversion-estimate"):
        for seed in range(60):
            given = draw(library(), family, seed, home(*where)).solution.given
            assert given["fuel_unit"] == unit
            assert least <= given["burn_per_h"] <= most, given
