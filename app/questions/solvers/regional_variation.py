"""Where each region lies and what variation it has: scenes there draw none that its field has not. East positive."""

from collections.abc import Mapping

from app.questions.conventions import Region

LEAST_VARIATION_DEG = 8  # less hides which north was meant
LARGEST_VARIATION_DEG = 25
# Whole degrees westernmost and easternmost, of towns at each region's edges by the World Magnetic Model, 2025 to 2029.
SPAN_DEG: Mapping[Region, tuple[int, int]] = {
    "ca-south": (-20, 18), "ca-north": (-41, 19), "us": (-16, 17), "uk": (-2, 2), "easa": (-12, 18), "nz": (19, 26),
    "au": (-1, 15),
}  # fmt: skip
# Roughly where each region lies: boxes of southern and northern latitude, western and eastern longitude. Coordinates
# from memory; they leave out neighbours whose schools may have chosen the region's rules.
CANADA = ((41.6, 84.0, -141.1, -52.0),)
LIES_DEG: Mapping[Region, tuple[tuple[float, float, float, float], ...]] = {
    "ca-south": CANADA,
    "ca-north": CANADA,
    "us": ((30.0, 49.5, -125.0, -66.0), (26.0, 30.0, -100.0, -79.95), (24.3, 26.0, -82.0, -79.95),
           (51.0, 72.0, -180.0, -129.0), (18.5, 22.5, -160.5, -154.5), (17.6, 18.6, -67.5, -64.5)),
    "uk": ((49.8, 61.0, -8.7, 1.9),),
    "easa": ((37.6, 71.5, -10.7, 31.6), (36.0, 37.6, -9.6, -1.5), (34.6, 37.6, 12.2, 34.7), (63.0, 66.8, -24.7, -13.3),
             (36.8, 39.9, -31.4, -25.0), (27.5, 33.3, -18.3, -13.3)),
    "nz": ((-47.5, -34.0, 166.0, 179.0), (-44.5, -43.5, -177.5, -176.0)),
    "au": ((-44.0, -10.0, 113.0, 154.0),),
}  # fmt: skip
ABROAD: Mapping[Region, Region] = {"uk": "easa"}  # where the whole of a country has too little: a flight next door


def lies_in(region: Region, latitude_deg: float, longitude_deg: float) -> bool:
    """Whether a place may be said to lie in the region whose rules it goes by; a school elsewhere may use them too."""
    return any(
        south <= latitude_deg <= north and west <= longitude_deg <= east
        for south, north, west, east in LIES_DEG[region]
    )


def place_variation(region: Region, drawn_deg: int) -> tuple[Region, int]:
    """Return the region of a scene and its variation: the one drawn where the region has it, else one that it has."""
    region = ABROAD.get(region, region)
    west, east = SPAN_DEG[region]
    if west <= drawn_deg <= east:
        return region, drawn_deg
    sizes = range(LEAST_VARIATION_DEG, LARGEST_VARIATION_DEG + 1)
    there = [v for size in sizes for v in (-size, size) if west <= v <= east]
    return region, there[drawn_deg % len(there)]
