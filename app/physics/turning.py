"""Turns: which way and how long, rate and bank, and the handbook's rules for rolling out by the compass.

Degrees, degrees a second, knots of true airspeed. `turn` is "left" or "right"; `hemisphere` is the sign of the dip,
never the map's. The roll-out rules are rules, not physics: a question that uses one prints it.

Sources: FAA-H-8083-15B ch. 7 (roll-out by latitude and normal lead, normal lead half the bank, bank 15 % of TAS);
FAA-H-8083-25C ch. 8 (even taper from S to W); a tenth of TAS plus 7 and the fixed allowance: common practice, no
source; exact bank, rate, radius and roll-out lead: mechanics of a level co-ordinated turn.
"""

from math import cos, log, pi, radians
from typing import Literal

from app.physics.angles import atan_deg, difference, tan_deg, wrap360
from app.physics.errors import require, require_positive
from app.physics.units import KNOT_MS, STANDARD_GRAVITY_MS2

TurnSide = Literal["left", "right"]
Hemisphere = Literal["north", "south", "none"]

RATE_ONE_DEG_S = 3.0
HALF_RATE_DEG_S = 1.5


def turn_sign(turn: TurnSide) -> int:
    """+1 for a right turn, -1 for a left one."""
    return 1 if turn == "right" else -1


def turn_side(angle_deg: float) -> TurnSide:
    """Side of a signed turn; a turn of nothing counts as right."""
    return "left" if angle_deg < 0.0 else "right"


def hemisphere_of_dip(dip_deg: float) -> Hemisphere:
    """Compass hemisphere: "north" where the dip is down, "south" where it is up, "none" where there is none."""
    if dip_deg == 0.0:
        return "none"
    return "north" if dip_deg > 0.0 else "south"


def shortest_turn_deg(from_deg: float, to_deg: float) -> float:
    """Signed shortest turn, right positive, in (-180, 180]; for 180 either way is right."""
    return difference(to_deg, from_deg)


def arc_deg(from_deg: float, to_deg: float, turn: TurnSide) -> float:
    """Degrees turned through from one heading to another by the given side, 0..360."""
    return wrap360(turn_sign(turn) * (to_deg - from_deg))


def turn_seconds(angle_deg: float, rate_deg_s: float) -> float:
    """Seconds for a turn through `angle_deg` (either sign) at `rate_deg_s` > 0."""
    return abs(angle_deg) / require_positive("rate_deg_s", rate_deg_s)


def heading_after(from_deg: float, turn: TurnSide, rate_deg_s: float, seconds: float) -> float:
    """Heading after turning for `seconds`, 0 <= h < 360."""
    return wrap360(from_deg + turn_sign(turn) * rate_deg_s * seconds)


def bank_for_rate_deg(tas_kt: float, rate_deg_s: float = RATE_ONE_DEG_S) -> float:
    """Bank of a level co-ordinated turn, exact: tan(bank) = V w / g."""
    return atan_deg(require_positive("tas_kt", tas_kt) * KNOT_MS * radians(rate_deg_s) / STANDARD_GRAVITY_MS2)


def rate_for_bank_deg_s(tas_kt: float, bank_deg: float) -> float:
    """Rate of a level co-ordinated turn, degrees a second, right positive, exact: w = g tan(bank) / V."""
    require("bank_deg", bank_deg, -89.0, 89.0)
    speed_ms = require_positive("tas_kt", tas_kt) * KNOT_MS
    return STANDARD_GRAVITY_MS2 * tan_deg(bank_deg) / speed_ms * 180.0 / pi


def bank_fifteen_percent_deg(tas_kt: float) -> float:
    """Bank for rate one by 15 % of TAS (a tenth and half of that tenth); within 0.4 degrees to 160 kt."""
    return tas_kt * 15.0 / 100.0


def bank_tenth_plus_seven_deg(tas_kt: float) -> float:
    """Bank for rate one by a tenth of TAS plus 7; within 0.8 degrees from 120 to 160 kt. Common practice."""
    return tas_kt / 10.0 + 7.0


