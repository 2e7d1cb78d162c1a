"""Keys of the track families worked again from the printed numbers alone: one degree is a mile in sixty, plain sums."""

import math
from collections.abc import Callable
from typing import Any

Draw = dict[str, Any]


def circle(deg: float) -> int:
    return (math.floor(deg + 0.5) - 1) % 360 + 1


def track_error(draw: Draw) -> int:
    p = draw["parameters"]
    towards = p["off_nm"] / p["gone_nm"] * 60 + p["off_nm"] / p["left_nm"] * 60
    turn = round(towards) if p["side"] == "left" else -round(towards)
    return turn if p["ask"] == "change" else circle(p["heading_deg"] + turn)


RECOMPUTE: dict[str, Callable[[Draw], Any]] = {"track-error": track_error}
