"""The earth's magnetic field: World Magnetic Model 2025, degree 12.

Axes north, east, down; declination east positive, dip down positive; geodetic latitude north positive, longitude east
positive; field in nanotesla. Source: NOAA NCEI and British Geological Survey, The World Magnetic Model 2025-2030;
coefficients and series through pygeomag, whose input is checked here because it checks none itself.
"""

from calendar import isleap
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from math import atan2, degrees, hypot, sqrt
from threading import Lock
from typing import Literal

from pygeomag import GeoMag

from app.physics.angles import round_half_up
from app.physics.errors import require, require_positive

MODEL_NAME = "WMM2025"
MODEL_FROM = 2025.0
MODEL_TO = 2030.0
BLACKOUT_NT = 2000.0
CAUTION_NT = 6000.0
STRONGEST_NT = 70_000.0  # more than any place on earth has
PLACE_DIGITS = 2

Zone = Literal["normal", "caution", "blackout"]

_model = GeoMag(coefficients_file="wmm/WMM_2025.COF")
_model_lock = Lock()  # the model object works in its own arrays: two threads at once would spoil them


@dataclass(frozen=True)
class Field:
    """The field at one place and time: angles in degrees, strengths in nanotesla, north, east and down positive."""

    declination_deg: float
    dip_deg: float
    horizontal_nt: float
    north_nt: float
    east_nt: float
    down_nt: float
    total_nt: float


def field_at(latitude_deg: float, longitude_deg: float, when: date | float, altitude_km: float = 0.0) -> Field:
    """Field at a place, by the model.

    `latitude_deg` -90..90, `longitude_deg` -180..180, `when` a date or a decimal year in 2025.0..2030.0,
    `altitude_km` above the ellipsoid, -1..850. Raises OutOfRange otherwise, NaN included.
    """
    require("latitude_deg", latitude_deg, -90.0, 90.0)
    require("longitude_deg", longitude_deg, -180.0, 180.0)
    require("altitude_km", altitude_km, -1.0, 850.0)
    year = decimal_year(when) if isinstance(when, date) else when
    require("year", year, MODEL_FROM, MODEL_TO, f"the life of {MODEL_NAME}")
    with _model_lock:
        found = _model.calculate(glat=latitude_deg, glon=longitude_deg, alt=altitude_km, time=year)
    return Field(found.d, found.i, found.h, found.x, found.y, found.z, found.f)


def field_from(north_nt: float, east_nt: float, down_nt: float) -> Field:
    """Field from its three components."""
    horizontal = hypot(north_nt, east_nt)
    declination, dip = degrees(atan2(east_nt, north_nt)), degrees(atan2(down_nt, horizontal))
    return Field(declination, dip, horizontal, north_nt, east_nt, down_nt, hypot(horizontal, down_nt))


def field_for_place(latitude_deg: float, longitude_deg: float, day: date) -> Field:
    """Field at sea level at a place rounded to 0.01 degree, kept for the day; ranges as `field_at`."""
    require("latitude_deg", latitude_deg, -90.0, 90.0)
    require("longitude_deg", longitude_deg, -180.0, 180.0)
    return _kept_field(round_half_up(latitude_deg, PLACE_DIGITS), round_half_up(longitude_deg, PLACE_DIGITS), day)


@lru_cache(maxsize=4096)
def _kept_field(latitude_deg: float, longitude_deg: float, day: date) -> Field:
    return field_at(latitude_deg, longitude_deg, day)


def decimal_year(day: date) -> float:
    """Year with its fraction at the start of `day`: 1 January is .0, leap years counted."""
    days_in_year = 366 if isleap(day.year) else 365
    return day.year + (day.timetuple().tm_yday - 1) / days_in_year


def zone(horizontal_nt: float) -> Zone:
    """How far a compass can be relied on, by the model's report: blackout below 2000 nT, caution below 6000 nT."""
    if require("horizontal_nt", horizontal_nt, 0.0, STRONGEST_NT) < BLACKOUT_NT:
        return "blackout"
    return "caution" if horizontal_nt < CAUTION_NT else "normal"


def declination_uncertainty_deg(horizontal_nt: float) -> float:
    """One standard deviation of the model's declination, degrees: sqrt(0.26^2 + (5417/H)^2), H > 0 in nT (WMM2025)."""
    return sqrt(0.26**2 + (5417.0 / require_positive("horizontal_nt", horizontal_nt)) ** 2)
