"""Small marks that stand in lines and tables: an estimate with its likely range, a tally, the progress of a drill.

Their numbers stand beside them on the page; the description holds the same in words.
"""

from collections.abc import Iterator
from typing import Any

from app.figures.figure import Figure, Values
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import Parameter, between, is_number, need
from app.figures.strokes import HEAVY, Pen, disc, rounded, segment, sheet, stroke
from app.figures.words import pick

ESTIMATE_SIZE = (96.0, 22.0)
HAIR_Y = 11.0
TALLY_PITCH, TALLY_HEIGHT, MOST_TALLIED = 7.0, 22.0, 100
PROGRESS_PITCH, PROGRESS_FOOT, PROGRESS_HEIGHT, MOST_QUESTIONS = 16.0, 22.0, 28.0, 100
PERCENT = between(0, 100, "per cent")
PLACES = ("right", "missed", "here", "to-come")


def draw_estimate(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw an estimate on a hairline: likely range as a bar, the aim below, the estimate a long mark."""
    title = pick(language, "Estimate", "Estimation")
    parts = [stroke(segment((4, HAIR_Y), (92, HAIR_Y)), Pen("line", 1))]
    aim = values["aim"]
    parts.append(stroke(segment((_x(aim), 14), (_x(aim), 21)), Pen("ink", 2)))
    if "estimate" in values:
        parts += _range(values["low"], values["high"], aim)
        parts.append(stroke(segment((_x(values["estimate"]), 3), (_x(values["estimate"]), 19)), HEAVY))
    description = _estimate_words(values, language)
    markup = sheet("estimate-mark fig-mark", ESTIMATE_SIZE, parts, title, description)
    return Drawing("estimate-mark", markup, title, description)


def _x(percent: float) -> float:
    return 4 + 0.88 * percent


def _range(low: float, high: float, aim: float) -> Iterator[str]:
    """Draw the likely range: heavy below the aim, thin when the aim is reached, outlined while it is not sure."""
    ends = (_x(low), HAIR_Y), (_x(high), HAIR_Y)
    if high < aim:
        yield stroke(segment(*ends), Pen("ink", 7))
    elif low >= aim:
        yield stroke(segment(*ends), Pen("ink", 2.5))
    else:
        yield stroke(rounded((_x(low), HAIR_Y - 3.5), (max(1.0, _x(high) - _x(low)), 7), 0.5), Pen("ink", 1.5), "paper")


def _estimate_words(values: Values, language: Language) -> str:
    aim = f"{values['aim']:g}"
    if "estimate" not in values:
        return pick(language, f"No answers yet; the aim is {aim} %.", f"Aucune réponse; l'objectif est {aim}\u00a0%.")
    low, high, at = (f"{values[name]:g}" for name in ("low", "high", "estimate"))
    return pick(
        language,
        f"Estimate {at} %, likely between {low} and {high} %; the aim is {aim} %.",
        f"Estimation {at}\u00a0%, probablement entre {low} et {high}\u00a0%; l'objectif est {aim}\u00a0%.",
    )


def _estimate_conflicts(values: Values) -> list[str]:
    names = [name for name in ("estimate", "low", "high") if name in values]
    if 0 < len(names) < 3:
        return ["estimate, low and high go together: give all three, or none while there are no answers"]
    if names and not values["low"] <= values["estimate"] <= values["high"]:
        return [f"estimate is {values['estimate']}: it must lie between low {values['low']} and high {values['high']}"]
    return []


def draw_tally(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw a tally: a long mark for each counted, a short one for each of the rest."""
    long, short = values["long"], values["short"]
    parts = []
    for at in range(long + short):
        x = 4 + TALLY_PITCH * at
        pen, top = (HEAVY, 2.0) if at < long else (Pen("line", 1.5), 13.0)
        parts.append(stroke(segment((x, top), (x, 20)), pen))
    title = pick(language, "Tally", "Pointage")
    description = pick(language, f"{long} of {long + short}", f"{long} sur {long + short}")
    size = (8 + TALLY_PITCH * max(0, long + short - 1), TALLY_HEIGHT)
    return Drawing("tally", sheet("tally fig-mark", size, parts, title, description), title, description)


def _tally_conflicts(values: Values) -> list[str]:
    total = values["long"] + values["short"]
    return [] if 0 < total <= MOST_TALLIED else [f"long and short sum to {total}: give 1 to {MOST_TALLIED}"]


def draw_progress(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw a drill's progress: long right, short missed, a dot to come, the line where one stands."""
    places = values["places"]
    parts = []
    for at, place in enumerate(places):
        x = 6 + PROGRESS_PITCH * at
        if place == "to-come":
            parts.append(disc((x, PROGRESS_FOOT - 1.5), 1.8))
            continue
        top, foot, width = {
            "right": (PROGRESS_FOOT - 16, PROGRESS_FOOT, 2.0),
            "missed": (PROGRESS_FOOT - 7, PROGRESS_FOOT, 2.0),
            "here": (2.0, 26.0, 3.0),
        }[place]
        parts.append(stroke(segment((x, top), (x, foot)), Pen("ink", width)))
    title, description = _progress_words(places, language)
    size = (12 + PROGRESS_PITCH * (len(places) - 1), PROGRESS_HEIGHT)
    return Drawing("progress", sheet("progress fig-mark", size, parts, title, description), title, description)


def _progress_words(places: list[str], language: Language) -> tuple[str, str]:
    right, missed, count = places.count("right"), places.count("missed"), len(places)
    here = places.index("here") + 1 if "here" in places else 0
    title = pick(language, "Progress", "Progression")
    if here:
        title = pick(language, f"Question {here} of {count}", f"Question {here} sur {count}")
    return title, pick(language, f"{right} right, {missed} missed.", f"{right} bonnes, {missed} manquées.")


def _are_places(value: Any) -> bool:
    if not isinstance(value, list | tuple) or not 1 <= len(value) <= MOST_QUESTIONS:
        return False
    return all(each in PLACES for each in value) and list(value).count("here") <= 1


COUNT = Parameter("a whole number from 0", lambda value: is_number(value) and value >= 0 and value == int(value))
WAY = Parameter(f"a list of {', '.join(PLACES)}, at most one here", _are_places)
ESTIMATE_MARK = Figure(
    "estimate-mark",
    {"aim": need(PERCENT), "estimate": PERCENT, "low": PERCENT, "high": PERCENT},
    draw_estimate,
    _estimate_conflicts,
)
TALLY = Figure("tally", {"long": need(COUNT), "short": need(COUNT)}, draw_tally, _tally_conflicts)
PROGRESS = Figure("progress", {"places": need(WAY)}, draw_progress)
