"""Track error and closing angle judged by eye between lines drawn ten degrees either side of the track."""

from collections.abc import Mapping
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import whole
from app.physics.track import error_from_ten_degree_lines_deg
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution
from app.questions.solvers.registry import solver

LEAST_DEG = 2
FARTHEST_OUTSIDE = 1.5  # of the fan that is not asked about
LEAST_BETWEEN_FANS_DEG = 3


@solver("ten-degree-lines")
def ten_degree_lines(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: ten degrees times the share of the fan behind (error), ahead (closing), or both, towards the track."""
    ask, share, gone, left, side = (parameters[name] for name in ("ask", "fraction", "gone_nm", "left_nm", "side"))
    right = 1 if side == "right" else -1
    error = whole(error_from_ten_degree_lines_deg(share))
    ahead = share * gone / left
    closing = whole(error_from_ten_degree_lines_deg(ahead))
    if not closing >= LEAST_DEG or error < LEAST_DEG or ahead > (FARTHEST_OUTSIDE if ask == "error" else 1):
        raise Redraw("the position lies outside the fan that is needed")
    if abs(error - closing) < LEAST_BETWEEN_FANS_DEG:
        raise Redraw("both fans give nearly the same angle")
    if abs(10 * ahead - closing) > 0.4:
        raise Redraw("the share of the closing fan lies between two tenths")
    shown = {"gone_nm": gone, "left_nm": left, "fraction": share, "side": side}
    sketch = FigureCall("track-sketch", {**shown, "lines": True})
    values = _changes(error, closing) if ask == "change" else _angles(error, closing, ask)
    away = -right if ask == "change" else right
    return Solution(
        key=away * values.pop("key"),
        given={"ask": ask, **shown},
        wrong={name: away * value for name, value in values.items()},
        quantities={"tenths": whole(10 * share), "ahead_tenths": whole(10 * ahead), "error_deg": error,
                    "closing_deg": closing, "total_deg": error + closing},
        steps={"error": ("behind",), "closing": ("ahead",), "change": ("behind", "ahead", "both")}[ask],
        figures=(sketch,),
        verdict_figures=(sketch.with_parameters(angles=True),),
        features={"both-fans": float(ask == "change")},
    )  # fmt: skip


def _angles(error: int, closing: int, ask: str) -> dict[str, int]:
    """Return the key and each slip, in degrees to the side where the aircraft is."""
    key, other = (error, closing) if ask == "error" else (closing, error)
    wrong = {"key": key, "other-side": -key, "wrong-fan": other, "twenty": 2 * key, "other-fan-and-side": -other}
    inward = {"from-the-line": 10 - key} if key < 10 and abs(10 - 2 * key) > 2 else {}  # none has no side
    return wrong | inward | {"both-fans": error + closing}


def _changes(error: int, closing: int) -> dict[str, int]:
    """Return the key and each slip, in degrees towards the track."""
    total = error + closing
    return {
        "key": total, "other-side": -total, "error-alone": error, "closing-alone": closing,
        "twenty-each": 2 * total, "error-alone-away": -error,
    } | ({"takes-away": error - closing} if error > closing else {"takes-away": closing - error})  # fmt: skip
