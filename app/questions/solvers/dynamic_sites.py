"""Where an item on the moving card is set: at the home place, or at an invented field with a dip of its own."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from app.physics.angles import whole
from app.physics.turning import Hemisphere
from app.questions.conventions import Conventions

LEVEL_DIP_DEG = 3  # at 15 degrees of bank no more than 0.8 degree of error is left here
LEAST_HOME_DIP_DEG = 25  # below it errors are real, but too small to be seen at 0.1 g or 12 degrees of bank
LEAST_LATITUDE_DEG, LARGEST_LATITUDE_DEG, LATITUDE_STEP_DEG = 20, 50, 5
POINTS = {
    20: (21.3, -157.9, 38), 25: (25.8, -80.2, 54), 30: (29.8, -95.4, 58), 35: (35.1, -106.6, 62),
    40: (39.7, -105.0, 66), 45: (44.6, -63.6, 66), 50: (50.0, 8.6, 66), -20: (-20.3, 118.6, -52),
    -25: (-23.7, 133.9, -55), -30: (-29.9, 31.0, -62), -35: (-33.9, 18.4, -65),
    -40: (-41.3, 174.8, -67), -45: (-43.5, 172.6, -69), -50: (-51.6, -69.2, -49),
}  # fmt: skip
"""A real point for each latitude a rule is asked at: latitude, longitude and its dip, World Magnetic Model, 2026.9."""


@dataclass(frozen=True, slots=True)
class Site:
    """A place by what the card feels of it; the dip is whole, as the stem shows it."""

    at_home: bool
    dip_deg: int

    @property
    def hemisphere(self) -> Hemisphere:
        """Which end of the needle dips; "none" where the field is as good as level."""
        if abs(self.dip_deg) <= LEVEL_DIP_DEG:
            return "none"
        return "north" if self.dip_deg > 0 else "south"

    @property
    def given(self) -> dict[str, Any]:
        """What the stem shows of the place."""
        return {"at_home": self.at_home, "dip_deg": self.dip_deg, "hemisphere": self.hemisphere}

    @property
    def words(self) -> dict[str, str]:
        """Codes of the words for the place and for its dip."""
        return {"where": "where-home" if self.at_home else "where-field", "dip_end": f"dip-{self.hemisphere}"}


@dataclass(frozen=True, slots=True)
class LatitudeSite(Site):
    """A place where a rule is asked that needs its latitude, north positive, to the nearest 5 degrees."""

    latitude_deg: int


def latitude_site_of(parameters: Mapping[str, Any], conventions: Conventions) -> LatitudeSite:
    """Return the home place where it is wanted and within 20 to 50 degrees, else a real point, named as a field."""
    home_deg = LATITUDE_STEP_DEG * whole(conventions.latitude_deg / LATITUDE_STEP_DEG)
    in_range = LEAST_LATITUDE_DEG <= abs(home_deg) <= LARGEST_LATITUDE_DEG
    steep_enough = abs(conventions.dip_deg) >= LEAST_HOME_DIP_DEG
    if parameters["at_home"] and in_range and steep_enough and not conventions.beyond_rules:
        return LatitudeSite(at_home=True, dip_deg=whole(conventions.dip_deg), latitude_deg=home_deg)
    latitude_deg = parameters["latitude_deg"] * (1 if parameters["hemisphere"] == "north" else -1)
    return LatitudeSite(at_home=False, dip_deg=POINTS[latitude_deg][2], latitude_deg=latitude_deg)


def site_of(parameters: Mapping[str, Any], conventions: Conventions) -> Site:
    """Return the home place where it is wanted and suits, else a field with the drawn hemisphere and dip.

    A level home is used only where the draw calls for no dip, so that "no error" does not become the usual answer.
    """
    wanted = parameters["hemisphere"]
    home_dip_deg = whole(conventions.dip_deg)
    if wanted == "none":
        suits = abs(home_dip_deg) <= LEVEL_DIP_DEG
    else:
        suits = abs(home_dip_deg) >= LEAST_HOME_DIP_DEG and not conventions.beyond_rules
    if parameters["at_home"] and suits:
        return Site(at_home=True, dip_deg=home_dip_deg)
    signs = {"north": 1, "south": -1, "none": 0}
    return Site(at_home=False, dip_deg=signs[wanted] * parameters["dip_deg"])
