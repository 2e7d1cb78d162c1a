"""Wind triangle, drift and runway components.

Directions and the wind in one and the same north (forecast wind is true: variation comes after the triangle). Wind is
named by where it blows FROM. WCA is positive when the nose is right of the track, drift positive when the track is
right of the nose; crosswind is positive from the right, headwind positive on the nose. Knots and degrees.

WCA = asin(w sin(wd - track) / TAS), heading = track + WCA, GS = TAS cos WCA - w cos(wd - track): vector sum, no
source needed. Maximum drift 60 w / TAS and the clock rule (full at 60 degrees): common practice, no source.
"""

from dataclasses import dataclass
from math import hypot, inf

from app.physics.angles import asin_deg, atan2_deg, cos_deg, difference, sin_deg, wrap360
from app.physics.errors import OutOfRange, Undefined, require, require_positive

CALM_KT = 1e-9
FASTEST_KT = 1000.0


@dataclass(frozen=True)
class Wind:
    """A wind: where it blows from, 0 <= d < 360, and its speed in knots."""

    from_deg: float
    kt: float


@dataclass(frozen=True)
class HeadingSolution:
    """Heading to fly a track: wind correction (right positive), heading 0 <= h < 360, ground speed."""

    wca_deg: float
    heading_deg: float
    gs_kt: float


@dataclass(frozen=True)
class TrackSolution:
    """Track made good on a heading: track 0 <= t < 360, ground speed, drift (right positive)."""

    track_deg: float
    gs_kt: float
    drift_deg: float


@dataclass(frozen=True)
class RunwayWind:
    """Wind along a runway: headwind (tailwind negative) and crosswind (from the right positive), knots."""

    headwind_kt: float
    crosswind_kt: float


def wind_correction_deg(track_deg: float, tas_kt: float, wind_from_deg: float, wind_kt: float) -> float:
    """Wind correction angle, right positive. Raises OutOfRange when the wind across the track beats the TAS."""
    _require_speeds(tas_kt, wind_kt)
    across_kt = wind_kt * sin_deg(wind_from_deg - track_deg)
    if abs(across_kt) >= tas_kt:
        raise OutOfRange("wind_kt", wind_kt, 0.0, tas_kt, "no heading holds the track against this wind")
    return asin_deg(across_kt / tas_kt)


def ground_speed_kt(track_deg: float, tas_kt: float, wind_from_deg: float, wind_kt: float) -> float:
    """Ground speed along the track. Raises OutOfRange when no headway is made."""
    wca_deg = wind_correction_deg(track_deg, tas_kt, wind_from_deg, wind_kt)
    gs_kt = tas_kt * cos_deg(wca_deg) - wind_kt * cos_deg(wind_from_deg - track_deg)
    if gs_kt <= 0.0:
        raise OutOfRange("wind_kt", wind_kt, 0.0, tas_kt, "the headwind leaves no headway along the track")
    return gs_kt


def solve_heading(track_deg: float, tas_kt: float, wind_from_deg: float, wind_kt: float) -> HeadingSolution:
    """Wind correction, heading and ground speed for a track; refuses an impossible wind as the two above."""
    wca_deg = wind_correction_deg(track_deg, tas_kt, wind_from_deg, wind_kt)
    gs_kt = ground_speed_kt(track_deg, tas_kt, wind_from_deg, wind_kt)
    return HeadingSolution(wca_deg, wrap360(track_deg + wca_deg), gs_kt)


def solve_track(heading_deg: float, tas_kt: float, wind_from_deg: float, wind_kt: float) -> TrackSolution:
    """Track, ground speed and drift made on a heading. Raises Undefined when the aircraft stands over the ground."""
    _require_speeds(tas_kt, wind_kt)
    east_kt = tas_kt * sin_deg(heading_deg) - wind_kt * sin_deg(wind_from_deg)
    north_kt = tas_kt * cos_deg(heading_deg) - wind_kt * cos_deg(wind_from_deg)
    gs_kt = hypot(east_kt, north_kt)
    if gs_kt < CALM_KT:
        raise Undefined("standing over the ground there is no track")
    track_deg = wrap360(atan2_deg(east_kt, north_kt))
    return TrackSolution(track_deg, gs_kt, drift_deg(heading_deg, track_deg))


def find_wind(heading_deg: float, tas_kt: float, track_deg: float, gs_kt: float) -> Wind:
    """Wind from the air vector and the ground vector; a calm has direction 0."""
    require_positive("tas_kt", tas_kt)
    require("gs_kt", gs_kt, 0.0, FASTEST_KT)
    east_kt = tas_kt * sin_deg(heading_deg) - gs_kt * sin_deg(track_deg)
    north_kt = tas_kt * cos_deg(heading_deg) - gs_kt * cos_deg(track_deg)
    kt = hypot(east_kt, north_kt)
    return Wind(0.0, 0.0) if kt < CALM_KT else Wind(wrap360(atan2_deg(east_kt, north_kt)), kt)


def drift_deg(heading_deg: float, track_deg: float) -> float:
    """Drift from heading to track, right positive: the wind correction with its sign turned."""
    return difference(track_deg, heading_deg)


def heading_home_deg(track_deg: float, outbound_wca_deg: float) -> float:
    """Heading back along the reciprocal track in the same wind and TAS: the correction is mirrored."""
    return wrap360(track_deg + 180.0 - outbound_wca_deg)


def runway_wind(runway_deg: float, wind_from_deg: float, wind_kt: float) -> RunwayWind:
    """Headwind and crosswind on a runway direction; both directions in one north."""
    angle_deg = difference(wind_from_deg, runway_deg)
    return RunwayWind(wind_kt * cos_deg(angle_deg), wind_kt * sin_deg(angle_deg))


def headwind_kt(runway_deg: float, wind_from_deg: float, wind_kt: float) -> float:
    """Wind along the runway, on the nose positive."""
    return runway_wind(runway_deg, wind_from_deg, wind_kt).headwind_kt


def crosswind_kt(runway_deg: float, wind_from_deg: float, wind_kt: float) -> float:
    """Wind across the runway, from the right positive."""
    return runway_wind(runway_deg, wind_from_deg, wind_kt).crosswind_kt


def greatest_wind_kt(limit_kt: float, runway_deg: float, wind_from_deg: float) -> float:
    """Wind speed whose crosswind equals `limit_kt`; infinite straight along the runway."""
    across = abs(sin_deg(wind_from_deg - runway_deg))
    return limit_kt / across if across > 0.0 else inf


def max_drift_deg(tas_kt: float, wind_kt: float) -> float:
    """Drift with the wind straight across, by rule: 60 w / TAS. Common practice."""
    _require_speeds(tas_kt, wind_kt)
    return 60.0 * wind_kt / tas_kt


def clock_fraction(angle_deg: float) -> float:
    """Share of the maximum by the clock rule: angle over 60, full from 60 on; the angle is 0..90 off track."""
    return min(1.0, require("angle_deg", angle_deg, 0.0, 90.0) / 60.0)


def drift_by_clock_deg(tas_kt: float, wind_kt: float, angle_deg: float) -> float:
    """Size of the drift by maximum drift and the clock rule."""
    return max_drift_deg(tas_kt, wind_kt) * clock_fraction(angle_deg)


def crosswind_by_clock_kt(wind_kt: float, angle_deg: float) -> float:
    """Size of the crosswind by the clock rule."""
    return wind_kt * clock_fraction(angle_deg)


def _require_speeds(tas_kt: float, wind_kt: float) -> None:
    require_positive("tas_kt", tas_kt)
    require("wind_kt", wind_kt, 0.0, FASTEST_KT)
