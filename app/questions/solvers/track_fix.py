"""A fix from two landmarks: relative or compass bearings made true, turned round, drawn from each, crossed."""

from collections.abc import Mapping
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import atan2_deg, difference, shown
from app.physics.deviation import CorrectionCard, deviation_for_compass
from app.physics.track import bearing_from_relative, position_line_deg
from app.questions.conventions import Conventions
from app.questions.model import Solution, Step
from app.questions.solvers.fix_chart import FixChart, Place, chart_of, places_of
from app.questions.solvers.reading_card import card_row
from app.questions.solvers.registry import solver
from app.questions.solvers.wind_leg import bent_card


@solver("position-line-fix")
def position_line_fix(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: the ring where the lines from A and B cross, each the reverse of its true bearing."""
    return (_by_compass if parameters["ask"] == "by-compass" else _by_nose)(parameters)


def _by_nose(parameters: Mapping[str, Any]) -> Solution:
    """Add heading and variation to relative bearings."""
    heading, variation = parameters["magnetic_deg"], parameters["variation_deg"]
    here, *landmarks = places_of(parameters)
    relatives = [shown(_azimuth(here, mark) - heading - variation) for mark in landmarks]
    lines = [shown(position_line_deg(bearing_from_relative(heading, r) + variation)) for r in relatives]
    turns = {
        "no-variation": -variation,
        "variation-turned": -2 * variation,
        "no-heading": -(heading + variation),
        "no-heading-but-variation": -heading,
    }
    chart = chart_of(
        (landmarks[0], landmarks[1]), lines, {name: (t, t) for name, t in turns.items()}, parameters["shuffle"]
    )
    return Solution(
        key=chart.key,
        given={"ask": "fix", "magnetic_deg": heading, "variation_deg": variation,
               "relative_bearing_a_deg": relatives[0], "relative_bearing_b_deg": relatives[1],
               **chart.figure.parameters},
        wrong=chart.wrong,
        options=chart.options,
        quantities={"true_heading_deg": shown(heading + variation), **_lines_said(lines, chart)},
        steps=("heading-east" if variation > 0 else "heading-west", "bearings-a", "bearings-b", *_drawing()),
        figures=(chart.figure,),
        verdict_figures=(chart.verdict,),
        features={"crosses-north": float(max(relatives) + heading + variation > 360), "by-compass": -1.0},
    )  # fmt: skip


def _by_compass(parameters: Mapping[str, Any]) -> Solution:
    """Add the deviation on the aircraft's heading and variation to compass bearings."""
    variation, heading = parameters["variation_deg"], parameters["magnetic_deg"]
    entries = bent_card(heading + parameters["shift_toward_deg"], parameters["deviation_deg"])
    card = card_row(entries, "one-row")
    entry = min(entries, key=lambda each: abs(difference(each["for_deg"], heading)))
    compass, d = entry["steer_deg"], difference(entry["for_deg"], entry["steer_deg"])
    here, *landmarks = places_of(parameters)
    read = [shown(_azimuth(here, mark) - variation - d) for mark in landmarks]
    lines = [shown(position_line_deg(bearing + d + variation)) for bearing in read]
    chart = chart_of(
        (landmarks[0], landmarks[1]), lines, _compass_turns(card, read, (compass, d, variation)), parameters["shuffle"]
    )
    return Solution(
        key=chart.key,
        given={"ask": "by-compass", "compass_deg": compass, "variation_deg": variation, "card": entries,
               "compass_bearing_a_deg": read[0], "compass_bearing_b_deg": read[1], **chart.figure.parameters},
        wrong=chart.wrong,
        options=chart.options,
        quantities={"deviation_deg": d, **_lines_said(lines, chart)},
        steps=(Step("card-heading", {"for_deg": entry["for_deg"]}), "compass-a", "compass-b", *_drawing()),
        figures=(chart.figure, FigureCall("correction-card", {"card": entries})),
        verdict_figures=(chart.verdict,),
        features={"crosses-north": float(max(read) + d + variation > 360), "by-compass": 1.0},
    )  # fmt: skip


def _compass_turns(
    card: CorrectionCard, read: list[int], worked: tuple[int, float, int]
) -> dict[str, tuple[float, float]]:
    """Return by how much each slip turns the lines from A and B."""
    compass, d, variation = worked
    on_bearings = [deviation_for_compass(card, bearing) - d for bearing in read]
    both = {
        "deviation-turned": -2 * d,
        "no-deviation": -d,
        "both-turned": -2 * (d + variation),
        "variation-turned": -2 * variation,
        "no-variation": -variation,
        "as-read": -(d + variation),
        "heading-added": compass,
    }
    return {"deviation-of-bearing": (on_bearings[0], on_bearings[1]), **{name: (t, t) for name, t in both.items()}}


def _azimuth(here: Place, mark: Place) -> float:
    return atan2_deg(mark[0] - here[0], mark[1] - here[1])


def _lines_said(lines: list[int], chart: FixChart) -> dict[str, Any]:
    return {
        "line_a_deg": lines[0], "line_b_deg": lines[1], "key_label": chart.labels["fix"],
        "bearing_a_deg": shown(lines[0] + 180), "bearing_b_deg": shown(lines[1] + 180),
    }  # fmt: skip


def _drawing() -> tuple[str, ...]:
    return "turned-a", "turned-b", "crossed"
