"""The card by plain vectors (north, east, down), written apart from app.physics to check its closed form.

n = (g - a) / |g - a|; f' = f - n (f . n), normalised; r' = n x f'; reading = atan2(-B . r', B . f').
"""

from math import atan2, cos, degrees, radians, sin, sqrt, tan

Vector = tuple[float, float, float]


def dot(a: Vector, b: Vector) -> float:
    return sum(x * y for x, y in zip(a, b, strict=True))


def cross(a: Vector, b: Vector) -> Vector:
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def scaled(a: Vector, factor: float) -> Vector:
    return a[0] * factor, a[1] * factor, a[2] * factor


def unit(a: Vector) -> Vector:
    return scaled(a, 1.0 / sqrt(dot(a, a)))


def added(a: Vector, b: Vector) -> Vector:
    return a[0] + b[0], a[1] + b[1], a[2] + b[2]


def apparent_vertical(heading_deg: float, bank_deg: float, forward_g: float, up_g: float = 0.0) -> Vector:
    h = radians(heading_deg)
    ahead, right = (cos(h), sin(h), 0.0), (-sin(h), cos(h), 0.0)
    sideways_g = (1.0 + up_g) * tan(radians(bank_deg))
    acceleration = added(added(scaled(ahead, forward_g), scaled(right, sideways_g)), (0.0, 0.0, -up_g))
    return unit(added((0.0, 0.0, 1.0), scaled(acceleration, -1.0)))


def lubber_line(heading_deg: float, down: Vector) -> Vector:
    """Direction of the lubber line in the card's plane."""
    ahead = (cos(radians(heading_deg)), sin(radians(heading_deg)), 0.0)
    return unit(added(ahead, scaled(down, -dot(ahead, down))))


def vector_reading_deg(
    heading_deg: float, dip_deg: float, bank_deg: float = 0.0, forward_g: float = 0.0, up_g: float = 0.0
) -> float:
    field = (cos(radians(dip_deg)), 0.0, sin(radians(dip_deg)))
    down = apparent_vertical(heading_deg, bank_deg, forward_g, up_g)
    ahead = lubber_line(heading_deg, down)
    return degrees(atan2(-dot(field, cross(down, ahead)), dot(field, ahead)))
