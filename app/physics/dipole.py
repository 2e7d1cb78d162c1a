"""Dip and the level share of the field from magnetic latitude, for a dipole (a bar-magnet earth).

An approximation for teaching how the field steepens toward the poles; real places come from `field`.
Source: tan I = 2 tan(magnetic latitude), standard geomagnetism.
"""

from app.physics.angles import atan2_deg, atan_deg, cos_deg, sin_deg, tan_deg
from app.physics.errors import require


def dip_from_magnetic_latitude_deg(magnetic_latitude_deg: float) -> float:
    """Dip, down positive, at a magnetic latitude -90..90, north positive."""
    require("magnetic_latitude_deg", magnetic_latitude_deg, -90.0, 90.0)
    return atan2_deg(2.0 * sin_deg(magnetic_latitude_deg), cos_deg(magnetic_latitude_deg))


def magnetic_latitude_from_dip_deg(dip_deg: float) -> float:
    """Magnetic latitude of a dip strictly between -90 and 90; the poles themselves raise OutOfRange."""
    require("dip_deg", dip_deg, -90.0, 90.0)
    return atan_deg(tan_deg(dip_deg) / 2.0)


def horizontal_share(dip_deg: float) -> float:
    """Level part of the total field, 0..1: the part that turns the card."""
    require("dip_deg", dip_deg, -90.0, 90.0)
    return cos_deg(dip_deg)
