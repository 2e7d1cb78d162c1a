"""The angle kit: every other module does its trigonometry and its wrapping through this one.

Angles are degrees, clockwise positive. Wrapped headings lie in 0 <= h < 360, signed differences in (-180, 180].
Sines and cosines are exact at the right angles, and at 30 and 60 degrees where a half is due, so that a key such as
"25 kt at 30 degrees off" lands on 12.5 and not a hair below it.
"""

from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Decimal
from math import (
    asin,
    atan,
    atan2,
    copysign,
    cos,
    degrees,
    floor,
    fmod,
    hypot,
    inf,
    isfinite,
    radians,
    remainder,
    sin,
    sqrt,
)

from app.physics.errors import OutOfRange, Undefined, require

ROOT_HALF = sqrt(0.5)
NOISE_DIGITS = 9  # what differs only beyond the ninth decimal is arithmetic noise and must not decide a tie
NO_DIRECTION = 1e-9


def wrap360(deg: float) -> float:
    """Return the heading 0 <= h < 360 of any finite angle; never 360, never -0.0; idempotent.

    A negative angle too small to be told from north in floating point is north.
    """
    turned = fmod(_finite(deg), 360.0)
    if turned < 0.0:
        turned += 360.0
    return 0.0 if turned >= 360.0 else turned + 0.0


def signed(deg: float) -> float:
    """Return the same direction in (-180, 180], clockwise positive; a half turn is +180."""
    turned = remainder(_finite(deg), 360.0)
    return 180.0 if turned == -180.0 else turned + 0.0


def difference(a_deg: float, b_deg: float) -> float:
    """Return a - b the short way round, in (-180, 180]: positive when `a_deg` lies clockwise of `b_deg`."""
    return signed(a_deg - b_deg)


def sin_deg(deg: float) -> float:
    """Sine, exact at multiples of 90 degrees and at the halves."""
    return _sin_cos(deg)[0]


def cos_deg(deg: float) -> float:
    """Cosine, exact at multiples of 90 degrees and at the halves."""
    return _sin_cos(deg)[1]


def tan_deg(deg: float) -> float:
    """Tangent, exact at multiples of 45 degrees. Raises OutOfRange where it has no value."""
    sine, cosine = _sin_cos(deg)
    if cosine == 0.0:
        raise OutOfRange("angle_deg", deg, -90.0, 90.0, "there is no tangent at a right angle")
    return sine / cosine + 0.0


def asin_deg(ratio: float) -> float:
    """Angle in -90..90 whose sine is `ratio`. Raises OutOfRange outside -1..1."""
    require("ratio", ratio, -1.0, 1.0)
    return copysign(30.0, ratio) if abs(ratio) == 0.5 else degrees(asin(ratio))


def atan_deg(ratio: float) -> float:
    """Angle in -90..90 whose tangent is `ratio`."""
    return degrees(atan(ratio))


def atan2_deg(y: float, x: float) -> float:
    """Direction of (x, y) in (-180, 180], measured from x toward y. Raises Undefined for (0, 0)."""
    if x == 0.0 and y == 0.0:
        raise Undefined("a vector of no length has no direction")
    return degrees(atan2(y + 0.0, x))  # + 0.0 turns -0.0 into 0.0, which would give -180


def round_half_up(x: float, digits: int = 0) -> float:
    """Round to `digits` decimals, a half always away from zero: 2.5 is 3, -2.5 is -3 (the mirror of an angle).

    `digits` up to 9, negative for tens; |x| up to 1e15. Python's own round() takes halves to even. Noise beyond the
    ninth decimal is dropped first.
    """
    require("x", x, -1e15, 1e15)
    if digits == 0:  # most often: exact without decimals, since a half and what is over are exact in floating point
        size = abs(round(x, NOISE_DIGITS))
        down = floor(size)
        return copysign(down + (size - down >= 0.5), x) + 0.0
    step = Decimal(1).scaleb(-digits)
    exact = Decimal(repr(round(x, NOISE_DIGITS)))
    return float(exact.quantize(step, rounding=ROUND_HALF_UP)) + 0.0


def whole(x: float) -> int:
    """Round to a whole number, halves as `round_half_up`."""
    return int(round_half_up(x))


def shown(deg: float) -> int:
    """Heading as it is shown: a whole number 1..360, north is 360."""
    return whole(wrap360(deg)) % 360 or 360


def mean_direction(directions_deg: Sequence[float]) -> float:
    """Vector mean of directions, 0 <= mean < 360, right across north. Raises Undefined if they cancel or are none."""
    east = sum(sin_deg(deg) for deg in directions_deg)
    north = sum(cos_deg(deg) for deg in directions_deg)
    if hypot(east, north) <= NO_DIRECTION * len(directions_deg):
        raise Undefined("these directions have no mean")
    return wrap360(atan2_deg(east, north))


def middle_of_swing(low_deg: float, high_deg: float) -> float:
    """Heading half-way along a swing that runs clockwise from `low_deg` to `high_deg`."""
    return wrap360(low_deg + wrap360(high_deg - low_deg) / 2.0)


def unwrap(deg: float, near_deg: float) -> float:
    """Return the turn count of `deg` that lies nearest to `near_deg`: 2 near 359 is 362."""
    return near_deg + difference(deg, near_deg)


def _finite(deg: float) -> float:
    if isfinite(deg):
        return deg
    raise OutOfRange("angle_deg", deg, -inf, inf, "a finite number is needed")


def _sin_cos(deg: float) -> tuple[float, float]:
    """Sine and cosine by reduction to -45..45, which is exact in floating point."""
    turned = fmod(_finite(deg), 360.0)
    quarter = round(turned / 90.0)
    rest = turned - 90.0 * quarter
    size = abs(rest)
    if size == 45.0:
        sine, cosine = copysign(ROOT_HALF, rest), ROOT_HALF
    else:
        sine = copysign(0.5, rest) if size == 30.0 else sin(radians(rest))
        cosine = cos(radians(rest))
    turns = ((sine, cosine), (cosine, -sine), (-sine, -cosine), (-cosine, sine))
    sine, cosine = turns[quarter % 4]
    return sine + 0.0, cosine + 0.0
