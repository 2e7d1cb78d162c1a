"""Along a track: one-in-sixty corrections, time, speed and distance, bearings, critical points.

Sides: right of track positive, as are turns. Distances in nautical miles, speeds in knots over the ground, times in
minutes. One degree is one mile in sixty (the rule, not the tangent: 1.05 miles). Sources: Transport Canada TP 12880,
Pilot Navigation 7 to 12 (named methods); the arithmetic is common practice.
"""

from dataclasses import dataclass

from app.physics.angles import atan_deg, difference, round_half_up, whole, wrap360
from app.physics.errors import require, require_positive
from app.physics.headings import reciprocal

MINUTES_A_DAY = 1440
LINES_STAND_DEG = 10.0


@dataclass(frozen=True)
class TrackCorrection:
    """One-in-sixty correction, right positive: error made, angle to close, and the change of heading that does both."""

    track_error_deg: float
    closing_angle_deg: float
    heading_change_deg: float


@dataclass(frozen=True)
class DoubleErrorPlan:
    """Regain by doubling the error: heading to regain, minutes to hold it, heading that then keeps the track."""

    regain_deg: float
    minutes: float
    keep_deg: float


@dataclass(frozen=True)
class ClockTime:
    """Minutes past midnight 0 <= m < 1440 and the days gone over (-1 yesterday, 0 today, 1 tomorrow)."""

    minutes: int
    days: int


@dataclass(frozen=True)
class DecisionPoint:
    """A point along the way: distance from departure and minutes to it."""

    distance_nm: float
    minutes: float


def one_in_sixty_deg(off_nm: float, along_nm: float) -> float:
    """Angle of `off_nm` (right positive) over `along_nm` > 0 by one-in-sixty."""
    return 60.0 * off_nm / require_positive("along_nm", along_nm)


def exact_angle_deg(off_nm: float, along_nm: float) -> float:
    """Return the same angle by its tangent."""
    return atan_deg(off_nm / require_positive("along_nm", along_nm))


def off_track_nm(angle_deg: float, along_nm: float) -> float:
    """Distance off track after `along_nm` at `angle_deg` by one-in-sixty; an angle to the right is positive."""
    return angle_deg * along_nm / 60.0


def off_track_by_indicator_nm(indicator_error_deg: float, distance_nm: float) -> float:
    """Distance off track with a heading indicator that reads `indicator_error_deg` too much: then one flies left."""
    return off_track_nm(0.0 - indicator_error_deg, distance_nm)


def track_correction(off_nm: float, gone_nm: float, left_nm: float) -> TrackCorrection:
    """Correct to the destination: error over the distance gone, closing angle over the distance left.

    `off_nm` is right positive; the change of heading has the other sign.
    """
    error_deg = one_in_sixty_deg(off_nm, gone_nm)
    closing_deg = one_in_sixty_deg(off_nm, left_nm)
    return TrackCorrection(error_deg, closing_deg, 0.0 - (error_deg + closing_deg))


def double_track_error(heading_deg: float, track_error_deg: float, minutes: float) -> DoubleErrorPlan:
    """Plan that regains the track in the time already flown; `track_error_deg` right positive."""
    regain_deg = wrap360(heading_deg - 2.0 * track_error_deg)
    return DoubleErrorPlan(regain_deg, minutes, wrap360(heading_deg - track_error_deg))


def error_from_ten_degree_lines_deg(fraction: float) -> float:
    """Track error, or closing angle, from the share of the fan between track and a ten-degree line, right positive."""
    return LINES_STAND_DEG * fraction


def minutes_for(distance_nm: float, gs_kt: float) -> float:
    """Minutes for a distance at a ground speed > 0."""
    return 60.0 * distance_nm / require_positive("gs_kt", gs_kt)


def speed_over_kt(distance_nm: float, minutes: float) -> float:
    """Ground speed from distance and minutes > 0."""
    return 60.0 * distance_nm / require_positive("minutes", minutes)


def distance_in_nm(gs_kt: float, minutes: float) -> float:
    """Distance covered in `minutes`."""
    return gs_kt * minutes / 60.0


def clock_after(start_min: float, minutes: float) -> ClockTime:
    """Clock time to the nearest minute, `minutes` (either sign) after `start_min` past midnight."""
    days, past_midnight = divmod(whole(start_min + minutes), MINUTES_A_DAY)
    return ClockTime(past_midnight, days)


def minutes_between(earlier_min: float, later_min: float) -> float:
    """Minutes from one clock time to the next time the other comes round, 0 <= m < 1440, right across midnight."""
    return (later_min - earlier_min) % MINUTES_A_DAY


def local_time(utc_min: float, offset_h: float) -> ClockTime:
    """Local time from UTC; west of Greenwich the offset is negative and local time earlier."""
    return clock_after(utc_min, offset_h * 60.0)


def bearing_from_relative(heading_deg: float, relative_bearing_deg: float) -> float:
    """Bearing of an object, in the north of the heading, 0 <= b < 360: heading plus relative bearing."""
    return wrap360(heading_deg + relative_bearing_deg)


def relative_from_bearing(heading_deg: float, bearing_deg: float) -> float:
    """Relative bearing, clockwise from the nose, 0 <= r < 360."""
    return wrap360(bearing_deg - heading_deg)


def position_line_deg(bearing_deg: float) -> float:
    """Direction of the position line from the object: reverse of the bearing to it."""
    return reciprocal(bearing_deg)


def clock_code(relative_bearing_deg: float) -> int:
    """Clock code 1..12 of a relative bearing, the nose 12; half-way between two hours the later one."""
    return whole(round_half_up(wrap360(relative_bearing_deg) / 30.0, 6)) % 12 or 12


def side_of_nose_deg(relative_bearing_deg: float) -> float:
    """Relative bearing as an angle off the nose in (-180, 180], right positive."""
    return difference(relative_bearing_deg, 0.0)


def point_of_no_return(endurance_min: float, gs_out_kt: float, gs_home_kt: float) -> DecisionPoint:
    """Farthest point from which the fuel still takes one home: t = E H / (O + H). Speeds > 0."""
    require_positive("gs_out_kt", gs_out_kt)
    require_positive("gs_home_kt", gs_home_kt)
    minutes = endurance_min * gs_home_kt / (gs_out_kt + gs_home_kt)
    return DecisionPoint(distance_in_nm(gs_out_kt, minutes), minutes)


def critical_point(leg_nm: float, gs_out_kt: float, gs_home_kt: float) -> DecisionPoint:
    """Point from which going on and turning back take the same time: d = D H / (O + H). Speeds > 0."""
    require_positive("gs_out_kt", gs_out_kt)
    require_positive("gs_home_kt", gs_home_kt)
    gone_nm = leg_nm * gs_home_kt / (gs_out_kt + gs_home_kt)
    return DecisionPoint(gone_nm, minutes_for(gone_nm, gs_out_kt))


def past_half_way(gone_nm: float, left_nm: float) -> bool:
    """Whether doubling the error would meet the track beyond the destination."""
    require("left_nm", left_nm, 0.0, 25_000.0)
    return gone_nm > left_nm
