"""Compass, heading indicator, turn needle and airspeed on one panel, each with what it does at the moment.

An arrow shows which way an instrument moves, two arrows that it swings to and fro, none that it stands still. The cause
is what the question asks: nothing here says it.
"""

from collections.abc import Callable, Iterator, Mapping

from app.figures.aeroplane import silhouette
from app.figures.figure import Figure, Values
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import need, one_of
from app.figures.strokes import (
    EDGE,
    FRAME,
    HEAVY,
    THIN,
    Lettering,
    Pen,
    Point,
    arc,
    around,
    centred,
    disc,
    fill,
    polygon,
    ring,
    rounded,
    segment,
    segments,
    sheet,
    stroke,
)
from app.figures.words import pick

SIZE = (320.0, 330.0)
PLACES: Mapping[str, Point] = {
    "compass_trend": (85, 82), "indicator_trend": (235, 82), "turn_trend": (85, 238), "asi_trend": (235, 238),
}  # fmt: skip
RADIUS, ARROW_AT, CAPTION_AT = 42.0, 54.0, 72.0
NAMES = {
    "compass_trend": ("Compass", "Compas"),
    "indicator_trend": ("Heading indicator", "Indicateur de cap"),
    "turn_trend": ("Turn needle", "Aiguille de virage"),
    "asi_trend": ("Airspeed", "Vitesse"),
}
# A code's last part -> what is written under the face.
SAID = {
    "steady": ("steady", "stable"),
    "rises": ("larger numbers", "vers plus grand"),
    "falls": ("smaller numbers", "vers plus petit"),
    "rocks": ("to and fro", "va et vient"),
    "steps-up": ("larger, then stays", "plus grand, fixe"),
    "steps-down": ("smaller, then stays", "plus petit, fixe"),
    "centred": ("centred", "centrée"),
    "left": ("to the left", "à gauche"),
    "right": ("to the right", "à droite"),
    "faster": ("rising", "augmente"),
    "slower": ("falling", "diminue"),
    "hidden": ("covered", "masquée"),
}
CODES = {
    "compass_trend": [f"compass-{each}" for each in ("steady", "rises", "falls", "rocks", "steps-up", "steps-down")],
    "indicator_trend": [f"indicator-{each}" for each in ("steady", "rises", "falls", "rocks")],
    "turn_trend": [f"needle-{each}" for each in ("centred", "left", "right", "rocks")],
    "asi_trend": [f"asi-{each}" for each in ("steady", "faster", "slower", "rocks", "hidden")],
}
# Which way numbers move past the index at the top of a face: right is clockwise.
COMPASS_WAY = {"rises": (1,), "steps-up": (1,), "falls": (-1,), "steps-down": (-1,), "rocks": (1, -1)}
INDICATOR_WAY = {"rises": (-1,), "falls": (1,), "rocks": (1, -1)}
ASI_WAY = {"faster": (1,), "slower": (-1,), "rocks": (1, -1)}
NEEDLE_DEG = {"centred": (0,), "left": (-20,), "right": (20,), "rocks": (-20, 20)}


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw the four faces in two rows."""
    parts: list[str] = []
    for name, at in PLACES.items():
        state = str(values[name]).split("-", 1)[1]
        parts += [centred((at[0], at[1] - CAPTION_AT), pick(language, *NAMES[name]), Lettering(15, bold=True))]
        parts += FACES[name](at, state)
        parts += [centred((at[0], at[1] + RADIUS + 18), pick(language, *SAID[state]), Lettering())]
    title = pick(language, "Four instruments", "Quatre instruments")
    description = _describe(values, language)
    return Drawing("instrument-strip", sheet("instrument-strip", SIZE, parts, title, description), title, description)


def _compass(at: Point, state: str) -> Iterator[str]:
    """Draw a drum behind its window: larger numbers stand on the left, so a rising reading moves marks right."""
    x, y = at
    yield stroke(rounded((x - RADIUS, y - 24), (2 * RADIUS, 48), 4), FRAME, "card")
    marks = range(-30, 31, 10)
    yield stroke(segments(((x + m, y + 22), (x + m, y + (4 if m % 30 == 0 else 12))) for m in marks), EDGE)
    yield stroke(segment((x, y - 24), (x, y + 24)), HEAVY)
    for way in COMPASS_WAY.get(state, ()):
        yield from _level_arrow((x, y - 34), way)
    if state.startswith("steps"):
        way = COMPASS_WAY[state][0]
        yield stroke(segment((x + way * 32, y - 42), (x + way * 32, y - 27)), HEAVY)


def _level_arrow(at: Point, way: int) -> Iterator[str]:
    """Draw an arrow to one side, from the middle outward."""
    x, y = at
    yield stroke(segment((x + 4 * way, y), (x + 20 * way, y)), FRAME)
    yield fill(polygon([(x + 30 * way, y), (x + 20 * way, y - 6), (x + 20 * way, y + 6)]), "ink")


def _indicator(at: Point, state: str) -> Iterator[str]:
    yield ring(at, RADIUS, FRAME, "card")
    ticks = range(0, 360, 30)
    yield stroke(segments((around(at, RADIUS - 2, a), around(at, RADIUS - 9, a)) for a in ticks), EDGE)
    yield silhouette(at, 0, 0.5, EDGE)
    for way in INDICATOR_WAY.get(state, ()):
        yield from _turning_arrow(at, way)


def _turning_arrow(at: Point, way: int) -> Iterator[str]:
    """Draw an arrow round the outside of a face, from its top to one side."""
    neck = way * 33
    yield stroke(arc(at, ARROW_AT - 4, way * 6, neck), FRAME)
    corners = (around(at, ARROW_AT - 4, way * 46), around(at, ARROW_AT + 3, neck), around(at, ARROW_AT - 11, neck))
    yield fill(polygon(corners), "ink")


def _needle(at: Point, state: str) -> Iterator[str]:
    yield ring(at, RADIUS, FRAME, "card")
    foot = at[0], at[1] + 26
    yield stroke(segments((around(foot, 52, a), around(foot, 60, a)) for a in (-20, 0, 20)), Pen("ink", 5))
    rocks = state == "rocks"
    for azimuth in NEEDLE_DEG[state]:
        yield stroke(segment(foot, around(foot, 46, azimuth)), THIN if rocks else Pen("ink", 4))
    yield disc(foot, 4)


def _airspeed(at: Point, state: str) -> Iterator[str]:
    yield ring(at, RADIUS, FRAME, "card")
    if state == "hidden":
        yield stroke(segments((around(at, RADIUS, a), around(at, RADIUS, 90 - a)) for a in range(60, 226, 15)), THIN)
        return
    ticks = range(30, 331, 30)
    yield stroke(segments((around(at, RADIUS - 2, a), around(at, RADIUS - 9, a)) for a in ticks), EDGE)
    yield stroke(segment(at, around(at, RADIUS - 12, 120)), Pen("ink", 4))
    yield disc(at, 4)
    for way in ASI_WAY.get(state, ()):
        yield from _turning_arrow(at, way)


FACES: Mapping[str, Callable[[Point, str], Iterator[str]]] = {
    "compass_trend": _compass, "indicator_trend": _indicator, "turn_trend": _needle, "asi_trend": _airspeed,
}  # fmt: skip


def _describe(values: Values, language: Language) -> str:
    said = []
    for name in PLACES:
        state = str(values[name]).split("-", 1)[1]
        colon = pick(language, ":", "\u00a0:")
        said.append(f"{pick(language, *NAMES[name])}{colon} {pick(language, *SAID[state])}.")
    return " ".join(said)


INSTRUMENT_STRIP = Figure("instrument-strip", {name: need(one_of(*codes)) for name, codes in CODES.items()}, draw)
