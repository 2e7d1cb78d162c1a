"""Fuel for a time, endurance and the reserve. Any one unit of quantity throughout; times in minutes.

Arithmetic; how long a reserve must be is the region's rule and is not kept here.
"""

from app.physics.errors import require_positive
from app.physics.units import KILOGRAMS_PER_LB, LITRES_PER_IMP_GAL, LITRES_PER_US_GAL

AVGAS_KG_L = 0.72  # common practice: 6 lb a US gallon
LITRES_PER_UNIT = {
    "L": 1.0,
    "US gal": LITRES_PER_US_GAL,
    "imp gal": LITRES_PER_IMP_GAL,
    "lb": KILOGRAMS_PER_LB / AVGAS_KG_L,
}


def fuel_for(minutes: float, burn_per_h: float) -> float:
    """Fuel burned in `minutes`."""
    return burn_per_h * minutes / 60.0


def endurance_min(usable: float, burn_per_h: float, reserve_min: float = 0.0) -> float:
    """Minutes the fuel lasts with the reserve kept; negative when it does not even hold the reserve."""
    return 60.0 * usable / require_positive("burn_per_h", burn_per_h) - reserve_min


def converted(quantity: float, unit: str, to_unit: str) -> float:
    """Quantity in another unit: L, US gal, imp gal, lb (of aviation gasoline)."""
    return quantity * LITRES_PER_UNIT[unit] / LITRES_PER_UNIT[to_unit]
