"""Dials seen from the front, larger numbers to the right: the vertical-card compass and the heading indicator.

The card turns behind a fixed index and a fixed aeroplane; a heading L stands at azimuth L - reading.
"""

from collections.abc import Iterator

from app.figures.aeroplane import silhouette
from app.figures.answers import dial_answers
from app.figures.face_words import answer_words, labels_in_view, place_on_face
from app.figures.faces import is_cardinal, label, marks_near
from app.figures.figure import Figure, Values
from app.figures.instrument import corner_screws, square_case
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import ANY_HEADING, FLAG, LABEL, WHOLE_HEADING, need, one_of
from app.figures.strokes import (
    EDGE,
    FRAME,
    Lettering,
    Pen,
    Point,
    around,
    fill,
    number,
    polygon,
    ring,
    rounded,
    segment,
    segments,
    sheet,
    stroke,
    words,
)
from app.figures.words import pick
from app.physics.angles import shown

SIZE = (320.0, 320.0)
CENTRE = (160.0, 164.0)
GLASS, TICKS, NUMBERS = 132.0, 127.0, 96.0
TEN, FIVE = 17.0, 10.0
KNOB = (38.0, 282.0)


def draw_vertical_card(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw a vertical-card compass."""
    title = pick(language, "Vertical-card compass", "Compas à rose verticale")
    return _draw("vertical-card", values["reading_deg"], values, language, title)


def draw_heading_indicator(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw a heading indicator, with its setting knob when asked."""
    title = pick(language, "Heading indicator", "Indicateur de cap")
    return _draw("heading-indicator", values["indicator_deg"], values, language, title)


def _draw(name: str, reading_deg: float, values: Values, language: Language, title: str) -> Drawing:
    hidden, knob = values.get("hide_deg"), values.get("knob", False)
    parts = [
        *square_case(SIZE),
        ring(CENTRE, GLASS, FRAME, "card"),
        *_marks(reading_deg),
        *_numbers(reading_deg, hidden, language),
        *_case_marks(),
        silhouette(CENTRE, 0, 1, EDGE),
        fill(polygon([(153, 25), (167, 25), (160, CENTRE[1] - TICKS)]), "ink"),
        *corner_screws(SIZE, knob=knob),
        *(_knob() if knob else ()),
        *dial_answers(CENTRE, reading_deg, values.get("key_deg"), values.get("yours_deg")),
    ]
    description = _describe(reading_deg, values, language)
    return Drawing(name, sheet(name, SIZE, parts, title, description), title, description)


def _marks(reading_deg: float) -> Iterator[str]:
    azimuths = list(marks_near(reading_deg, 180, 5))
    for long, length, pen in ((True, TEN, Pen("ink", 2.5)), (False, FIVE, EDGE)):
        chosen = (azimuth for heading, azimuth in azimuths if (heading % 10 == 0) == long)
        yield stroke(segments((around(CENTRE, TICKS, a), around(CENTRE, TICKS - length, a)) for a in chosen), pen)


def _numbers(reading_deg: float, hidden_deg: float | None, language: Language) -> Iterator[str]:
    for heading, azimuth in marks_near(reading_deg, 180, 30):
        x, y = around(CENTRE, NUMBERS, azimuth)
        style = Lettering(25, bold=True) if is_cardinal(heading) else Lettering(21)
        turned = (
            f"translate({number(x)} {number(y)}) rotate({number(azimuth)}) translate(0 {number(0.36 * style.size)})"
        )
        if hidden_deg is not None and shown(hidden_deg) == shown(heading):
            yield _empty_box((x, y))
        else:
            yield words((x, y), label(heading, language), style, turned)


def _empty_box(at: Point) -> str:
    return stroke(rounded((at[0] - 15, at[1] - 13), (30, 26), 2), Pen("ink", 1.5, "4 3"), "tint")


def _case_marks() -> Iterator[str]:
    for azimuth in range(45, 360, 45):
        yield stroke(segment(around(CENTRE, GLASS + 3, azimuth), around(CENTRE, GLASS + 11, azimuth)), FRAME)


def _knob() -> Iterator[str]:
    yield ring(KNOB, 22, FRAME, "tint")
    for azimuth in range(0, 360, 30):
        yield stroke(segment(around(KNOB, 16, azimuth), around(KNOB, 22, azimuth)), Pen("ink", 1.5))
    yield ring(KNOB, 14, Pen("ink", 1.5), "card")


def _describe(reading_deg: float, values: Values, language: Language) -> str:
    hidden = values.get("hide_deg")
    seen = [heading for heading, _ in sorted(marks_near(reading_deg, 75, 30), key=lambda mark: mark[1])]
    line = pick(language, "The index at the top", "La ligne de foi, en haut,")
    said = [
        pick(language, "Round the top half of the card.", "Moitié supérieure de la rose."),
        labels_in_view(seen, hidden, language),
        place_on_face(reading_deg, "right", language, line, hidden),
        answer_words(values.get("key_deg"), values.get("yours_deg"), language),
    ]
    return " ".join(filter(None, said))


VERTICAL_CARD = Figure(
    "vertical-card",
    {
        "face": one_of("vertical-card"),
        "reading_deg": need(WHOLE_HEADING),
        "hide_deg": LABEL,
        "key_deg": ANY_HEADING,
        "yours_deg": ANY_HEADING,
    },
    draw_vertical_card,
)
HEADING_INDICATOR = Figure(
    "heading-indicator",
    {"indicator_deg": need(WHOLE_HEADING), "knob": FLAG, "key_deg": ANY_HEADING, "yours_deg": ANY_HEADING},
    draw_heading_indicator,
)
