"""Pressure, density and altimetry in the standard atmosphere, beside the rules of thumb.

Source of the exact forms: ICAO Doc 7488, standard atmosphere: 15 C and 1013.25 hPa at sea level, 0.0065 K a metre
up to 11 000 m geopotential, -56.5 C from there to 20 000 m. Feet are geopotential. Rules: 1000 ft an inch, 27, 28 or
30 ft a hectopascal, 120 ft of density altitude a degree, 2 % of TAS a thousand feet, 4 % of height for ten degrees
(ICAO Doc 8168 vol. I wording for the last, seen in a secondary text; the others common practice).
Air is taken as incompressible in TAS from CAS: within 0.5 kt below 150 kt and 12 000 ft.
"""

from collections.abc import Sequence
from itertools import pairwise
from math import exp, log, sqrt
from math import pow as power

from app.physics.errors import OutOfRange, Undefined, require
from app.physics.units import METRES_PER_FT, STANDARD_GRAVITY_MS2, ZERO_CELSIUS_K

SEA_LEVEL_HPA = 1013.25
STANDARD_SETTING_INHG = 29.92
SEA_LEVEL_C = 15.0
SEA_LEVEL_K = ZERO_CELSIUS_K + SEA_LEVEL_C
LAPSE_K_M = 0.0065
GAS_CONSTANT = 287.05287  # J/(kg K), dry air
SEA_LEVEL_KG_M3 = 1.225
TROPOPAUSE_M = 11_000.0
TROPOPAUSE_K = SEA_LEVEL_K - LAPSE_K_M * TROPOPAUSE_M
PRESSURE_POWER = STANDARD_GRAVITY_MS2 / (GAS_CONSTANT * LAPSE_K_M)
TROPOPAUSE_HPA = SEA_LEVEL_HPA * power(TROPOPAUSE_K / SEA_LEVEL_K, PRESSURE_POWER)
SCALE_M = GAS_CONSTANT * TROPOPAUSE_K / STANDARD_GRAVITY_MS2  # height in which pressure falls to 1/e above 11 km
LOWEST_FT = -16_000.0
HIGHEST_FT = 65_000.0

FT_PER_INHG = 1000.0
FT_PER_HPA = 30.0
LAPSE_RULE_C_PER_1000FT = 1.98
DENSITY_RULE_FT_PER_C = 120.0
TAS_RULE_PER_1000FT = 0.02
COLD_RULE_FT_PER_1000FT_C = 4.0


def standard_temperature_c(altitude_ft: float) -> float:
    """Return the standard temperature, Celsius, at -16 000..65 000 ft."""
    metres = _metres(altitude_ft)
    return SEA_LEVEL_C - LAPSE_K_M * min(metres, TROPOPAUSE_M)


def standard_pressure_hpa(altitude_ft: float) -> float:
    """Return the standard pressure at -16 000..65 000 ft."""
    metres = _metres(altitude_ft)
    if metres <= TROPOPAUSE_M:
        return SEA_LEVEL_HPA * power(1.0 - LAPSE_K_M * metres / SEA_LEVEL_K, PRESSURE_POWER)
    return TROPOPAUSE_HPA * exp((TROPOPAUSE_M - metres) / SCALE_M)


def standard_altitude_ft(pressure_hpa: float) -> float:
    """Altitude at which the standard atmosphere has this pressure: the pressure altitude of a pressure."""
    lowest, highest = standard_pressure_hpa(HIGHEST_FT), standard_pressure_hpa(LOWEST_FT)
    require("pressure_hpa", pressure_hpa, lowest, highest)
    if pressure_hpa >= TROPOPAUSE_HPA:
        metres = SEA_LEVEL_K / LAPSE_K_M * (1.0 - power(pressure_hpa / SEA_LEVEL_HPA, 1.0 / PRESSURE_POWER))
    else:
        metres = TROPOPAUSE_M - SCALE_M * log(pressure_hpa / TROPOPAUSE_HPA)
    return metres / METRES_PER_FT


def density_ratio(pressure_altitude_ft: float, oat_c: float) -> float:
    """Air density over that of the standard sea level, from pressure altitude and outside temperature."""
    require("oat_c", oat_c, -100.0, 70.0)
    pressure_ratio = standard_pressure_hpa(pressure_altitude_ft) / SEA_LEVEL_HPA
    return pressure_ratio * SEA_LEVEL_K / (oat_c + ZERO_CELSIUS_K)


def pressure_altitude_ft(indicated_ft: float, setting_hpa: float) -> float:
    """Pressure altitude from an indication, or an elevation, and its altimeter setting: exact."""
    return indicated_ft + standard_altitude_ft(setting_hpa)


def pressure_altitude_by_inches_ft(indicated_ft: float, setting_inhg: float) -> float:
    """Pressure altitude by rule: (29.92 - setting) x 1000 ft added."""
    return indicated_ft + (STANDARD_SETTING_INHG - setting_inhg) * FT_PER_INHG


def pressure_altitude_by_hpa_ft(indicated_ft: float, setting_hpa: float, ft_per_hpa: float = FT_PER_HPA) -> float:
    """Pressure altitude by rule: (1013 - setting) x 27, 28 or 30 ft added."""
    return indicated_ft + (1013.0 - setting_hpa) * ft_per_hpa


