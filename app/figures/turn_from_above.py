"""A turn seen from above: a ring of real magnetic headings, a ring of readings, and thin lines that join the two.

Before the answer the ring of readings carries its own numbers and nothing joins the rings; afterwards each line joins
a real heading to what the card model reads there.
"""

from collections.abc import Iterator
from itertools import chain

from app.figures.aeroplane import three_strokes
from app.figures.answers import HALF_WIDTH, HEIGHT, RADIUS
from app.figures.banked import not_followed
from app.figures.faces import three_digits
from app.figures.figure import Figure, Values
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import ANY_HEADING, FLAG, WHOLE_HEADING, between, need, one_of
from app.figures.strokes import (
    EDGE,
    MAGNETIC,
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
    polyline,
    ring,
    segment,
    segments,
    sheet,
    stroke,
    words,
)
from app.figures.turn_layout import (
    AEROPLANE_BACK,
    ANSWER_OUT,
    BEYOND_DEG,
    NUMBER_OUT,
    WIDTH,
    Layout,
    Turn,
    fit,
    north_arrow,
    spaced,
)
from app.figures.turn_words import Pairs, caption, describe
from app.figures.words import pick
from app.physics.angles import shown
from app.physics.card import turn_reading_deg, usable
from app.physics.turning import turn_sign

TIE_EVERY_DEG = 30
NUMBER_LEAST_APART_DEG = 12
ANSWER_TURNED_DEG = 8.0
FARTHEST_ANSWER_DEG = 75  # an answer farther past the target is told in words only


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw the turn, with ties to the model's readings where `show_readings` is set."""
    turn = Turn(values["start_deg"], values["target_deg"], values["turn"])
    ties = _ties(turn, values) if values.get("show_readings", False) else []
    marks = _marks(turn, values)
    held = tuple(marks.values())
    span = _span(turn, ties, held)
    layout = fit(turn, *span, held)
    parts = [
        *_outer_ring(layout),
        *_inner_ring(layout, *span),
        *(_tie_lines(layout, ties) if ties else _inner_numbers(layout)),
        *_answers(layout, values, marks),
        *_aeroplane(layout),
        *_north(north_arrow(layout, span, held)),
    ]
    title = pick(language, "The turn seen from above", "Le virage vu du dessus")
    description = describe(turn, ties, values, language)
    markup = sheet("turn-from-above", (WIDTH, layout.height), parts, title, description)
    return Drawing("turn-from-above", markup, title, description, caption(language, ties=bool(ties)))


def _ties(turn: Turn, values: Values) -> Pairs:
    """Return progress of real headings, each 30 degrees and at both ends, with the progress of their readings."""
    bank = turn_sign(turn.side) * abs(values["bank_deg"])
    inside = turn.multiples(TIE_EVERY_DEG, NUMBER_LEAST_APART_DEG, turn.sweep_deg - NUMBER_LEAST_APART_DEG)
    return [
        (progress, turn.reading_progress(turn.heading(progress), reading))
        for progress in (0.0, *inside, turn.sweep_deg)
        for reading in [turn_reading_deg(turn.heading(progress), values["dip_deg"], bank)]
    ]


def _marks(turn: Turn, values: Values) -> dict[str, float]:
    """Return the progress of key and answer where they stand on the ring."""
    places = {name: turn.progress(values[name]) for name in ("key_deg", "yours_deg") if name in values}
    return {name: at for name, at in places.items() if at <= turn.sweep_deg + FARTHEST_ANSWER_DEG}


def _span(turn: Turn, ties: Pairs, marks: tuple[float, ...]) -> tuple[float, float]:
    last = turn.sweep_deg if ties else turn.sweep_deg + BEYOND_DEG
    held = [0.0, last, *marks, *(reading for _, reading in ties)]
    return max(min(held), last - 340.0), min(max(held), 340.0)


def _outer_ring(layout: Layout) -> Iterator[str]:
    turn, sweep = layout.turn, layout.turn.sweep_deg
    yield stroke(arc(layout.centre, layout.outer, turn.azimuth(0), turn.azimuth(sweep)), MAGNETIC)
    marks = [(p, _mark_length(turn, p)) for p in turn.multiples(5, 0, sweep)]
    yield stroke(segments((layout.on_outer(p), layout.on_outer(p, out)) for p, out in marks), Pen("magnetic", 1.5))
    between_ends = turn.multiples(30, NUMBER_LEAST_APART_DEG, sweep - NUMBER_LEAST_APART_DEG)
    numbers = ((layout.on_outer(p, NUMBER_OUT), three_digits(turn.heading(p))) for p in (0, sweep, *between_ends))
    for at, text in spaced(numbers):
        yield centred(at, text, Lettering(15, "magnetic", halo="paper"))


