"""Where an item on the moving card is set: at the home place, or at an invented field with a dip of its own."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from app.physics.angles import whole
from app.physics.turning import Hemisphere
from app.questions.conventions import Conventions

LEVEL_DIP_DEG = 3  # at 15 degrees of bank no more than 0.8 degree of error is left here
LEAST_HOME_DIP_DEG = 25  # below it errors are real, but too small to be seen at 0.1 g or 12 degrees of bank


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
