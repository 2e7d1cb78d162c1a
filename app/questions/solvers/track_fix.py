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

LEAST_TURN_DEG = 3  # a slip that turns a bearing by less cannot be told from it


@solver("position-line-fix")
def position_line_fix(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: the ring where the lines from A and B cross, each the reverse of its true bearing; or A's true bearing."""
    return ASKED[parameters["ask"]](parameters)


def _by_nose(parameters: Mapping[str, Any]) -> Solution:
    """Add heading and variation to relative bearings."""
    heading, variation = parameters["magnetic_deg"], parameters["variation_deg"]
    here, *landmarks = places_of(parameters)
    relatives = [shown(_azimuth(here, mark) - heading - variation) for mark in landmarks]
    lines = [shown(position_line_deg(bearing_from_relative(heading, r) + variation)) for r in relatives]
    turns = _nose_turns(heading, variation)
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
    variation = parameters["variation_deg"]
    entries, card, entry = _card(parameters)
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


def _bearing(parameters: Mapping[str, Any]) -> Solution:
    """Ask for the true bearing of A from its relative one."""
    heading, variation = parameters["magnetic_deg"], parameters["variation_deg"]
    here, mark, _ = places_of(parameters)
    relative = shown(_azimuth(here, mark) - heading - variation)
    key = shown(relative + heading + variation)
    return Solution(
        key=key,
        given={
            "ask": "bearing",
            "magnetic_deg": heading,
            "variation_deg": variation,
            "relative_bearing_a_deg": relative,
        },
        wrong={name: shown(key + turn) for name, turn in _nose_turns(heading, variation).items()},
        quantities={"true_heading_deg": shown(heading + variation), "bearing_a_deg": key},
        steps=("heading-east" if variation > 0 else "heading-west", "bearings-a"),
        features={"crosses-north": float(relative + heading + variation > 360), "by-compass": -1.0},
    )


def _bearing_by_compass(parameters: Mapping[str, Any]) -> Solution:
    """Ask for the true bearing of A from the one read on the compass."""
    entries, card, entry = _card(parameters)
    compass, d = entry["steer_deg"], difference(entry["for_deg"], entry["steer_deg"])
    variation = parameters["variation_deg"]
    here, mark, _ = places_of(parameters)
    read = shown(_azimuth(here, mark) - variation - d)
    key = shown(read + d + variation)
    turns = {name: each[0] for name, each in _compass_turns(card, [read, read], (compass, d, variation)).items()}
    return Solution(
        key=key,
        given={"ask": "bearing-by-compass", "compass_deg": compass, "variation_deg": variation, "card": entries,
               "compass_bearing_a_deg": read},
        wrong={name: shown(key + turn) for name, turn in turns.items() if abs(turn) >= LEAST_TURN_DEG},
        quantities={"deviation_deg": d, "bearing_a_deg": key},
        steps=(Step("card-heading", {"for_deg": entry["for_deg"]}), "compass-a"),
        figures=(FigureCall("correction-card", {"card": entries}),),
        features={"crosses-north": float(read + d + variation > 360), "by-compass": 1.0},
    )  # fmt: skip


def _card(parameters: Mapping[str, Any]) -> tuple[list[dict[str, int]], CorrectionCard, dict[str, int]]:
    """Return a correction card, as entries and as a card, and its entry for the aircraft's heading."""
    heading = parameters["magnetic_deg"]
    entries = bent_card(heading + parameters["shift_toward_deg"], parameters["deviation_deg"])
    nearest = min(entries, key=lambda each: abs(difference(each["for_deg"], heading)))
    return entries, card_row(entries, "one-row"), nearest


def _nose_turns(heading: int, variation: int) -> dict[str, int]:
    """Return by how much each slip turns a line from a relative bearing."""
    return {
        "no-variation": -variation,
        "variation-turned": -2 * variation,
        "no-heading": -(heading + variation),
        "no-heading-but-variation": -heading,
    }


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


ASKED = {"fix": _by_nose, "by-compass": _by_compass, "bearing": _bearing, "bearing-by-compass": _bearing_by_compass}


def _azimuth(here: Place, mark: Place) -> float:
    return atan2_deg(mark[0] - here[0], mark[1] - here[1])


def _lines_said(lines: list[int], chart: FixChart) -> dict[str, Any]:
    return {
        "line_a_deg": lines[0], "line_b_deg": lines[1], "key_label": chart.labels["fix"],
        "bearing_a_deg": shown(lines[0] + 180), "bearing_b_deg": shown(lines[1] + 180),
    }  # fmt: skip


def _drawing() -> tuple[str, ...]:
    return "turned-a", "turned-b", "crossed"
