"""Heads of the north arrows: a star is true, one barb is magnetic, two barbs are the compass's own."""

from collections.abc import Iterator

from app.figures.strokes import COMPASS, MAGNETIC, Pen, Point, around, fill, polygon, polyline, segment, stroke

BARB_WIDE, BARB_BACK = 7.0, 12.0
STAR_RADIUS, STAR_INNER = 9.0, 0.42


def star(at: Point, ink: str = "true") -> str:
    """Draw a five-pointed star, one point up."""
    points = [around(at, STAR_RADIUS * (STAR_INNER if turn % 2 else 1), 36 * turn) for turn in range(10)]
    return fill(polygon(points), ink)


def barb(tip: Point, azimuth_deg: float, pen: Pen, side: int) -> str:
    """Draw one barb of an arrow that points toward an azimuth; side -1 is left of it, +1 right."""
    back = around(tip, BARB_BACK, azimuth_deg + 180)
    return stroke(polyline([tip, around(back, BARB_WIDE, azimuth_deg + 90 * side)]), pen)


def magnetic_north(foot: Point, tip: Point, azimuth_deg: float) -> Iterator[str]:
    """Draw a dashed arrow with one barb."""
    yield stroke(segment(foot, tip), MAGNETIC)
    yield barb(tip, azimuth_deg, Pen("magnetic", 2.5), -1)


def compass_north(foot: Point, tip: Point, azimuth_deg: float) -> Iterator[str]:
    """Draw a dotted arrow with two barbs."""
    yield stroke(segment(foot, tip), COMPASS)
    yield from (barb(tip, azimuth_deg, Pen("ink", 2.5), side) for side in (-1, 1))
