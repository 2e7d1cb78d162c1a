"""Variation from a chart: between isogonals, along a leg, and brought up to date. East positive, degrees or minutes."""

from collections.abc import Mapping
from math import floor
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import round_half_up, whole
from app.physics.headings import isogonal_between_deg, variation_updated_deg
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution
from app.questions.solvers.registry import solver

LARGEST_ISOGONAL_DEG = 20
NM_PER_DEGREE = (30, 110)  # how far apart the isogonals of one degree lie, in most of the places where people fly
CLEAR_OF_ZERO_DEG = 0.3
CLEAR_OF_ZERO_MIN = 3
CLEAR_OF_TIE_MIN = 3


@solver("isogonal-read")
def isogonal_read(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: linear between two isogonals, with sign, to 0.1 degree; for a leg the value half-way."""
    return _mid_leg(parameters) if parameters["ask"] == "leg" else _between(parameters, conventions)


def _between(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    spacing, fraction = parameters["spacing_deg"], parameters["fraction"]
    at_home = parameters["at_home"] and abs(conventions.variation_deg) < LARGEST_ISOGONAL_DEG
    first = spacing * floor((conventions.variation_deg if at_home else parameters["isogonal_deg"]) / spacing)
    second = first + spacing
    if parameters["side"] == "west":
        first, second = second, first
    if max(abs(first), abs(second)) > LARGEST_ISOGONAL_DEG:
        raise Redraw("variation beyond what the family draws")
    if not NM_PER_DEGREE[0] <= parameters["distance_nm"] / spacing <= NM_PER_DEGREE[1]:
        raise Redraw("no chart has isogonals so near together, or so far apart")
    gone = whole(parameters["distance_nm"] * fraction)
    toward = 1 if second > first else -1
    key = _tenth(isogonal_between_deg(first, second, fraction))
    drawn = {"isogonal_deg": first, "next_isogonal_deg": second,
             "gone_nm": gone, "left_nm": parameters["distance_nm"] - gone}  # fmt: skip
    return Solution(
        key=key,
        given={"ask": "point", **drawn},
        figures=(FigureCall("isogonals", drawn),),
        wrong={
            "nearest": first if fraction < 0.5 else second,
            "wrong-line": _tenth(isogonal_between_deg(second, first, fraction)),
            "letter": -key,
            "away": _tenth(first - spacing * toward * fraction),
            "tenths": _tenth(first + toward * fraction),
        },
        quantities={"distance_nm": parameters["distance_nm"], "fraction": fraction, "spacing_deg": spacing * toward,
                    "part_deg": _tenth(spacing * toward * fraction), "found_deg": key},
        steps=("part", "change", "from-the-first", _letter(key)),
        scene="home" if at_home else "",
        features={"near-agonic": float(0 in {first, second})},
    )  # fmt: skip


def _mid_leg(parameters: Mapping[str, Any]) -> Solution:
    toward = 1 if parameters["side"] == "east" else -1
    change = parameters["next_isogonal_deg"]
    start = parameters["isogonal_deg"]
    if parameters["across_agonic"]:  # the zero line lies somewhere along the leg
        start = -toward * whole(change * parameters["fraction"])
    end = start + toward * change
    key = _tenth(isogonal_between_deg(start, end, 0.5))
    if abs(key) < CLEAR_OF_ZERO_DEG or max(abs(start), abs(end)) > LARGEST_ISOGONAL_DEG:
        raise Redraw("no letter at zero, or variation beyond what the family draws")
    wrong: dict[str, Any] = {"departure": start, "destination": end, "letter": -key, "half-change": (end - start) / 2}
    crosses, drawn = start * end < 0, {"isogonal_deg": start, "next_isogonal_deg": end}
    if crosses:
        wrong["sizes"] = (abs(start) + abs(end)) / 2 * (1 if start > 0 else -1)
    return Solution(
        key=key,
        given={"ask": "leg", **drawn},
        figures=(FigureCall("isogonals", drawn),),
        wrong=wrong,
        quantities={"found_deg": key, "sum_deg": start + end},
        steps=("half-way", _letter(key)),
        features={"near-agonic": float(crosses)},
    )


def _tenth(degrees: float) -> float:
    return round_half_up(degrees, 1)


def _letter(value: float) -> str:
    return "letter-east" if value > 0 else "letter-west"


@solver("variation-update")
def variation_update(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: printed variation plus yearly change times years, signed, in minutes; or to the nearest half degree."""
    ask, rate, year = parameters["ask"], parameters["annual_change_min"], parameters["year"]
    years = year - parameters["printed_year"]
    change = rate * years
    printed = parameters["printed_variation_min"]
    if parameters["across_agonic"]:  # the change carries it over zero
        printed = -whole(change * abs(printed) / 1320)
    now = whole(60 * variation_updated_deg(printed / 60, rate, years))
    if min(abs(now), abs(printed)) < CLEAR_OF_ZERO_MIN:
        raise Redraw("no letter at zero")
    wrong = {
        "change-turned": printed - change,
        "hundredths": whole(printed + 0.6 * change),
        "one-year": printed + rate,
        "not-updated": printed,
        "year-too-many": printed + change + rate,
    }
    to_half = ask == "half-degree"
    if to_half:  # where one year more or less does not show
        _require_clear_half(now, change)
        del wrong["year-too-many"]
    return Solution(
        key=_half_degree(now) if to_half else now,
        given={"ask": ask, "printed_variation_min": printed, "annual_change_min": rate,
               "printed_year": parameters["printed_year"], "year": year},
        wrong={name: _half_degree(value) if to_half else value for name, value in wrong.items()},
        quantities={"years": years, "change_min": change, "now_min": now, "next_year": year + 1,
                    "hundredths_deg": change / 100, "half_deg": _half_degree(now)},
        steps=("years", "change", *_sum_steps(printed, change, now), *(("to-the-half",) if to_half else ())),
        features={"crosses-zero": float(printed * now < 0), "opposite": float(printed * change < 0)},
    )  # fmt: skip


def _require_clear_half(now_min: int, change_min: int) -> None:
    tie = abs(now_min) % 30 - 15
    if abs(change_min) < 60 or abs(tie) < CLEAR_OF_TIE_MIN or abs(now_min) < 15 + CLEAR_OF_TIE_MIN:
        raise Redraw("the change is lost in the rounding, or the rounding too close a call")


def _half_degree(minutes: float) -> float:
    return round_half_up(minutes / 30) / 2


def _sum_steps(printed_min: int, change_min: int, now_min: int) -> tuple[str, ...]:
    """Return the lines of the signed sum: like letters add, unlike ones subtract, and the larger keeps its letter."""
    if printed_min * change_min > 0:
        return ("like-letters",)
    return ("unlike-letters",) if printed_min * now_min > 0 else ("through-zero",)