def _inner_ring(layout: Layout, first: float, last: float) -> Iterator[str]:
    turn = layout.turn
    yield stroke(arc(layout.centre, layout.inner, turn.azimuth(first), turn.azimuth(last)), EDGE)
    marks = [(p, _mark_length(turn, p)) for p in turn.multiples(5, first, last)]
    yield stroke(segments((layout.on_inner(p), layout.on_inner(p, -inward)) for p, inward in marks), EDGE)


def _mark_length(turn: Turn, progress_deg: float) -> float:
    return 9.0 if shown(turn.heading(progress_deg)) % 10 == 0 else 5.0


def _inner_numbers(layout: Layout) -> Iterator[str]:
    turn = layout.turn
    inside = turn.multiples(30, 0, turn.sweep_deg + BEYOND_DEG)
    numbers = ((layout.on_inner(p, -NUMBER_OUT), three_digits(turn.heading(p))) for p in inside)
    yield from (centred(at, text, Lettering(15)) for at, text in spaced(numbers))


def _tie_lines(layout: Layout, ties: Pairs) -> Iterator[str]:
    for heading, reading in ties:
        yield stroke(segment(layout.on_outer(heading), layout.on_inner(reading)), THIN)
    for heading, reading in ties:
        yield disc(layout.on_outer(heading), 4, "magnetic")
        yield disc(layout.on_inner(reading), 4)
    ends_first = chain((ties[0], ties[-1]), ties[1:-1])
    readings = (reading for _, reading in ends_first)
    numbers = ((layout.on_inner(p, -NUMBER_OUT), three_digits(layout.turn.heading(p))) for p in readings)
    yield from (centred(at, text, Lettering(15)) for at, text in spaced(numbers))


def _answers(layout: Layout, values: Values, marks: dict[str, float]) -> Iterator[str]:
    """Mark key and answer just outside the ring of readings; the answer's number is turned away from the key's."""
    if "yours_deg" in marks:
        at = marks["yours_deg"]
        away = _turned_on(layout, at, marks.get("key_deg"))
        yield _answer_number(layout, at + away, values["yours_deg"], bold=False)
        yield ring(layout.on_inner(at, 12), RADIUS, Pen("ink", 2), "paper")
    if "key_deg" in marks:
        at = marks["key_deg"]
        yield _answer_number(layout, at, values["key_deg"], bold=True)
        azimuth, base = layout.turn.azimuth(at), layout.on_inner(at, 7 + HEIGHT)
        sides = (around(base, HALF_WIDTH, azimuth - 90), around(base, HALF_WIDTH, azimuth + 90))
        yield fill(polygon([layout.on_inner(at, 6), *sides]), "ink")


def _turned_on(layout: Layout, yours: float, key: float | None) -> float:
    """Return how far the answer's number is turned away from the key's: 8 degrees, or until they stand clear."""
    if key is None:
        return ANSWER_TURNED_DEG
    turned = max(ANSWER_TURNED_DEG, layout.numbers_apart_deg - abs(yours - key))
    return turned if yours >= key else -turned


def _answer_number(layout: Layout, progress: float, value_deg: float, *, bold: bool) -> str:
    at = layout.on_inner(progress, ANSWER_OUT)
    return centred(at, three_digits(value_deg), Lettering(15, bold=bold, halo="paper"))


def _aeroplane(layout: Layout) -> Iterator[str]:
    """Draw the aeroplane flying straight up to the start of the turn."""
    heading = layout.turn.start_deg
    return three_strokes(around(layout.on_outer(0), AEROPLANE_BACK, heading + 180), heading)


def _north(centre: Point) -> Iterator[str]:
    """Draw magnetic north: an arrow with one barb."""
    x, y = centre
    yield stroke(segment((x, y + 14), (x, y - 24)), Pen("magnetic", 2))
    yield stroke(polyline([(x, y - 24), (x - 7, y - 12)]), Pen("magnetic", 2))
    yield words((x, y - 30), "N", Lettering(15, "magnetic", bold=True))


def _conflicts(values: Values) -> list[str]:
    found = []
    if shown(values["start_deg"]) == shown(values["target_deg"]):
        found.append("target_deg is start_deg: give two different headings")
    if values.get("show_readings", False):
        missing = [name for name in ("dip_deg", "bank_deg") if name not in values]
        found += [f"{name} is missing: show_readings needs dip_deg and bank_deg" for name in missing]
        if not missing and not usable(values["bank_deg"], values["dip_deg"]):
            found.append(not_followed(values))
    return found


TURN_FROM_ABOVE = Figure(
    "turn-from-above",
    {
        "start_deg": need(WHOLE_HEADING),
        "target_deg": need(WHOLE_HEADING),
        "turn": need(one_of("left", "right")),
        "dip_deg": between(-90, 90),
        "bank_deg": between(-60, 60),
        "show_readings": FLAG,
        "key_deg": ANY_HEADING,
        "yours_deg": ANY_HEADING,
    },
    draw,
    _conflicts,
)
