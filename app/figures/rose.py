"""Two roses on one centre: true outside, magnetic inside, turned by the variation, and one heading read on both."""

from collections.abc import Iterator
from functools import lru_cache

from app.figures.aeroplane import three_strokes
from app.figures.faces import label, size_and_letter, three_digits
from app.figures.figure import Figure, Values
from app.figures.model import Drawing, Language, Medium
from app.figures.norths import magnetic_north, star
from app.figures.parameters import FLAG, HEADING, between, need
from app.figures.strokes import (
    EDGE,
    TRUE,
    Lettering,
    Pen,
    Point,
    arc,
    around,
    centred,
    ring,
    segment,
    segments,
    sheet,
    stroke,
)
from app.figures.words import pick
from app.physics.angles import wrap360

SIZE = (340.0, 340.0)
CENTRE: Point = (170.0, 170.0)
TRUE_RADIUS, MAGNETIC_RADIUS, BEYOND, NUMBER_OUT = 128.0, 88.0, 26.0, 25.0
VARIATION_RADIUS = 108.0
RINGS = 16
TICKS = {30: 14.0, 10: 10.0, 5: 5.0}


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw both roses, the angle between their norths, and the heading where one is given."""
    variation, heading = values["variation_deg"], values.get("true_deg")
    parts = [
        _ring(TRUE_RADIUS, 0, 1, "true", language),
        _ring(MAGNETIC_RADIUS, variation, -1, "magnetic", language),
        stroke(segment((CENTRE[0], CENTRE[1] - 24), (CENTRE[0], CENTRE[1] - TRUE_RADIUS - 14)), TRUE),
        star((CENTRE[0], CENTRE[1] - TRUE_RADIUS - BEYOND)),
        *magnetic_north(around(CENTRE, 20, variation), around(CENTRE, MAGNETIC_RADIUS + BEYOND, variation), variation),
        *_angle(variation, language, named=values.get("show_variation", True)),
        *(_heading(heading) if heading is not None else ()),
        *three_strokes(CENTRE, heading or 0),
    ]
    title = pick(language, "True and magnetic rose", "Rose vraie et rose magnétique")
    description = _describe(values, language)
    markup = sheet("rose", SIZE, parts, title, description)
    return Drawing("rose", markup, title, description, _caption(values, language))


@lru_cache(maxsize=RINGS)
def _ring(radius: float, turned_deg: float, outward: int, ink: str, language: Language) -> str:
    """Draw a rose; it is kept: the true one is always the same, the magnetic one at each place."""
    return "".join(_ring_parts(radius, turned_deg, outward, ink, language))


def _ring_parts(radius: float, turned_deg: float, outward: int, ink: str, language: Language) -> Iterator[str]:
    yield ring(CENTRE, radius, Pen(ink, 2))
    lengths = {h: next(size for every, size in TICKS.items() if h % every == 0) for h in range(5, 361, 5)}
    spans = ((h + turned_deg, radius + outward * length) for h, length in lengths.items())
    yield stroke(segments((around(CENTRE, radius, at), around(CENTRE, end, at)) for at, end in spans), Pen(ink, 2))
    for heading in range(30, 360, 30):
        at = around(CENTRE, radius + outward * NUMBER_OUT, heading + turned_deg)
        yield centred(at, label(heading, language), Lettering(15, ink))


def _angle(variation_deg: float, language: Language, *, named: bool) -> Iterator[str]:
    """Draw the arc between the norths; its size stands on the far side of the true ray."""
    if variation_deg == 0:
        return
    yield stroke(arc(CENTRE, VARIATION_RADIUS, 0, variation_deg), EDGE)
    side = -1 if variation_deg > 0 else 1
    if named:
        style = Lettering(15, bold=True, anchor="start" if side > 0 else "end", halo="paper")
        at = CENTRE[0] + 8 * side, CENTRE[1] - VARIATION_RADIUS
        yield centred(at, size_and_letter(variation_deg, language), style)


def _heading(true_deg: float) -> Iterator[str]:
    """Draw the heading in two pieces, so that it never crosses a magnetic number."""
    for start, end in ((18, 50), (91, 125)):
        yield stroke(segment(around(CENTRE, start, true_deg), around(CENTRE, end, true_deg)), Pen("ink", 2.5))


def _caption(values: Values, language: Language) -> str:
    if "true_deg" not in values or not values.get("show_variation", True):
        return ""
    true, magnetic = three_digits(values["true_deg"]), _magnetic(values)
    return pick(
        language, f"One line, two roses: {true} true is {magnetic} magnetic.",
        f"Une ligne, deux roses\u00a0: {true} vrai, c'est {magnetic} magnétique.",
    )  # fmt: skip


def _magnetic(values: Values) -> str:
    return three_digits(wrap360(values["true_deg"] - values["variation_deg"]))


def _describe(values: Values, language: Language) -> str:
    variation = values["variation_deg"]
    if variation == 0:
        way = pick(language, "along true north", "le long du nord vrai")
    elif variation > 0:
        way = pick(language, "to the right of true north", "à droite du nord vrai")
    else:
        way = pick(language, "to the left of true north", "à gauche du nord vrai")
    said = [
        pick(
            language,
            f"Two roses on one centre: the outer one true, the inner one magnetic, its north turned {way}.",
            "Deux roses sur un même centre\u00a0: l'extérieure est vraie, l'intérieure magnétique; le nord de celle-ci "
            f"est {way}.",
        )
    ]
    if values.get("show_variation", True):
        size = size_and_letter(variation, language)
        said.append(pick(language, f"The angle between the norths is {size}.", f"L'angle entre les nords est {size}."))
    if "true_deg" in values:
        true = three_digits(values["true_deg"])
        said.append(pick(language, f"A line runs along {true} true.", f"Une ligne suit le {true} vrai."))
    return " ".join(said)


ROSE = Figure(
    "rose",
    {
        "variation_deg": need(between(-60, 60, "degrees, east positive,")),
        "true_deg": HEADING,
        "show_variation": FLAG,
    },
    draw,
)
