"""A circle of magnetic headings with the aeroplane on its heading, for turning and speed-change errors.

Before the answer it shows the heading and what the aeroplane does. With `show_errors` it adds what the compass does, by
the sign of the dip alone: which half of the circle reads behind in a turn, or toward which pole a reading swings.
"""

from collections.abc import Iterator

from app.figures.aeroplane import silhouette
from app.figures.faces import CARDINALS, label
from app.figures.figure import Figure, Values
from app.figures.heading_circle_words import describe, half_behind, swing_of, what_happens
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import FLAG, WHOLE_HEADING, need, one_of
from app.figures.strokes import (
    EDGE,
    HEAVY,
    Lettering,
    Pen,
    Point,
    arc,
    around,
    centred,
    disc,
    polyline,
    ring,
    rounded,
    segment,
    sheet,
    stroke,
    words,
)
from app.figures.words import pick
from app.physics.angles import signed
from app.physics.turning import turn_sign

WIDTH, HEIGHT, HEIGHT_ANSWERED = 320.0, 288.0, 322.0
CENTRE: Point = (160.0, 144.0)
RADIUS, HATCH = 104.0, 18.0
SWING_DEG = 42.0


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw the circle, the aeroplane and what it does; after the answer, what the compass does."""
    heading, answered = values["heading_deg"], values.get("show_errors", False)
    parts = [
        *(_hatched_half(values) if answered and "turn" in values else ()),
        *_circle(language),
        stroke(segment(around(CENTRE, 40, heading), around(CENTRE, RADIUS, heading)), EDGE),
        disc(around(CENTRE, RADIUS, heading), 5.5),
        silhouette(CENTRE, heading, 0.78, EDGE),
        *_action(values),
        *(_swing(heading, swing_of(values)) if answered and "speed_change" in values else ()),
        *(_legend(values, language) if answered else ()),
    ]
    title = pick(language, "Circle of magnetic headings", "Cercle des caps magnétiques")
    description = describe(values, language)
    height = HEIGHT_ANSWERED if answered else HEIGHT
    return Drawing(
        "heading-circle", sheet("heading-circle", (WIDTH, height), parts, title, description), title, description
    )


def _circle(language: Language) -> Iterator[str]:
    yield ring(CENTRE, RADIUS, Pen("magnetic", 2))
    for heading in range(15, 361, 15):
        long = heading % 45 == 0
        ends = around(CENTRE, RADIUS, heading), around(CENTRE, RADIUS - (12 if long else 7), heading)
        yield stroke(segment(*ends), Pen("magnetic", 2 if long else 1.5))
    for heading in CARDINALS:
        yield centred(
            around(CENTRE, RADIUS + 20, heading), label(heading, language), Lettering(20, "magnetic", bold=True)
        )


def _action(values: Values) -> Iterator[str]:
    """Show what the aeroplane does: a curved arrow for a turn, chevrons along its path for a change of speed."""
    heading = values["heading_deg"]
    if "turn" in values:
        end = heading + 38 * turn_sign(values["turn"])
        yield stroke(arc(CENTRE, 60, heading + 7 * turn_sign(values["turn"]), end), HEAVY)
        yield _arrow_head(around(CENTRE, 60, end), end + 90 * turn_sign(values["turn"]))
    change = values.get("speed_change", "steady")
    if change == "faster":
        yield from (_arrow_head(around(CENTRE, out, heading), heading) for out in (58, 68))
    if change == "slower":
        yield from (_arrow_head(around(CENTRE, out, heading + 180), heading + 180) for out in (52, 62))


def _arrow_head(tip: Point, toward_deg: float, size: float = 11) -> str:
    back = toward_deg + 180
    return stroke(polyline([around(tip, size, back - 38), tip, around(tip, size, back + 38)]), HEAVY)


def _hatched_half(values: Values) -> Iterator[str]:
    half = half_behind(values)
    if half == "none":
        return
    middle = 0 if half == "north" else 180
    for azimuth in range(middle - 87, middle + 88, 6):
        yield stroke(
            segment(around(CENTRE, RADIUS - HATCH, azimuth), around(CENTRE, RADIUS, azimuth)), Pen("line", 1.5)
        )
    yield stroke(arc(CENTRE, RADIUS - HATCH, middle - 90, middle + 90), Pen("line", 1.5))
    yield stroke(segment(around(CENTRE, RADIUS, 270), around(CENTRE, RADIUS, 90)), Pen("line", 1, "2 5"))


def _swing(heading_deg: float, toward: str) -> Iterator[str]:
    """Show the swing of the reading as an arrow along the circle from the heading toward the pole."""
    if toward == "none":
        return
    off = signed(heading_deg)
    pole = 0 if toward == "north" else (180 if off > 0 else -180)
    step = min(SWING_DEG, abs(pole - off) - 4)
    sign = 1 if pole > off else -1
    end = off + sign * step
    yield stroke(arc(CENTRE, RADIUS - 22, off + sign * 5, end), HEAVY)
    yield _arrow_head(around(CENTRE, RADIUS - 22, end), end + sign * 90)


def _legend(values: Values, language: Language) -> Iterator[str]:
    y = HEIGHT_ANSWERED - 18
    if "turn" not in values or half_behind(values) == "none":
        yield words((WIDTH / 2, y), what_happens(values, language), Lettering(15, bold=True))
        return
    behind, ahead = pick(language, "reads behind|reads ahead", "retarde|avance").split("|")
    for x, said, hatched in ((24, behind, True), (176, ahead, False)):
        yield stroke(rounded((x, y - 13), (28, 17), 2), Pen("line", 1.5))
        if hatched:
            yield from (
                stroke(segment((x + at, y - 13), (x + at, y + 4)), Pen("line", 1.5)) for at in (5.5, 11, 16.5, 22)
            )
        yield words((x + 36, y), said, Lettering(15, bold=True, anchor="start"))


def _conflicts(values: Values) -> list[str]:
    if "turn" in values and "speed_change" in values:
        return ["turn and speed_change are both given: show one at a time"]
    if values.get("show_errors", False) and ("hemisphere" not in values or not {"turn", "speed_change"} & set(values)):
        return ["show_errors needs hemisphere, and turn or speed_change"]
    return []


HEADING_CIRCLE = Figure(
    "heading-circle",
    {
        "heading_deg": need(WHOLE_HEADING),
        "hemisphere": one_of("north", "south", "none"),
        "speed_change": one_of("faster", "slower", "steady"),
        "turn": one_of("left", "right"),
        "show_errors": FLAG,
    },
    draw,
    _conflicts,
)
