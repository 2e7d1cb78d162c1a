"""Drum compass: a float card seen from behind, so larger numbers stand to the LEFT of the lubber line.

A heading L stands at x = xc - R sin d, d = L - reading; the eye is a little above, so the ring sags in the middle.
"""

from collections.abc import Iterator

from app.figures.answers import Marked, answer_row
from app.figures.face_words import answer_words, labels_in_view, place_on_face
from app.figures.faces import is_cardinal, label, marks_near
from app.figures.figure import Figure, Values
from app.figures.instrument import case_screws, window_case
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import ANY_HEADING, FLAG, LABEL, WHOLE_HEADING, need, one_of
from app.figures.strokes import (
    EDGE,
    EVENT_DASH,
    HEAVY,
    Lettering,
    Pen,
    Point,
    fill,
    number,
    polygon,
    rounded,
    segment,
    sheet,
    spot,
    stroke,
    words,
)
from app.figures.words import pick
from app.physics.angles import cos_deg, difference, shown, sin_deg

XC, RADIUS = 160.0, 156.0
LEFT, TOP, RIGHT, BOTTOM = 42.0, 44.0, 278.0, 172.0
SEEN_DEG, DRAWN_DEG = 49.2, 58.0  # the window's half width in degrees; beyond it marks still lie behind the case
SAG = 15.6
NUMBER_Y, FOOT_Y = 100.0, 152.0
GAP_TOP, GAP_BOTTOM, GAP_WITHIN_DEG = 68.0, 112.0, 8.5  # the line is broken where a number stands under it
HEIGHT, HEIGHT_WITH_SCREWS = 212.0, 244.0


def place(off_deg: float) -> float:
    """Return x of a heading that lies `off_deg` clockwise of the reading."""
    return XC - RADIUS * sin_deg(off_deg)


def lift(off_deg: float) -> float:
    """Return how much higher than the middle of the ring a heading stands (negative is up)."""
    return -SAG * (1 - cos_deg(off_deg))


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw the window with the card behind it, then the case over the card's ends."""
    reading, hidden = values["reading_deg"], values.get("hide_deg")
    screws = values.get("screws", False)
    height = HEIGHT_WITH_SCREWS if screws else HEIGHT
    marked = _marked(values, reading)
    parts = [
        fill(rounded((LEFT, TOP), (RIGHT - LEFT, BOTTOM - TOP), 4), "card"),
        *_rims(),
        *_marks(reading),
        *_numbers(reading, hidden, language),
        *_swing_edges(marked),
        *_lubber_line(reading),
        *window_case((320, height), (LEFT, TOP), (RIGHT - LEFT, BOTTOM - TOP)),
        fill(polygon([(153, 33), (167, 33), (160, 44)]), "ink"),
        *(case_screws(height - 30, language) if screws else ()),
        *answer_row(marked, BOTTOM + 6),
    ]
    title = pick(language, "Drum compass", "Compas à tambour")
    description = _describe(values, language)
    return Drawing("drum", sheet("drum", (320, height), parts, title, description), title, description)


def _rims() -> Iterator[str]:
    rise = SAG * (1 - cos_deg(SEEN_DEG))
    for y in (62, 160):
        yield stroke(f"M{spot((LEFT, y - rise))}Q{spot((XC, y + rise))} {spot((RIGHT, y - rise))}", EDGE)


def _marks(reading_deg: float) -> Iterator[str]:
    for heading, off in marks_near(reading_deg, DRAWN_DEG, 5):
        long = heading % 10 == 0
        x, foot = place(off), FOOT_Y + lift(off)
        pen = Pen("ink", (3 if long else 2) * max(0.55, cos_deg(off)))
        yield stroke(segment((x, foot - (30 if long else 17)), (x, foot)), pen)


def _numbers(reading_deg: float, hidden_deg: float | None, language: Language) -> Iterator[str]:
    for heading, off in marks_near(reading_deg, DRAWN_DEG, 30):
        at, narrow = (place(off), NUMBER_Y + lift(off)), cos_deg(off)
        if hidden_deg is not None and shown(hidden_deg) == shown(heading):
            yield _empty_box(at, narrow)
            continue
        style = Lettering(34, bold=True) if is_cardinal(heading) else Lettering(28)
        where = f"translate({number(at[0])} {number(at[1])}) scale({narrow:.3f} 1)"
        yield words(at, label(heading, language), style, where)


def _empty_box(at: Point, narrow: float) -> str:
    width, height = 40 * narrow, 32.0
    return stroke(rounded((at[0] - width / 2, at[1] - 27), (width, height), 2), Pen("ink", 1.5, "4 3"), "tint")


def _lubber_line(reading_deg: float) -> Iterator[str]:
    near = any(abs(off) <= GAP_WITHIN_DEG for _, off in marks_near(reading_deg, DRAWN_DEG, 30))
    pieces = ((TOP, GAP_TOP), (GAP_BOTTOM, BOTTOM)) if near else ((TOP, BOTTOM),)
    for pen in (Pen("card", 8), HEAVY):
        yield from (stroke(segment((XC, top), (XC, bottom)), pen) for top, bottom in pieces)


def _swing_edges(marked: Marked) -> Iterator[str]:
    for x in marked.swing or ():
        yield stroke(segment((x, FOOT_Y), (x, BOTTOM)), Pen("ink", 2, EVENT_DASH))


def _marked(values: Values, reading_deg: float) -> Marked:
    """Return where key, answer and swing stand under the window; what lies behind the case is left out."""

    def under(name: str) -> Point | None:
        off = difference(values[name], reading_deg) if name in values else 180.0
        return (place(off), values[name]) if abs(off) <= SEEN_DEG else None

    low, high = under("low_deg"), under("high_deg")
    return Marked(under("key_deg"), under("yours_deg"), (high[0], low[0]) if low and high else None)


def _describe(values: Values, language: Language) -> str:
    reading, hidden = values["reading_deg"], values.get("hide_deg")
    seen = [heading for heading, _ in sorted(marks_near(reading, 46, 30), key=lambda mark: -mark[1])]
    line = pick(language, "The lubber line", "La ligne de foi")
    said = [labels_in_view(seen, hidden, language), place_on_face(reading, "left", language, line, hidden)]
    if "low_deg" in values:
        ends = (
            pick(language, "One end of the swing", "Une extrémité de l'oscillation"),
            pick(language, "The other end", "L'autre extrémité"),
        )
        pairs = zip(ends, (values["high_deg"], values["low_deg"]), strict=True)
        said += [place_on_face(edge, "left", language, end) for end, edge in pairs]
    said.append(answer_words(values.get("key_deg"), values.get("yours_deg"), language))
    return " ".join(filter(None, said))


def _conflicts(values: Values) -> list[str]:
    if ("low_deg" in values) != ("high_deg" in values):
        return ["low_deg and high_deg go together: give both ends of the swing"]
    ends = [name for name in ("low_deg", "high_deg") if name in values]
    return [
        f"{name} is {values[name]}: the window shows it only within 45 of reading_deg"
        for name in ends
        if abs(difference(values[name], values["reading_deg"])) > 45
    ]


DRUM = Figure(
    "drum",
    {
        "face": one_of("drum"),
        "reading_deg": need(WHOLE_HEADING),
        "hide_deg": LABEL,
        "screws": FLAG,
        "low_deg": WHOLE_HEADING,
        "high_deg": WHOLE_HEADING,
        "key_deg": ANY_HEADING,
        "yours_deg": ANY_HEADING,
    },
    draw,
    _conflicts,
)
