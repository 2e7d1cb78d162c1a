"""The aeroplane: a silhouette from above, and the same in three strokes for small places."""

from collections.abc import Iterator

from app.figures.strokes import Pen, Point, around, polygon, segment, stroke
from app.physics.angles import cos_deg, sin_deg

# Right half of the silhouette from nose to tail: right of and behind its middle.
OUTLINE = ((0, -44), (4, -37), (5, -14), (44, -2), (44, 8), (5, 6), (4, 29), (17, 36), (17, 43), (0, 40))


def silhouette(middle: Point, heading_deg: float, scale: float, pen: Pen) -> str:
    """Draw the outline of an aeroplane that flies toward an azimuth; scale 1 is 88 units long."""
    mirrored = [(-right, behind) for right, behind in reversed(OUTLINE[1:-1])]
    across, along = scale * cos_deg(heading_deg), scale * sin_deg(heading_deg)
    points = [
        (middle[0] + right * across - behind * along, middle[1] + right * along + behind * across)
        for right, behind in (*OUTLINE, *mirrored)
    ]
    return stroke(polygon(points), pen, "card")


def three_strokes(middle: Point, heading_deg: float) -> Iterator[str]:
    """Draw wing, tail and body of an aeroplane that flies toward an azimuth."""
    tail, pen = around(middle, 14, heading_deg + 180), Pen("ink", 2.5)
    for centre, half in ((middle, 13), (tail, 5)):
        yield stroke(segment(around(centre, half, heading_deg - 90), around(centre, half, heading_deg + 90)), pen)
    yield stroke(segment(tail, around(middle, 9, heading_deg)), pen)
