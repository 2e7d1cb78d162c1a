"""What the compass card reads while the aircraft turns or changes speed, once the card has settled (quasi-static).

The card hangs square to the apparent vertical; its east-west axis lies along n x B, n the apparent vertical and B the
field. Turning error and speed-change error are this one effect, the dipping field acting on a tilted card. Sideways
the apparent vertical is tilted by the bank p of a co-ordinated turn, along the heading by q with
tan q = a cos p, a the forward acceleration in g. Turning the level components of B through p, then q, gives

    right = -sin h cos I cos p + sin I sin p
    ahead =  cos h cos I cos q + (sin I cos p + sin h cos I sin p) sin q
    reading = atan2(-right, ahead)

Degrees; headings clockwise, dip down positive, bank right positive, acceleration forward positive. "Behind" and
"ahead" are of the real heading, in the direction of the turn. Derived from the vectors; no source needed.
"""

from math import hypot, sqrt
from typing import Literal

from app.physics.angles import atan2_deg, cos_deg, difference, sin_deg, wrap360
from app.physics.errors import OutOfRange, Undefined, require

VANISHED = 1e-9  # share of the total field below which nothing turns the card
USABLE_MARGIN_DEG = 5.0  # the flag goes up this far below the critical bank
AGREES_WITHIN_DEG = 1.0  # at no dip up to 1 degree is left at 15 degrees of bank: the tilt's geometry, no error

TurnSense = Literal["behind", "ahead", "agrees"]
Swing = Literal["north", "south", "none"]
Pair = tuple[float, float]


def in_plane_field(
    heading_deg: float, dip_deg: float, bank_deg: float = 0.0, forward_g: float = 0.0, up_g: float = 0.0
) -> Pair:
    """Field in the card's plane as shares of the total field: (ahead along the lubber line, right of it).

    Raises OutOfRange for |dip| > 90 or |bank| >= 90, Undefined in free fall (up_g <= -1).
    """
    require("dip_deg", dip_deg, -90.0, 90.0)
    if not -90.0 < bank_deg < 90.0:
        raise OutOfRange("bank_deg", bank_deg, -90.0, 90.0, "no level turn is flown on edge")
    if not up_g > -1.0:
        raise Undefined("in free fall there is no apparent vertical to hang from")
    return tilted_field(
        (sin_deg(heading_deg), cos_deg(heading_deg)),
        (sin_deg(bank_deg), cos_deg(bank_deg)),
        (cos_deg(dip_deg), sin_deg(dip_deg)),
        forward_g / (1.0 + up_g),
    )


def tilted_field(heading: Pair, bank: Pair, field: Pair, forward_g: float) -> Pair:
    """Field ahead and right in the card's plane, from (sine, cosine) of heading and bank and the field (north, down).

    The one formula behind `in_plane_field` and the moving card, which calls it thousands of times.
    """
    sin_heading, cos_heading = heading
    sin_bank, cos_bank = bank
    north, down = field
    level_right = -north * sin_heading
    tilt = forward_g * cos_bank  # tangent of q
    ahead = north * cos_heading + tilt * (down * cos_bank - level_right * sin_bank)
    return ahead / sqrt(1.0 + tilt * tilt), level_right * cos_bank + down * sin_bank


def reading_deg(
    heading_deg: float, dip_deg: float, bank_deg: float = 0.0, forward_g: float = 0.0, up_g: float = 0.0
) -> float:
    """Settled reading, 0 <= r < 360, in a co-ordinated turn and a change of speed together.

    `up_g` is the vertical acceleration in g: alone it changes nothing. Raises Undefined where the field in the
    card's plane vanishes (east or west at the critical bank, a magnetic pole) and in free fall; ranges as
    `in_plane_field`.
    """
    ahead, right = in_plane_field(heading_deg, dip_deg, bank_deg, forward_g, up_g)
    if hypot(ahead, right) < VANISHED:
        raise Undefined("no field is left in the plane of the card: it points nowhere")
    return wrap360(atan2_deg(-right, ahead))


def turn_reading_deg(heading_deg: float, dip_deg: float, bank_deg: float) -> float:
    """Settled reading in a level co-ordinated turn: atan2(sin h cos p - tan I sin p, cos h)."""
    return reading_deg(heading_deg, dip_deg, bank_deg)


def speed_change_reading_deg(heading_deg: float, dip_deg: float, acceleration_g: float) -> float:
    """Settled reading, wings level, while the speed changes by `acceleration_g` (faster positive)."""
    return reading_deg(heading_deg, dip_deg, forward_g=acceleration_g)


def lag_deg(heading_deg: float, dip_deg: float, bank_deg: float) -> float:
    """How far the reading is behind the real heading in the direction of the turn; negative when it is ahead."""
    behind = difference(heading_deg, turn_reading_deg(heading_deg, dip_deg, bank_deg))
    return behind if bank_deg >= 0.0 else -behind


def turn_sense(heading_deg: float, dip_deg: float, bank_deg: float) -> TurnSense:
    """Say whether the reading is behind or ahead of the real heading as a turn passes `heading_deg`, or agrees.

    Means something only while the card is `usable`.
    """
    lag = lag_deg(heading_deg, dip_deg, bank_deg)
    if abs(lag) <= AGREES_WITHIN_DEG:
        return "agrees"
    return "behind" if lag > 0.0 else "ahead"


def speed_swing(heading_deg: float, dip_deg: float, acceleration_g: float) -> Swing:
    """Say toward which pole a change of speed swings the reading: lower numbers on east are toward north."""
    off = difference(speed_change_reading_deg(heading_deg, dip_deg, acceleration_g), heading_deg)
    toward_north = -off * sin_deg(heading_deg)
    if abs(off) <= AGREES_WITHIN_DEG or toward_north == 0.0:
        return "none"
    return "north" if toward_north > 0.0 else "south"


def critical_bank_deg(dip_deg: float) -> float:
    """Bank 90 - |dip| above which the card no longer follows the aircraft round a turn."""
    return 90.0 - abs(require("dip_deg", dip_deg, -90.0, 90.0))


def usable(bank_deg: float, dip_deg: float) -> bool:
    """Whether the card can be used in this turn: the bank is at least 5 degrees below the critical one."""
    return abs(bank_deg) <= critical_bank_deg(dip_deg) - USABLE_MARGIN_DEG
