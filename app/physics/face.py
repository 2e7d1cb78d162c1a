"""Where the numbers stand on a compass face, and which way the card seems to move.

A drum (float) card is seen from behind: larger headings stand to the left of the lubber line, and in a right turn the
card slides to the right past it. On a vertical card, and on a gyro, larger headings stand to the right. Labels stand
every 30 degrees. Source: FAA-H-8083-15B ch. 5 and FAA-H-8083-25C ch. 8, magnetic compass.
"""

from math import ceil, floor
from typing import Literal

from app.physics.angles import shown, whole, wrap360
from app.physics.turning import TurnSide

LABEL_EVERY_DEG = 30
LONG_MARK_EVERY_DEG = 10
SHORT_MARK_EVERY_DEG = 5

Face = Literal["drum", "vertical-card"]


def larger_numbers(face: Face) -> TurnSide:
    """Side of the lubber line on which larger headings stand."""
    return "left" if face == "drum" else "right"


def card_slides(face: Face, turn: TurnSide) -> TurnSide:
    """Side to which the numbers move past the lubber line in a turn."""
    if face == "drum":
        return turn
    return "left" if turn == "right" else "right"


def nearest_label_deg(heading_deg: float) -> int:
    """Label nearest to a heading, 30..360; half-way between two, the larger."""
    return shown(LABEL_EVERY_DEG * whole(wrap360(heading_deg) / LABEL_EVERY_DEG))


def next_label_deg(heading_deg: float, side: TurnSide, face: Face) -> int:
    """Label next seen on one side of the lubber line, 30..360; the label under the line is not counted."""
    position = wrap360(heading_deg) / LABEL_EVERY_DEG
    step = floor(position) + 1 if side == larger_numbers(face) else ceil(position) - 1
    return shown(LABEL_EVERY_DEG * step)


def mirrored_reading_deg(heading_deg: float) -> float:
    """Heading read when the marks are counted from the nearest label the wrong way, 0 <= h < 360."""
    return wrap360(2.0 * nearest_label_deg(heading_deg) - heading_deg)
