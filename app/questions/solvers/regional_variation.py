"""What variation there is in each region: a scene set there draws none that its field has not. East positive."""

from collections.abc import Mapping

from app.questions.conventions import Region

LEAST_VARIATION_DEG = 8  # less hides which north was meant
LARGEST_VARIATION_DEG = 25
# Whole degrees westernmost and easternmost, of towns at each region's edges by the World Magnetic Model, 2025 to 2029.
SPAN_DEG: Mapping[Region, tuple[int, int]] = {
    "ca-south": (-20, 18), "ca-north": (-41, 19), "us": (-16, 17), "uk": (-2, 2), "easa": (-12, 18), "nz": (19, 26),
    "au": (-1, 15),
}  # fmt: skip
ABROAD: Mapping[Region, Region] = {"uk": "easa"}  # where the whole of a country has too little: a flight next door


def place_variation(region: Region, drawn_deg: int) -> tuple[Region, int]:
    """Return the region of a scene and its variation: the one drawn where the region has it, else one that it has."""
    region = ABROAD.get(region, region)
    west, east = SPAN_DEG[region]
    if west <= drawn_deg <= east:
        return region, drawn_deg
    sizes = range(LEAST_VARIATION_DEG, LARGEST_VARIATION_DEG + 1)
    there = [v for size in sizes for v in (-size, size) if west <= v <= east]
    return region, there[drawn_deg % len(there)]
