"""The altimeter in cold air and off the standard pressure, against tables that others worked."""

import pytest

from app.physics.pressure import (
    cold_correction_ft,
    pressure_altitude_by_inches_ft,
    standard_altitude_ft,
    true_height_ft,
)
from app.physics.units import hpa_from_inhg
from tests.authorities.published import Row, all_rows

STANDARD_C = 15
ROUNDED_UP_FT = 10.0
OWN_ROUNDING_FT = 2.5  # the table is worked from a mean temperature of the column, not from its logarithm
TWO_FEET = 2.0


def row(wanted: str) -> Row:
    return next(each for each in all_rows("altimeter") if each["id"] == wanted)


def cold_table() -> list[tuple[int, int, int]]:
    """Return temperature, height above the aerodrome and what is added to it."""
    found = row("cold-temperature-table")
    return [
        (int(temperature), above, add)
        for temperature, adds in found["add_ft_at"].items()
        for above, add in zip(found["above_ft"], adds, strict=True)
    ]


@pytest.mark.parametrize(("temperature_c", "above_ft", "add_ft"), cold_table())
def test_who_adds_what_the_table_says_is_as_high_as_published(temperature_c: int, above_ft: int, add_ft: int) -> None:
    true_ft = true_height_ft(above_ft + add_ft, 0.0, temperature_c - STANDARD_C)
    assert above_ft - OWN_ROUNDING_FT <= true_ft <= above_ft + ROUNDED_UP_FT


@pytest.mark.parametrize(("temperature_c", "above_ft", "add_ft"), cold_table())
def test_the_rule_of_four_per_cent_errs_on_the_safe_side(temperature_c: int, above_ft: int, add_ft: int) -> None:
    by_rule_ft = cold_correction_ft(above_ft + add_ft, STANDARD_C - temperature_c)
    assert add_ft - ROUNDED_UP_FT <= by_rule_ft <= 1.15 * add_ft + ROUNDED_UP_FT


def test_the_height_of_a_setting_is_the_chart_s() -> None:
    found = row("pressure-altitude-conversion")
    exact = [standard_altitude_ft(hpa_from_inhg(setting)) for setting in found["inputs"]["setting_inhg"]]
    assert exact == pytest.approx(found["expected_ft"], abs=TWO_FEET)


def test_a_thousand_feet_an_inch_keeps_near_the_chart() -> None:
    """The rule of the questions, over the settings that they ask for: 29.10 to 30.60, and within fifty feet."""
    for hundredths in range(2910, 3061, 10):
        setting = hundredths / 100
        by_rule_ft = pressure_altitude_by_inches_ft(0.0, setting)
        assert by_rule_ft == pytest.approx(standard_altitude_ft(hpa_from_inhg(setting)), abs=60.0)
