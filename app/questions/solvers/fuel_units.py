"""Fuel as it is counted where the home place is: whole US gallons in the United States, litres elsewhere.

Common practice, no source.
"""

from app.physics.angles import whole
from app.physics.fuel import converted
from app.questions.conventions import Region


def fuel_unit_in(region: Region) -> str:
    """Return the code of the unit: "gallons" or "litres"."""
    return "gallons" if region == "us" else "litres"


def counted(litres: float, unit: str) -> int:
    """Return a quantity drawn in litres as a whole number of the unit."""
    return whole(converted(litres, "L", "US gal")) if unit == "gallons" else whole(litres)