def isa_temperature_by_rule_c(altitude_ft: float, lapse_c_per_1000ft: float = LAPSE_RULE_C_PER_1000FT) -> float:
    """Return the standard temperature below the tropopause by 1.98 (or 2) degrees a thousand feet."""
    return SEA_LEVEL_C - lapse_c_per_1000ft * altitude_ft / 1000.0


def isa_deviation_c(pressure_altitude_ft: float, oat_c: float) -> float:
    """Degrees warmer than standard (colder negative)."""
    return oat_c - standard_temperature_c(pressure_altitude_ft)


def density_altitude_by_rule_ft(
    pressure_altitude_ft: float, oat_c: float, lapse_c_per_1000ft: float = LAPSE_RULE_C_PER_1000FT
) -> float:
    """Density altitude by rule: 120 ft for each degree warmer than standard."""
    warmer_c = oat_c - isa_temperature_by_rule_c(pressure_altitude_ft, lapse_c_per_1000ft)
    return pressure_altitude_ft + DENSITY_RULE_FT_PER_C * warmer_c


def density_altitude_ft(pressure_altitude_ft: float, oat_c: float) -> float:
    """Density altitude, exact, up to the tropopause: where the standard air is as dense."""
    ratio = density_ratio(pressure_altitude_ft, oat_c)
    metres = SEA_LEVEL_K / LAPSE_K_M * (1.0 - power(ratio, 1.0 / (PRESSURE_POWER - 1.0)))
    require("density_altitude_ft", metres / METRES_PER_FT, -40_000.0, TROPOPAUSE_M / METRES_PER_FT)
    return metres / METRES_PER_FT


def tas_by_rule_kt(cas_kt: float, pressure_altitude_ft: float) -> float:
    """TAS by rule: 2 % more for each thousand feet."""
    return cas_kt * (1.0 + TAS_RULE_PER_1000FT * pressure_altitude_ft / 1000.0)


def tas_from_cas_kt(cas_kt: float, pressure_altitude_ft: float, oat_c: float) -> float:
    """TAS = CAS / sqrt(density ratio), air taken as incompressible."""
    return cas_kt / sqrt(density_ratio(pressure_altitude_ft, oat_c))


def cas_from_tas_kt(tas_kt: float, pressure_altitude_ft: float, oat_c: float) -> float:
    """CAS from TAS: the inverse of `tas_from_cas_kt`."""
    return tas_kt * sqrt(density_ratio(pressure_altitude_ft, oat_c))


def altitude_by_inches_ft(indicated_ft: float, set_inhg: float, actual_inhg: float) -> float:
    """Altitude flown with the wrong setting, by rule: 1000 ft an inch, lower where the real pressure is lower."""
    return indicated_ft + (actual_inhg - set_inhg) * FT_PER_INHG


def altitude_by_hpa_ft(indicated_ft: float, set_hpa: float, actual_hpa: float, ft_per_hpa: float = FT_PER_HPA) -> float:
    """Altitude really flown with the wrong setting, by rule: 27, 28 or 30 ft a hectopascal."""
    return indicated_ft + (actual_hpa - set_hpa) * ft_per_hpa


def altitude_with_setting_ft(indicated_ft: float, set_hpa: float, actual_hpa: float) -> float:
    """Return what the altimeter would show, exactly, with the actual setting wound in."""
    return indicated_ft + standard_altitude_ft(set_hpa) - standard_altitude_ft(actual_hpa)


def cold_correction_ft(above_station_ft: float, below_standard_c: float) -> float:
    """Altimeter error by temperature, by rule: 4 ft a thousand feet above the station a degree colder than standard.

    Positive when the air is colder: the true altitude is that much lower than indicated.
    """
    return COLD_RULE_FT_PER_1000FT_C * above_station_ft / 1000.0 * below_standard_c


def true_height_ft(above_station_ft: float, station_elevation_ft: float, warmer_c: float) -> float:
    """Return the true height above the station of an indicated one, the column `warmer_c` off standard all the way.

    Hypsometric: each standard layer is stretched by T / T standard, so the column gives a logarithm of temperatures.
    """
    low = SEA_LEVEL_K - LAPSE_K_M * _metres(station_elevation_ft)
    high = SEA_LEVEL_K - LAPSE_K_M * _metres(station_elevation_ft + above_station_ft)
    return above_station_ft + warmer_c / LAPSE_K_M * log(low / high) / METRES_PER_FT


def calibrated_from_table(ias_kt: float, table_ias_kt: Sequence[float], table_cas_kt: Sequence[float]) -> float:
    """CAS by interpolation in a position-error table with rising IAS; raises OutOfRange beyond its ends."""
    require("ias_kt", ias_kt, table_ias_kt[0], table_ias_kt[-1])
    rows = list(zip(table_ias_kt, table_cas_kt, strict=True))
    for (low, cas_low), (high, cas_high) in pairwise(rows):
        if ias_kt <= high:
            return cas_low + (cas_high - cas_low) * (ias_kt - low) / (high - low)
    raise Undefined("a table needs two rows of rising speeds")


def _metres(altitude_ft: float) -> float:
    if LOWEST_FT <= altitude_ft <= HIGHEST_FT:
        return altitude_ft * METRES_PER_FT
    raise OutOfRange("altitude_ft", altitude_ft, LOWEST_FT, HIGHEST_FT)
