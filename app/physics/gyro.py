"""The heading indicator: how a free gyro seems to wander, and how its error is judged and forecast.

d(reading)/dt = -15.04 sin(lat) - (VE/60) tan(lat) + 15.04 sin(nut), degrees an hour; latitude and latitude nut north
positive, VE the eastward ground speed in knots. A falling reading is negative. Sources: gyroscope theory as in the
ATPL texts (published facts in tests/authorities); realign every 15 minutes: FAA-H-8083-25C ch. 8; a limit per
15 minutes is a school's own rule: common practice, no source.
"""

from app.physics.angles import sin_deg, tan_deg
from app.physics.errors import require, require_positive
from app.physics.units import EARTH_RATE_DEG_H

CHECK_EVERY_MIN = 15.0
ROUNDED_EARTH_RATE_DEG_H = 15.0  # the figure examiners print


def earth_wander_deg_h(latitude_deg: float, earth_rate_deg_h: float = EARTH_RATE_DEG_H) -> float:
    """Change of reading by the earth's turning, degrees an hour: falls in the north, rises in the south."""
    require("latitude_deg", latitude_deg, -90.0, 90.0)
    return -earth_rate_deg_h * sin_deg(latitude_deg) + 0.0


def transport_wander_deg_h(latitude_deg: float, east_gs_kt: float) -> float:
    """Change of reading by flying east (west negative), degrees an hour; |latitude| <= 89."""
    require("latitude_deg", latitude_deg, -89.0, 89.0, "meridians meet at the pole")
    return -east_gs_kt / 60.0 * tan_deg(latitude_deg) + 0.0


def nut_correction_deg_h(nut_latitude_deg: float, earth_rate_deg_h: float = EARTH_RATE_DEG_H) -> float:
    """Change of reading made by a latitude nut set for `nut_latitude_deg`: the earth's part, turned round."""
    return 0.0 - earth_wander_deg_h(nut_latitude_deg, earth_rate_deg_h)


def reading_rate_deg_h(latitude_deg: float, east_gs_kt: float = 0.0, nut_latitude_deg: float = 0.0) -> float:
    """Change of reading in all, degrees an hour; a nut at 0 is a gyro without one."""
    return (
        earth_wander_deg_h(latitude_deg)
        + transport_wander_deg_h(latitude_deg, east_gs_kt)
        + nut_correction_deg_h(nut_latitude_deg)
    )


def east_speed_kt(gs_kt: float, track_true_deg: float) -> float:
    """Eastward part of the ground speed, west negative."""
    return gs_kt * sin_deg(track_true_deg)


def reading_after(reading_deg: float, rate_deg_h: float, minutes: float) -> float:
    """Return the reading after `minutes` at a steady change, not wrapped, so that the change stays visible."""
    return reading_deg + rate_deg_h * minutes / 60.0


def drift_per_check_deg(error_deg: float, minutes: float) -> float:
    """Error brought to 15 minutes, from an error grown over `minutes` > 0 since the last setting."""
    return forecast_error_deg(error_deg, minutes, CHECK_EVERY_MIN)


def forecast_error_deg(error_deg: float, minutes: float, later_minutes: float) -> float:
    """Error to expect `later_minutes` after a setting, from an error grown over `minutes` > 0."""
    return error_deg * later_minutes / require_positive("minutes", minutes)


def within_limit(error_deg: float, minutes: float, limit_deg: float) -> bool:
    """Whether the error keeps to `limit_deg` in 15 minutes."""
    return abs(drift_per_check_deg(error_deg, minutes)) <= limit_deg
