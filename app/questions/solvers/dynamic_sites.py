"""Where an item on the moving card is set: at the home place, or at an invented field with a dip of its own."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import whole
from app.physics.turning import Hemisphere
from app.questions.conventions import Conventions
from app.questions.solvers.dynamic_places import LEVEL_DIP_DEG, PLACE_AT, PLACES

LEAST_HOME_DIP_DEG = 25  # below it errors are real, but too small to be seen at 0.1 g or 12 degrees of bank
LEAST_LATITUDE_DEG, LARGEST_LATITUDE_DEG, LATITUDE_STEP_DEG = 20, 50, 5


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
    return LatitudeSite(at_home=False, dip_deg=PLACES[PLACE_AT[latitude_deg]].dip_deg, latitude_deg=latitude_deg)


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


def heading_circle(
    site: Site, heading_deg: int, **action: str
) -> tuple[tuple[FigureCall, ...], tuple[FigureCall, ...]]:
    """Call the figures of a turn or a change of speed on a heading: before the answer, and after it with its error."""
    before = {"heading_deg": heading_deg, **action}
    after = {**before, "hemisphere": site.hemisphere, "show_errors": True}
    return (FigureCall("heading-circle", before),), (FigureCall("heading-circle", after),)
