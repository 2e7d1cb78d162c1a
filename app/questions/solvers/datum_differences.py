"""Variation and deviation out of headings: V = T - M, D = M - C, and T - C holds both; east positive."""

from collections.abc import Mapping
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import shown, signed, whole
from app.physics.headings import compass_from, deviation_between, magnetic_from_true, variation_between
from app.questions.conventions import Conventions
from app.questions.model import Solution, Step, Wrong
from app.questions.solvers.datum_conversions import NAMES, variation_and_deviation
from app.questions.solvers.registry import solver


@solver("find-variation-deviation")
def find_variation_deviation(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key V = T - M or D = M - C, or either of them out of T - C = V + D; signed, whole degrees."""
    ask = parameters["ask"]
    v, d, at_home = variation_and_deviation(parameters, conventions, needs_variation=ask == "deviation-of-total")
    true = parameters["true_deg"]
    if parameters["across_north"]:  # north lies somewhere between the two norths' numbers
        arc = {"variation": v, "deviation": d}.get(ask, v + d)
        true = shown(whole(arc * true / 361) + (v if ask == "deviation" else 0))
    magnetic = shown(magnetic_from_true(true, v))
    compass = shown(compass_from(magnetic, d))
    row = {"T": true, "M": magnetic, "C": compass}
    rows = {"variation": "TM", "deviation": "MC"}.get(ask, "TC")
    split = {"variation-of-total": {"deviation_deg": d}, "deviation-of-total": {"variation_deg": v}}.get(ask, {})
    given = {**{NAMES[each]: row[each] for each in rows}, **split}
    key_path = [row[each] for each in ("TMC" if split else rows)]
    wrong = _wrong_totals(ask, row, v, d) if split else _wrong_differences(rows, row)
    return Solution(
        key=int(variation_between(true, magnetic) if "variation" in ask[:9] else deviation_between(magnetic, compass)),
        given={"ask": ask, **given},
        wrong=wrong,
        quantities={"total_deg": v + d, "variation_deg": v, "deviation_deg": d},
        steps=_difference_steps(ask, rows, row, v, d),
        verdict_figures=(
            FigureCall("ladder", {**given, "ask": ask, "key": key_path}),
            FigureCall("north-fan", {NAMES[each]: row[each] for each in ("TMC" if split else rows)}),
        ),
        scene="home" if at_home else "",
        features={"crosses-north": float(abs(row[rows[0]] - row[rows[1]]) > 180), "two-steps": float(bool(split))},
    )


def _wrong_differences(rows: str, row: Mapping[str, int]) -> dict[str, Wrong]:
    """Wrong values of a plain difference; the long way round north is no angle anyone could enter as an error."""
    raw = row[rows[0]] - row[rows[1]]
    found = {"letter": Wrong(-int(signed(raw)), figure=_turned(rows, row))}
    if abs(raw) > 180:
        found["long-way"] = Wrong(raw, option=False)
    return found


def _turned(rows: str, row: Mapping[str, int]) -> dict[str, Any]:
    upper, lower = row[rows[0]], row[rows[1]]
    return {"yours": [upper, shown(2 * upper - lower)], "first_wrong": f"{rows[0]}-{rows[1]}"}


def _wrong_totals(ask: str, row: Mapping[str, int], v: int, d: int) -> dict[str, Wrong]:
    """Wrong values where T - C holds variation and deviation together; each path is drawn with its own magnetic."""
    finds_v = ask == "variation-of-total"
    size, known = (v, d) if finds_v else (d, v)
    values = {"letter": -size, "lumps": v + d, "chain": size + 2 * known, "lumps-letter": -(v + d)}
    return {name: Wrong(value, figure=_total_path(row, value, finds_v=finds_v)) for name, value in values.items()}


def _total_path(row: Mapping[str, int], value: int, *, finds_v: bool) -> dict[str, Any]:
    middle = shown(row["T"] - value) if finds_v else shown(row["C"] + value)
    return {"yours": [row["T"], middle, row["C"]], "first_wrong": "T-M" if finds_v else "M-C"}


def _difference_steps(ask: str, rows: str, row: Mapping[str, int], v: int, d: int) -> tuple[Step | str, ...]:
    upper, lower = _unwrapped(row[rows[0]], row[rows[1]])
    through = "-through-north" if max(upper, lower) > 360 else ""
    kind = {"TM": "variation", "MC": "deviation", "TC": "total"}[rows]
    steps: list[Step | str] = [
        Step(f"{kind}-is{through}", {"upper": upper, "lower": lower, "left_over": upper - lower})
    ]
    if rows == "TC":
        steps.append("take-off-deviation" if ask == "variation-of-total" else "take-off-variation")
    key = v if ask.startswith("variation") else d
    steps.append(Step("letter-east" if key > 0 else "letter-west", {"found_deg": key}))
    return tuple(steps)


def _unwrapped(upper: int, lower: int) -> tuple[int, int]:
    """Return both numbers on one stretch across north: the small one counted on from 360."""
    if upper - lower > 180:
        return upper, lower + 360
    return (upper + 360, lower) if lower - upper > 180 else (upper, lower)
