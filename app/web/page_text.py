"""How templates write numbers, the result of a sum, and what a box takes."""

from datetime import datetime
from functools import cache
from itertools import starmap
from math import ceil

from flask import Flask
from flask_babel import gettext, lazy_gettext
from markupsafe import Markup, escape

from app.physics.angles import round_half_up
from app.questions.numbers import decimals, east_west, exact, north_south
from app.questions.wording import WordedItem, WordedPart
from app.services.own_library import question_of
from app.services.progress import Mark, Progress
from app.web.current import actor, language, library, now

# What a box takes, without an example: one might stand near the key.
TAKES: dict[str, object] = {
    "heading": lazy_gettext("Three digits, 001 to 360."),
    "number": lazy_gettext("A number."),
    "sided": lazy_gettext("The size as a number, then its side."),
    "arc-minutes": lazy_gettext("Degrees and minutes with a space between, then the side."),
    "clock": lazy_gettext("Four digits, 24-hour time."),
    "runway": lazy_gettext("A runway number, 1 to 36."),
}
GRADE_WORDS = {"easy": lazy_gettext("easy"), "medium": lazy_gettext("medium"), "hard": lazy_gettext("hard")}
# Directions from true or from magnetic north: their words take that colour.
COLOURED_UNITS = ("true", "magnetic")
# How a place of a drill is drawn in its column; the lubber line, which is thicker, is drawn by itself.
STROKES = {
    Mark.KEY: "M{x} 5v16",
    Mark.MISSED: "M{x} 14v7",
    Mark.ANSWERED: "M{x} 12m-2 0v9m4 -9v9",
    Mark.SET_ASIDE: "M{x} 14m-3 0h6",
    Mark.HERE: "",
    Mark.TO_COME: "M{x} 19v2",
}
LONGEST_LABEL, LONGEST_NUMBER = 2, 16
OTHER_DEGREES = ("unit-degrees", "unit-degrees-compass")


def add_text_filters(app: Flask) -> None:
    """Give templates their filters, and who reads the page and when."""
    filters = (
        *(result, variation, dip, angle_ew, angle_ns, whole, hint, unit_class, text_class, seconds_left, strokes),
        *(tongue, tongue_named, question_of, in_figures),
    )
    app.jinja_env.filters.update({each.__name__: each for each in filters})
    app.jinja_env.globals.update(actor=actor, now=now)


def result(arithmetic: str) -> Markup:
    """Set what stands after the last equals sign of a sum in bold."""
    working, equals, value = arithmetic.rpartition("= ")
    return Markup(f"{escape(working)}{equals}<b>{escape(value)}</b>")  # noqa: S704 - escaped as it is put together


def tongue(worded: WordedItem) -> Markup:
    """Return the attribute that marks the words of a question as of another language than the page's, if so."""
    return Markup(f' lang="{worded.language}"') if worded.untranslated else Markup()  # noqa: S704 - a known code


def tongue_named(worded: WordedItem) -> str:
    """Say in which one language a question is written, to whoever reads another."""
    if not worded.untranslated:
        return ""
    if worded.language == "en":
        return str(gettext("This question is written in English only."))
    return str(gettext("This question is written in French only."))


def strokes(progress: Progress) -> str:
    """Return the path that draws the places of a drill, a column of 16 each."""
    return "".join(starmap(_stroke, enumerate(progress.marks, 1)))


@cache  # places and marks are few
def _stroke(position: int, mark: Mark) -> str:
    return STROKES[mark].format(x=16 * position - 4)


def seconds_left(until: datetime) -> int:
    """Return the whole seconds that are left until a moment, begun ones counted."""
    return max(0, ceil((until - now()).total_seconds()))


def variation(value_deg: float) -> str:
    """Write a variation in whole degrees: 13° W."""
    return east_west(round_half_up(value_deg, 0), language())


def dip(value_deg: float) -> str:
    """Write a dip in whole degrees with the end of the needle it pulls down: 69° N."""
    return north_south(round_half_up(value_deg, 0), language())


def angle_ew(value_deg: float) -> str:
    """Write an angle with its decimals and E or W."""
    return east_west(value_deg, language())


def angle_ns(value_deg: float) -> str:
    """Write an angle with its decimals and N or S."""
    return north_south(value_deg, language())


def whole(value: float) -> str:
    """Write a number without decimals."""
    return decimals(value, 0, language())


def in_figures(value: float) -> str:
    """Write a number as short as it stands."""
    return exact(value, language())


def hint(box: WordedPart) -> str:
    """Say what a box takes and how near counts."""
    takes = str(TAKES.get(box.kind, ""))
    if not box.tolerance:
        return takes
    near = gettext("Within %(tolerance)s counts.", tolerance=box.tolerance + _unit_sign(box))
    return f"{takes} {near}".strip()


def unit_class(box: WordedPart) -> str:
    """Return the class that colours a unit."""
    for colour in COLOURED_UNITS:
        if box.unit == library().word(f"unit-degrees-{colour}", language()):
            return f"unit unit-{colour}"
    return "unit"


def text_class(text: str) -> str:
    """Return the class of an option: numbers and the letters of a compass card are set as on an instrument."""
    is_number = text[:1].isdigit() and len(text) <= LONGEST_NUMBER
    return "option-text number" if is_number or len(text) <= LONGEST_LABEL else "option-text"


def _unit_sign(box: WordedPart) -> str:
    """Return what stands behind a tolerance."""
    if box.kind == "arc-minutes":
        return "′"
    plain = {library().word(code, language()) for code in OTHER_DEGREES}
    if box.kind == "heading" or box.unit in plain or unit_class(box) != "unit":
        return "°"
    if box.kind == "clock":
        return "\u00a0min"
    return f"\u00a0{box.unit}" if box.unit else ""
