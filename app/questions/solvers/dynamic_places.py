"""Real points of the earth with their field, under which invented fields of this topic stand."""

from dataclasses import dataclass

LEVEL_DIP_DEG = 3  # at 15 degrees of bank no more than 0.8 degree of error is left here


@dataclass(frozen=True, slots=True)
class Place:
    """Longitude, variation (east positive) and dip (down positive) in degrees, total field in nT."""

    longitude_deg: float
    variation_deg: int
    dip_deg: int
    total_nt: int


PLACES = {
    51.8: Place(-1.3, 1, 67, 49200),
    50.0: Place(8.6, 4, 66, 49200),
    49.3: Place(-123.1, 15, 70, 53300),
    45.3: Place(-75.7, -13, 69, 53200),
    44.6: Place(-63.6, -16, 66, 51000),
    40.4: Place(-3.7, 1, 55, 45100),
    39.7: Place(-105.0, 7, 66, 51000),
    35.7: Place(139.7, -8, 50, 46900),
    35.1: Place(-106.6, 8, 62, 48200),
    29.8: Place(-95.4, 2, 58, 46000),
    25.8: Place(-80.2, -7, 54, 42800),
    21.3: Place(-157.9, 9, 38, 34600),
    19.4: Place(-99.1, 4, 47, 39500),
    14.6: Place(121.0, -3, 18, 41200),
    10.5: Place(-66.9, -13, 31, 32000),
    9.0: Place(-79.5, -6, 34, 32700),
    6.9: Place(79.9, -2, 0, 41100),
    6.5: Place(3.4, -1, -14, 32800),
    5.6: Place(-0.2, -2, -16, 32400),
    4.7: Place(-74.1, -9, 26, 29900),
    1.4: Place(103.9, 0, -13, 42100),
    -0.1: Place(-78.4, -5, 20, 28200),
    -1.3: Place(36.9, 0, -22, 33500),
    -2.2: Place(-79.9, -4, 17, 27500),
    -3.8: Place(-73.3, -8, 12, 26300),
    -8.1: Place(-34.9, -21, -33, 26000),
    -9.4: Place(147.2, 6, -33, 42700),
    -12.0: Place(-77.0, -4, -2, 24400),
    -12.4: Place(130.9, 2, -39, 46100),
    -18.1: Place(178.4, 13, -40, 42400),
    -20.3: Place(118.6, 1, -52, 51700),
    -23.7: Place(133.9, 4, -55, 53100),
    -25.7: Place(28.2, -20, -62, 28300),
    -29.9: Place(31.0, -28, -62, 28500),
    -31.9: Place(116.0, -1, -66, 58500),
    -33.9: Place(18.4, -27, -65, 25000),
    -34.6: Place(-58.4, -10, -41, 22500),
    -41.3: Place(174.8, 23, -66, 55600),
    -43.5: Place(172.6, 25, -69, 57200),
    -51.6: Place(-69.2, 10, -49, 29400),
}
"""By latitude, north positive: World Magnetic Model at 2026.9, rounded; a test holds each to the model."""

PLACE_AT = {
    20: 21.3, 25: 25.8, 30: 29.8, 35: 35.1, 40: 39.7, 45: 44.6, 50: 50.0,
    -20: -20.3, -25: -23.7, -30: -29.9, -35: -33.9, -40: -41.3, -45: -43.5, -50: -51.6,
}  # fmt: skip
"""The place that stands for each latitude at which a rule is asked."""