def turn_radius_nm(tas_kt: float, rate_deg_s: float = RATE_ONE_DEG_S) -> float:
    """Radius of a turn, nautical miles: V / w."""
    return require_positive("tas_kt", tas_kt) / 3600.0 / radians(require_positive("rate_deg_s", rate_deg_s))


def calibrated_rate_deg_s(turned_deg: float, seconds: float = 10.0) -> float:
    """Rate measured with a clock: degrees turned over seconds > 0."""
    return turned_deg / require_positive("seconds", seconds)


def normal_lead_deg(bank_deg: float) -> float:
    """Roll-out lead by rule: half the bank (FAA-H-8083-15B)."""
    return abs(bank_deg) / 2.0


def roll_out_lead_deg(tas_kt: float, bank_deg: float, roll_rate_deg_s: float) -> float:
    """Turn still made while rolling out at a steady roll rate, degrees: g / (V p) (-ln cos bank), always positive."""
    require("bank_deg", bank_deg, -89.0, 89.0)
    speed_ms = require_positive("tas_kt", tas_kt) * KNOT_MS
    roll_rad_s = radians(require_positive("roll_rate_deg_s", roll_rate_deg_s))
    return STANDARD_GRAVITY_MS2 / (speed_ms * roll_rad_s) * -log(cos(radians(bank_deg))) * 180.0 / pi


def angle_from_north_or_south_deg(heading_deg: float) -> float:
    """Angle 0..90 from the nearer of north and south: the q of the taper rule."""
    from_north = abs(difference(heading_deg, 0.0))
    return min(from_north, 180.0 - from_north)


def taper(heading_deg: float, hemisphere: Hemisphere) -> float:
    """Share of the allowance by an even taper: 1 at the pole the compass dips to, 0 on east and west, -1 opposite."""
    if hemisphere == "none":
        return 0.0
    north_share = 1.0 - abs(difference(heading_deg, 0.0)) / 90.0
    return north_share if hemisphere == "north" else 0.0 - north_share


def reading_by_taper_deg(heading_deg: float, turn: TurnSide, hemisphere: Hemisphere, allowance_deg: float) -> float:
    """Return what the compass shows, by rule, when a turn passes `heading_deg`: behind in the half of the near pole."""
    behind = allowance_deg * taper(heading_deg, hemisphere)
    return wrap360(heading_deg - turn_sign(turn) * behind)


def rollout_tapered_deg(
    target_deg: float, turn: TurnSide, hemisphere: Hemisphere, allowance_deg: float, normal_lead_deg: float = 0.0
) -> float:
    """Compass reading at which to start the roll-out onto any heading: tapered allowance, then the normal lead.

    The lead always makes the roll-out start earlier. `allowance_deg` and `normal_lead_deg` are 0..90.
    """
    require("allowance_deg", allowance_deg, 0.0, 90.0)
    require("normal_lead_deg", normal_lead_deg, 0.0, 90.0)
    passing = reading_by_taper_deg(target_deg, turn, hemisphere, allowance_deg)
    return wrap360(passing - turn_sign(turn) * normal_lead_deg)


def rollout_by_latitude_deg(
    target_deg: float, turn: TurnSide, hemisphere: Hemisphere, latitude_deg: float, normal_lead_deg: float
) -> float:
    """Roll-out reading by the latitude rule: latitude + lead short of the near pole, latitude - lead past the far one.

    The size of `latitude_deg` counts, not its sign; other headings take the even taper.
    """
    return rollout_tapered_deg(target_deg, turn, hemisphere, abs(latitude_deg), normal_lead_deg)


def rollout_by_allowance_deg(target_deg: float, turn: TurnSide, hemisphere: Hemisphere, allowance_deg: float) -> float:
    """Roll-out reading by a fixed allowance that already holds the roll-out lead."""
    return rollout_tapered_deg(target_deg, turn, hemisphere, allowance_deg)
