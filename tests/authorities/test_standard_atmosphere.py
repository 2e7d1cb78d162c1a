"""ICAO standard atmosphere through ambiance (test only), an implementation of ICAO Doc 7488 by other people."""

import pytest
from ambiance import Atmosphere

from app.physics.pressure import (
    density_altitude_ft,
    density_ratio,
    standard_altitude_ft,
    standard_pressure_hpa,
    standard_temperature_c,
)
from app.physics.units import METRES_PER_FT

HUNDREDTH_HPA = 0.01
HUNDREDTH_C = 0.01
ONE_FOOT = 1.0
DENSITY_SHARE = 1e-5
LEVELS_FT = (-15_000.0, -1000.0, 0.0, 1000.0, 4000.0, 8000.0, 18_000.0, 36_089.0, 45_000.0, 64_000.0)


def atmosphere(altitude_ft: float) -> Atmosphere:
    """Ambiance counts geometric height; ours is geopotential."""
    return Atmosphere(Atmosphere.geop2geom_height(altitude_ft * METRES_PER_FT))


@pytest.mark.parametrize("altitude_ft", LEVELS_FT)
def test_pressure_and_temperature_agree(altitude_ft: float) -> None:
    air = atmosphere(altitude_ft)
    assert standard_pressure_hpa(altitude_ft) == pytest.approx(float(air.pressure[0]) / 100.0, abs=HUNDREDTH_HPA)
    temperature = float(air.temperature_in_celsius[0])
    assert standard_temperature_c(altitude_ft) == pytest.approx(temperature, abs=HUNDREDTH_C)


@pytest.mark.parametrize("altitude_ft", LEVELS_FT)
def test_density_agrees(altitude_ft: float) -> None:
    expected = float(atmosphere(altitude_ft).density[0]) / 1.225
    found = density_ratio(altitude_ft, standard_temperature_c(altitude_ft))
    assert found == pytest.approx(expected, rel=DENSITY_SHARE)


@pytest.mark.parametrize("pressure_hpa", [1050.0, 1013.25, 950.0, 700.0, 300.0, 226.32, 100.0])
def test_altitude_of_a_pressure_agrees(pressure_hpa: float) -> None:
    height_m = float(Atmosphere.from_pressure(pressure_hpa * 100.0).H[0])
    assert standard_altitude_ft(pressure_hpa) == pytest.approx(height_m / METRES_PER_FT, abs=ONE_FOOT)


@pytest.mark.parametrize(("pressure_altitude_ft", "oat_c"), [(4000.0, 30.0), (1500.0, -20.0), (9000.0, 15.0)])
def test_density_altitude_agrees(pressure_altitude_ft: float, oat_c: float) -> None:
    density = float(atmosphere(pressure_altitude_ft).pressure[0]) / (287.05287 * (oat_c + 273.15))
    height_m = float(Atmosphere.from_density(density).H[0])
    assert density_altitude_ft(pressure_altitude_ft, oat_c) == pytest.approx(height_m / METRES_PER_FT, abs=ONE_FOOT)
