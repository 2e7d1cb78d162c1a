"""Tracks and distances on a chart.

Latitude north, longitude east positive, tracks true. On the small piece of a conic chart that a leg crosses, a
straight line is measured at the meridian half-way; that angle is the mid-latitude course, within 0.1 degree of the
great circle there for legs up to 300 NM below 70 degrees of latitude. A minute of latitude is a mile, a minute of
longitude is not. Standard navigation, no single source.
"""

from dataclasses import dataclass

from app.physics.angles import asin_deg, atan2_deg, cos_deg, difference, sin_deg, wrap360
from app.physics.errors import Undefined, require
from app.physics.units import METRES_PER_NM


@dataclass(frozen=True)
class Place:
    """A place: latitude -90..90 north positive, longitude -180..180 east positive, degrees."""

    latitude_deg: float
    longitude_deg: float

    def __post_init__(self) -> None:
        require("latitude_deg", self.latitude_deg, -90.0, 90.0)
        require("longitude_deg", self.longitude_deg, -180.0, 180.0)


def great_circle_nm(start: Place, end: Place) -> float:
    """Distance on a sphere of one mile a minute (haversine)."""
    north = sin_deg((end.latitude_deg - start.latitude_deg) / 2.0)
    east = sin_deg((end.longitude_deg - start.longitude_deg) / 2.0)
    chord = north * north + cos_deg(start.latitude_deg) * cos_deg(end.latitude_deg) * east * east
    return 120.0 * asin_deg(min(1.0, chord**0.5))


def track_at_start_deg(start: Place, end: Place) -> float:
    """Great-circle track at the first place's meridian, 0 <= t < 360. Raises Undefined for one and the same place."""
    _refuse_same(start, end)
    east = difference(end.longitude_deg, start.longitude_deg)
    y = sin_deg(east) * cos_deg(end.latitude_deg)
    x = cos_deg(start.latitude_deg) * sin_deg(end.latitude_deg) - sin_deg(start.latitude_deg) * cos_deg(
        end.latitude_deg
    ) * cos_deg(east)
    return wrap360(atan2_deg(y, x))


def track_at_mid_meridian_deg(start: Place, end: Place) -> float:
    """Track as measured at the meridian half-way, 0 <= t < 360. Raises Undefined for one and the same place."""
    _refuse_same(start, end)
    middle_deg = (start.latitude_deg + end.latitude_deg) / 2.0
    east = difference(end.longitude_deg, start.longitude_deg) * cos_deg(middle_deg)
    return wrap360(atan2_deg(east, end.latitude_deg - start.latitude_deg))


def departure_nm(longitude_minutes: float, latitude_deg: float) -> float:
    """Miles in minutes of longitude at a latitude: minutes x cos(latitude)."""
    return longitude_minutes * cos_deg(require("latitude_deg", latitude_deg, -90.0, 90.0))


def nm_on_chart(centimetres: float, scale: float) -> float:
    """Miles under a length on the paper of a chart 1:`scale`."""
    return centimetres / 100.0 * require("scale", scale, 1_000.0, 10_000_000.0) / METRES_PER_NM


def _refuse_same(start: Place, end: Place) -> None:
    if start == end:
        raise Undefined("between a place and itself there is no track")
