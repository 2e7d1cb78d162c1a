"""A magnetic potential in spherical harmonics, evaluated along parallels: one set of Legendre functions a parallel.

Schmidt semi-normalised functions, reference radius 6371.2 km, geodetic latitudes on WGS 84: the form in which both the
World Magnetic Model and the International Geomagnetic Reference Field are published (WMM2025 technical report,
equations 4 to 19).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import atan2, cos, hypot, radians, sin, sqrt

from app.physics.errors import require

REFERENCE_KM = 6371.2
EQUATOR_KM, FLATTENING = 6378.137, 1.0 / 298.257223563
NEAREST_POLE_DEG = 89.999999  # nearer by, east and north have no meaning left

Vector = tuple[float, float, float]
Row = tuple[float, ...]


@dataclass(frozen=True)
class Harmonics:
    """Coefficients in nanotesla: `cosines[n][m]` and `sines[n][m]`, n from 0 to the degree, m from 0 to n."""

    cosines: tuple[Row, ...]
    sines: tuple[Row, ...]

    @property
    def degree(self) -> int:
        """Largest n."""
        return len(self.cosines) - 1


def vectors_along(model: Harmonics, latitude_deg: float, longitudes_deg: tuple[float, ...]) -> list[Vector]:
    """Return the field (north, east, down), nT, at sea level at the given longitudes of one parallel."""
    require("latitude_deg", latitude_deg, -90.0, 90.0)
    latitude = radians(max(-NEAREST_POLE_DEG, min(NEAREST_POLE_DEG, latitude_deg)))
    radius_km, geocentric = _sphere(latitude)
    waves = _waves(model, radius_km, geocentric)
    tilt = geocentric - latitude
    return [_turned(_summed(waves, turns), tilt) for turns in _round_the_earth(longitudes_deg, model.degree)]


def _sphere(latitude: float) -> tuple[float, float]:
    """Return the distance from the earth's centre, km, and the geocentric latitude of a point at sea level."""
    flatter = (1.0 - FLATTENING) ** 2
    normal_km = EQUATOR_KM / sqrt(1.0 - (1.0 - flatter) * sin(latitude) ** 2)
    out, up = normal_km * cos(latitude), normal_km * flatter * sin(latitude)
    return hypot(out, up), atan2(up, out)


_Wave = tuple[float, float, float, float, float, float]  # cosine and sine parts of north, east and down


def _waves(model: Harmonics, radius_km: float, geocentric: float) -> list[_Wave]:
    """Sum over n what does not depend on longitude, for each m."""
    functions, slopes = _legendre(model.degree, sin(geocentric), cos(geocentric))
    shrink = REFERENCE_KM / radius_km
    waves = []
    for m in range(model.degree + 1):
        parts = [0.0] * 6
        for n in range(max(m, 1), model.degree + 1):
            near = shrink ** (n + 2)
            cosine, sine = near * model.cosines[n][m], near * model.sines[n][m]
            slope, east, down = slopes[n][m], m * functions[n][m] / cos(geocentric), -(n + 1) * functions[n][m]
            each = (cosine * slope, sine * slope, -sine * east, cosine * east, cosine * down, sine * down)
            parts = [so_far + more for so_far, more in zip(parts, each, strict=True)]
        north_c, north_s, east_c, east_s, down_c, down_s = parts
        waves.append((north_c, north_s, east_c, east_s, down_c, down_s))
    return waves


def _legendre(degree: int, cosine: float, sine: float) -> tuple[list[list[float]], list[list[float]]]:
    """Schmidt functions and their slopes by colatitude, given its cosine and sine."""
    functions = [[0.0] * (degree + 1) for _ in range(degree + 1)]
    slopes = [[0.0] * (degree + 1) for _ in range(degree + 1)]
    functions[0][0] = 1.0
    for n in range(1, degree + 1):
        share = sqrt((2 * n - 1) / (2 * n)) if n > 1 else 1.0
        functions[n][n] = share * sine * functions[n - 1][n - 1]
        slopes[n][n] = share * (sine * slopes[n - 1][n - 1] + cosine * functions[n - 1][n - 1])
        for m in range(n):
            before = sqrt((n - 1) ** 2 - m * m) if n > m + 1 else 0.0
            scale = sqrt(n * n - m * m)
            one, two = n - 1, max(n - 2, 0)
            functions[n][m] = ((2 * n - 1) * cosine * functions[one][m] - before * functions[two][m]) / scale
            turned = cosine * slopes[one][m] - sine * functions[one][m]
            slopes[n][m] = ((2 * n - 1) * turned - before * slopes[two][m]) / scale
    return functions, slopes


@lru_cache(maxsize=64)
def _round_the_earth(longitudes_deg: tuple[float, ...], degree: int) -> list[list[tuple[float, float]]]:
    """Return cosine and sine of each multiple of each longitude; every parallel asks for the same ones."""
    return [
        [(cos(m * longitude), sin(m * longitude)) for m in range(degree + 1)]
        for longitude in map(radians, longitudes_deg)
    ]


def _summed(waves: Sequence[_Wave], turns: Sequence[tuple[float, float]]) -> Vector:
    north = east = down = 0.0
    for (north_c, north_s, east_c, east_s, down_c, down_s), (c, s) in zip(waves, turns, strict=True):
        north += north_c * c + north_s * s
        east += east_c * c + east_s * s
        down += down_c * c + down_s * s
    return north, east, down


def _turned(vector: Vector, tilt: float) -> Vector:
    """Turn a vector from the sphere's level to the ellipsoid's."""
    north, east, down = vector
    return north * cos(tilt) - down * sin(tilt), east, north * sin(tilt) + down * cos(tilt)
