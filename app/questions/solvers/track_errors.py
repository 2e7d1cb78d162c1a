"""Track error, closing angle and the change of heading that puts it right, by one-in-sixty. Degrees, right positive."""

from collections.abc import Mapping
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import shown, whole
from app.physics.track import one_in_sixty_deg, track_correction
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution
from app.questions.solvers.registry import solver

SHORTEST_GONE_NM, LONGEST_GONE_NM, LONGEST_LEFT_NM = 10, 60, 80


@solver("track-error")
def track_error(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: 60 x off / gone + 60 x off / left towards the track, as a change of heading or as the new heading."""
    ask, off, side = parameters["ask"], parameters["off_nm"], parameters["side"]
    gone, left = 60 * off / parameters["opening_deg"], 60 * off / parameters["closing_deg"]
    if not (SHORTEST_GONE_NM <= gone <= LONGEST_GONE_NM and SHORTEST_GONE_NM <= left <= LONGEST_LEFT_NM):
        raise Redraw("the distances are not those of a leg")
    if gone % 1 or left % 1:
        raise Redraw("the distances are not whole miles")
    right = 1 if side == "right" else -1
    plan = track_correction(right * off, gone, left)
    error, closing, change = (
        whole(abs(each)) for each in (plan.track_error_deg, plan.closing_angle_deg, plan.heading_change_deg)
    )
    turns = _wrong_changes(error, closing, whole(one_in_sixty_deg(off, gone + left)))
    given = {"ask": ask, "off_nm": off, "gone_nm": whole(gone), "left_nm": whole(left), "side": side}
    start = parameters["heading_deg"]

    def answer(towards_deg: int) -> int:
        return -right * towards_deg if ask == "change" else shown(start - right * towards_deg)

    return Solution(
        key=answer(change),
        given=given if ask == "change" else {**given, "heading_deg": start},
        wrong={name: answer(turn) for name, turn in turns.items()},
        quantities={
            "error_deg": error, "closing_deg": closing, "change_deg": change, "whole_leg_nm": whole(gone + left),
            "turn": "left" if right > 0 else "right", "new_deg": shown(start - right * change),
        },
        verdict_figures=(
            FigureCall("track-sketch", {name: given[name] for name in ("gone_nm", "left_nm", "off_nm", "side")} | {
                "angles": True}),
        ),
        steps=("error", "closing", "change", *(() if ask == "change" else (f"heading-{side}",))),
        model_notes=("tangent",),
        features={"asks-heading": float(ask == "heading")},
    )  # fmt: skip


def _wrong_changes(error: int, closing: int, over_whole: int) -> dict[str, int]:
    """Degrees towards the track that each slip gives; away from it negative."""
    wrong = {
        "te-only": error,
        "ca-only": closing,
        "total-dist": over_whole,
        "side": -(error + closing),
        "te-twice-and-closing": 2 * error + closing,
        "closing-twice": error + 2 * closing,
        "all-twice": 2 * (error + closing),
    }
    if error - closing > 1 or closing - error > 1:
        wrong |= {"double-te": 2 * error, "takes-away": error - closing}
    return wrong
