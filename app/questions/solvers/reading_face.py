"""What stands under the lubber line and beside it: drums seen from behind, vertical cards seen from the front."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import difference, middle_of_swing, shown, signed
from app.physics.face import Face, larger_numbers, mirrored_reading_deg, nearest_label_deg, next_label_deg
from app.physics.turning import TurnSide
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution, Wrong
from app.questions.solvers.registry import solver

LEAST_OFF_DEG = 3  # nearer to a label, a mirrored count would still be marked right
LARGEST_OFF_DEG = 13  # farther, two labels look equally near
OTHER: dict[TurnSide, TurnSide] = {"left": "right", "right": "left"}


@solver("read-compass-face")
def read_compass_face(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: the reading itself, a whole number of degrees, which only the figure shows."""
    face, reading = parameters["face"], parameters["reading_deg"]
    label = nearest_label_deg(reading)
    off = int(difference(reading, label))
    if off and not LEAST_OFF_DEG <= abs(off) <= LARGEST_OFF_DEG:
        raise Redraw("too near to a label, or half-way between two")
    tens = label // 10 if label % 90 else 0
    far = shown(label + (30 if off > 0 else -30))
    return Solution(
        key=reading,
        given={"face": face, "reading_deg": reading},
        quantities={
            "label_deg": label, "off_deg": off, "label_tens": tens, "far_deg": far, "far_off_deg": 30 - abs(off),
            "label_side": larger_numbers(face) if off < 0 else OTHER[larger_numbers(face)],
        },
        wrong=_misread(face, reading, off, tens, far),
        steps=_count(face, label, off),
        figures=(FigureCall(face, {"face": face, "reading_deg": reading}),),
        verdict_figures=(
            FigureCall(face, {"face": face, "reading_deg": reading, "key_deg": reading, "yours_deg": None}),
        ),
        model_notes=("steady",),
        forms=() if off else ("typed",),
        features={"off-mark": float(reading % 5 != 0), "near-north": float(abs(signed(reading)) <= 25)},
    )  # fmt: skip


def _misread(face: str, reading: int, off: int, tens: int, far: int) -> dict[str, Any]:
    """Wrong readings; with a label right under the line there are no marks to count wrongly."""
    wrong: dict[str, Any] = {"next-label": shown(far + off)}
    if off:
        label = shown(reading - off)
        wrong |= {
            "mirror-count": shown(mirrored_reading_deg(reading)),
            "mirror-from-far": shown(2 * far - reading),
            "tick-as-10": shown(label + 2 * off),
            "label-only": label,
        }
    if tens and tens + off > 0:
        wrong["missing-zero"] = tens + off
    if face == "vertical-card":
        wrong["reciprocal"] = shown(reading + 180)
    return {name: Wrong(value) for name, value in wrong.items()}


def _count(face: Face, label: int, off: int) -> tuple[str, ...]:
    if not off:
        return ("on-number",) if label % 90 else ("on-letter",)
    return ("nearest", f"grows-{larger_numbers(face)}", "count-up" if off > 0 else "count-down")


@solver("card-neighbour")
def card_neighbour(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: the label next seen on one side, or which way to turn to bring it under the line."""
    ask, face, reading, side = (parameters[name] for name in ("ask", "face", "reading_deg", "side"))
    if 0 < abs(difference(reading, nearest_label_deg(reading))) < LEAST_OFF_DEG:
        raise Redraw("a label nearly under the line belongs to neither side")
    label = next_label_deg(reading, side, face)
    upward = side == larger_numbers(face)
    in_view = FigureCall(face, {"face": face, "reading_deg": reading})
    solution = Solution(
        key=_code(label),
        given={"ask": ask, "face": face, "reading_deg": reading, "side": side},
        quantities={"label": _code(label), "label_deg": label, "opposite": OTHER[side]},
        wrong=_wrong_labels(face, reading, side, label),
        steps=(f"grows-{larger_numbers(face)}", "next-up" if upward else "next-down"),
        figures=(in_view.with_parameters(hide_deg=label),) if ask == "hidden-label" else (),
        verdict_figures=(in_view,),
        features={"vertical-card": float(face == "vertical-card"), "near-north": float(abs(signed(reading)) <= 30)},
    )
    return _which_turn(solution, in_view, label, upward=upward) if ask == "turn" else solution


def _code(label_deg: float) -> str:
    return f"label-{shown(label_deg)}"


def _wrong_labels(face: Face, reading: int, side: TurnSide, label: int) -> dict[str, str]:
    """Return the neighbour on the other side, and for both sides the label after the next."""
    other = next_label_deg(reading, OTHER[side], face)
    outward = 30 if difference(label, reading) > 0 else -30
    return {
        "map-picture" if face == "drum" else "ignores-type": _code(other),
        "one-too-far": _code(label + outward),
        "wrong-side-too-far": _code(other - outward),
    }


def _which_turn(solution: Solution, in_view: FigureCall, label: int, *, upward: bool) -> Solution:
    """Ask for the turn instead: right brings larger numbers under the line on either face, wherever they stand."""
    key: TurnSide = "right" if upward else "left"
    slip = "ignores-type" if solution.given["side"] == key else "turn-toward-number"
    return replace(
        solution,
        key=key,
        given={**solution.given, "target_deg": label},
        options=("left", "right"),
        wrong={slip: OTHER[key]},
        steps=(*solution.steps, f"turn-{key}"),
        figures=(in_view,),
        verdict_figures=(),
    )


@solver("mean-of-swing")
def mean_of_swing(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: the middle of an even swing, counted clockwise from its low edge."""
    face, spread, low = parameters["face"], parameters["spread_deg"], parameters["low_deg"]
    if parameters["across_north"]:
        low = 359 - low % (spread - 1)
    high = shown(low + spread)
    straddles = high < low
    if straddles != parameters["across_north"]:
        raise Redraw("a set share of the swings passes north")
    key = shown(middle_of_swing(low, high))
    wrong = {"low-edge": low, "high-edge": high}
    if straddles:
        wrong["plain-mean"] = shown((low + high) / 2)
    in_view = {"face": face, "reading_deg": key, "low_deg": low, "high_deg": high}
    return Solution(
        key=key,
        given={"face": face, "low_deg": low, "high_deg": high},
        quantities={"spread_deg": spread, "half_deg": spread // 2, "counted_deg": low + spread, "middle_deg": key},
        wrong=wrong,
        steps=("width", "half", "middle"),
        verdict_figures=(FigureCall("drum", {**in_view, "key_deg": key}),) if face == "drum" else (),
        model_notes=("average",),
        features={"crosses-north": float(straddles), "wide": float(spread >= 20)},
    )
