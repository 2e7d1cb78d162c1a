"""True, magnetic and compass headings; variation; runway numbers; cruising half circles; names of directions.

T = M + V and M = C + D, variation V and deviation D east positive. The same arithmetic serves tracks and bearings,
but there is no compass track. Sources: CASA AC 43-17(0) (deviation is added to the compass reading); FAA-H-8083-25C
ch. 16; ICAO Annex 14 vol. I, 5.2.2 (runway numbers; paragraph from memory); CAR 602.34 and 14 CFR 91.159 (cruising).
"""

from dataclasses import dataclass
from typing import Literal

from app.physics.angles import difference, round_half_up, whole, wrap360
from app.physics.errors import Undefined, require

Point = Literal["N", "NE", "E", "SE", "S", "SW", "W", "NW"]
Parity = Literal["odd", "even"]

POINTS: tuple[Point, ...] = ("N", "NE", "E", "SE", "S", "SW", "W", "NW")
HIGHEST_VFR_FT = 17_500


@dataclass(frozen=True)
class DegreesMinutes:
    """A signed angle in degrees and minutes, east positive; the sign stands apart so that 0 30 W keeps its letter."""

    sign: int
    degrees: int
    minutes: int


@dataclass(frozen=True)
class QuadrantBearing:
    """A bearing told from north or south toward east or west, such as S 30 E; `angle_deg` 0..90."""

    start: Literal["N", "S"]
    angle_deg: float
    toward: Literal["E", "W"]


def magnetic_from_true(true_deg: float, variation_deg: float) -> float:
    """Magnetic direction, 0 <= m < 360: M = T - V."""
    return wrap360(true_deg - variation_deg)


def true_from_magnetic(magnetic_deg: float, variation_deg: float) -> float:
    """Return the true direction, 0 <= t < 360: T = M + V."""
    return wrap360(magnetic_deg + variation_deg)


def compass_from(magnetic_deg: float, deviation_deg: float) -> float:
    """Compass heading, 0 <= c < 360: C = M - D."""
    return wrap360(magnetic_deg - deviation_deg)


def magnetic_from_compass_heading(compass_deg: float, deviation_deg: float) -> float:
    """Magnetic heading, 0 <= m < 360: M = C + D."""
    return wrap360(compass_deg + deviation_deg)


def variation_between(true_deg: float, magnetic_deg: float) -> float:
    """Variation V = T - M in (-180, 180], east positive."""
    return difference(true_deg, magnetic_deg)


def deviation_between(magnetic_deg: float, compass_deg: float) -> float:
    """Deviation D = M - C in (-180, 180], east positive."""
    return difference(magnetic_deg, compass_deg)


def degrees_from_minutes(sign: int, degrees: int, minutes: float) -> float:
    """Signed degrees from a sign (+1 east, -1 west), whole degrees >= 0 and minutes 0..60."""
    require("minutes", minutes, 0.0, 60.0)
    return sign * (degrees + minutes / 60.0)


def degrees_minutes(angle_deg: float) -> DegreesMinutes:
    """Split a signed angle into degrees and whole minutes, rounded once, so that 59.7 minutes carries."""
    total = whole(abs(angle_deg) * 60.0)
    return DegreesMinutes(-1 if angle_deg < 0.0 else 1, total // 60, total % 60)


def variation_updated_deg(printed_deg: float, annual_change_min: float, years: float) -> float:
    """Variation brought up to date: a signed sum, east positive, that may cross zero; change in minutes a year."""
    return printed_deg + annual_change_min * years / 60.0


def isogonal_between_deg(first_deg: float, second_deg: float, fraction: float) -> float:
    """Variation `fraction` (0..1) of the way from one isogonal to the next, interpolated with its sign."""
    require("fraction", fraction, 0.0, 1.0)
    return first_deg + (second_deg - first_deg) * fraction


def runway_number(azimuth_deg: float) -> int:
    """Runway number 1..36 of an azimuth: the nearest ten. Raises Undefined half-way, where either number is right."""
    tens = round_half_up(wrap360(azimuth_deg) / 10.0, 6)
    if tens % 1.0 == 0.5:
        raise Undefined(f"{azimuth_deg:g} lies half-way between two runway numbers")
    return whole(tens) % 36 or 36


def reciprocal_runway(number: int) -> int:
    """Return the number of the other end, 1..36."""
    require("runway", number, 1, 36)
    return (number + 17) % 36 + 1


def runway_direction_deg(number: int) -> float:
    """Direction a runway's number stands for, 0 <= d < 360."""
    require("runway", number, 1, 36)
    return wrap360(number * 10.0)


def cruising_parity(track_deg: float) -> Parity:
    """Half-circle rule: odd thousands on tracks 000 to 179, even on 180 to 359. Which north is the region's matter."""
    return "odd" if wrap360(track_deg) < 180.0 else "even"


def vfr_cruising_altitudes_ft(track_deg: float) -> tuple[int, ...]:
    """VFR altitudes of a track below 18 000 ft: odd 3500..17 500, even 4500..16 500."""
    lowest = 3_500 if cruising_parity(track_deg) == "odd" else 4_500
    return tuple(range(lowest, HIGHEST_VFR_FT + 1, 2_000))


def point_deg(point: Point) -> float:
    """Direction of one of the eight points."""
    return POINTS.index(point) * 45.0


def nearest_point(direction_deg: float) -> Point:
    """Nearest of the eight points; half-way between two, the clockwise one."""
    return POINTS[whole(wrap360(direction_deg) / 45.0) % 8]


def from_quadrant(bearing: QuadrantBearing) -> float:
    """Direction 0 <= d < 360 of a quadrant bearing. Raises OutOfRange for an angle outside 0..90."""
    angle = require("angle_deg", bearing.angle_deg, 0.0, 90.0)
    eastward = angle if bearing.start == "N" else 180.0 - angle
    return wrap360(eastward if bearing.toward == "E" else -eastward)


def quadrant_bearing(direction_deg: float) -> QuadrantBearing:
    """Quadrant bearing of a direction; due east and west are told from north, due north and south toward east."""
    from_north = difference(direction_deg, 0.0)
    size = abs(from_north)
    toward: Literal["E", "W"] = "E" if from_north >= 0.0 else "W"
    return QuadrantBearing("N", size, toward) if size <= 90.0 else QuadrantBearing("S", 180.0 - size, toward)


def reciprocal(direction_deg: float) -> float:
    """Return the opposite direction, 0 <= d < 360."""
    return wrap360(direction_deg + 180.0)
