"""A straight leg from A to B over three meridians that draw together toward the pole, and the angle made at each.

Angles are counted clockwise from the north of their meridian; the middle meridian is drawn upright, the others lean by
as much as their angles differ.
"""

from collections.abc import Iterator

from app.figures.faces import three_digits
from app.figures.figure import Figure, Values
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import WHOLE_HEADING, need
from app.figures.strokes import (
    EDGE,
    FRAME,
    HEAVY,
    THIN,
    TRUE,
    Lettering,
    Point,
    arc,
    around,
    centred,
    disc,
    polyline,
    rounded,
    segment,
    sheet,
    stroke,
)
from app.figures.words import pick
from app.physics.angles import cos_deg, difference, sin_deg, tan_deg

SIZE = (320.0, 260.0)
MIDDLE: Point = (160.0, 132.0)
APART, BEYOND = 88.0, 34.0
TOP, FOOT = 30.0, 232.0
ARC, LABEL_AT = 17.0, 41.0
STEEPEST_DEG, MOST_LEAN_DEG = 55, 10
ANGLES = ("angle_a_deg", "angle_b_deg", "angle_c_deg")


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw meridians, leg and angles; A and B stand beyond the outer meridians."""
    along = values["angle_b_deg"]
    start, end = (_on_leg(along, way * (APART + BEYOND)) for way in (-1, 1))
    parts = [stroke(rounded((6, 6), (SIZE[0] - 12, SIZE[1] - 12), 2), EDGE, "card")]
    crossings = [_on_leg(along, way * APART) for way in (-1, 0, 1)]
    for at, name in zip(crossings, ANGLES, strict=True):
        parts += _meridian(at, along - values[name])
    parts += [stroke(segment(start, end), HEAVY), *(disc(place, 4.5) for place in (start, end))]
    tip = around(end, -14, along)
    parts.append(stroke(polyline((around(tip, 11, along + 150), tip, around(tip, 11, along - 150))), FRAME))
    for at, name in zip(crossings, ANGLES, strict=True):
        parts += _angle(at, along, values[name])
    for place, letter, way in ((start, "A", -1), (end, "B", 1)):
        parts.append(centred(around(place, 16 * way, along), letter, Lettering(17, bold=True, halo="card")))
    title = pick(language, "A leg across meridians", "Une étape qui coupe des méridiens")
    description = _describe(values, language)
    return Drawing("meridians", sheet("meridians", SIZE, parts, title, description), title, description)


def _on_leg(along_deg: float, across: float) -> Point:
    """Return the point of the leg so far across the drawing, forward positive."""
    reach = across / abs(sin_deg(along_deg))
    return MIDDLE[0] + reach * sin_deg(along_deg), MIDDLE[1] - reach * cos_deg(along_deg)


def _meridian(at: Point, lean_deg: float) -> Iterator[str]:
    ends = [(at[0] + (at[1] - y) * tan_deg(lean_deg), y) for y in (FOOT, TOP)]
    yield stroke(segment(ends[0], ends[1]), TRUE)
    yield centred((ends[1][0], TOP - 10), "N", Lettering(14, "true", bold=True))


def _angle(at: Point, along_deg: float, angle_deg: float) -> Iterator[str]:
    """Draw the angle from the meridian's north round to the leg, its size beyond the middle of the arc."""
    north = along_deg - angle_deg
    yield stroke(arc(at, ARC, north, north + angle_deg), THIN)
    beside = max(38, angle_deg / 2) if angle_deg < 180 else 45 if angle_deg >= 270 else 140  # clear of the leg behind
    yield centred(around(at, LABEL_AT, north + beside), three_digits(angle_deg), Lettering(15, bold=True, halo="card"))


def _describe(values: Values, language: Language) -> str:
    first, middle, last = (three_digits(values[name]) for name in ANGLES)
    return pick(
        language,
        f"A straight leg runs from A to B across three meridians. Clockwise from north it makes {first} at the first "
        f"meridian after A, {middle} at the one half way, {last} at the last before B.",
        f"Une étape droite va de A à B en coupant trois méridiens. Dans le sens horaire depuis le nord, elle fait "
        f"{first} au premier méridien après A, {middle} à celui de mi-chemin, {last} au dernier avant B.",
    )


def _conflicts(values: Values) -> list[str]:
    first, middle, last = (values[name] for name in ANGLES)
    found = [] if abs(sin_deg(middle)) >= sin_deg(STEEPEST_DEG) else ["the leg runs too nearly along its meridians"]
    leans = [difference(each, middle) for each in (first, last)]
    if any(abs(lean) > MOST_LEAN_DEG for lean in leans) or leans[0] * leans[1] > 0:
        found.append(f"neighbouring angles differ by {MOST_LEAN_DEG} degrees at most, the middle lies between")
    return found


MERIDIANS = Figure("meridians", {name: need(WHOLE_HEADING) for name in ANGLES}, draw, _conflicts)
