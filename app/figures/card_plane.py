"""The tilted card on its own plane, seen from above: what the level and the vertical field do to it together.

Ahead is up. The level field lies at (cos h, -sin h cos p), the vertical field's part tan I sin p to the right, in units
of the level field; north on the card stands where their sum points, and the lubber line at the top shows the reading.
"""

from collections.abc import Iterator
from math import hypot

from app.figures.banked import not_followed
from app.figures.faces import is_cardinal, label, three_digits
from app.figures.figure import Figure, Values
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import WHOLE_HEADING, between, need
from app.figures.strokes import (
    EDGE,
    HEAVY,
    THIN,
    Lettering,
    Pen,
    Point,
    around,
    centred,
    polyline,
    ring,
    segment,
    sheet,
    stroke,
    words,
)
from app.figures.tilted_card import LARGEST_BANK_DEG, arrow
from app.figures.words import pick
from app.physics.angles import cos_deg, sin_deg, tan_deg
from app.physics.card import turn_reading_deg, usable

SIZE = (320.0, 262.0)
CENTRE: Point = (160.0, 146.0)
RADIUS, NUMBERS = 104.0, 82.0
LEVEL_FIELD, LONGEST = 50.0, 62.0


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw the card turned by its error, and the two parts of the field that turn it."""
    heading, dip, bank = values.get("heading_deg", 360), values["dip_deg"], values["bank_deg"]
    reading = turn_reading_deg(heading, dip, bank)
    level, part = _fields(heading, dip, bank)
    parts = [
        ring(CENTRE, RADIUS, EDGE),
        *_card(reading, language),
        *_sum(level, part, language),
        stroke(segment((CENTRE[0], CENTRE[1] - RADIUS - 16), (CENTRE[0], CENTRE[1] - RADIUS + 18)), Pen("paper", 8)),
        stroke(segment((CENTRE[0], CENTRE[1] - RADIUS - 16), (CENTRE[0], CENTRE[1] - RADIUS + 18)), HEAVY),
        words((CENTRE[0], 18), _reads(reading, language), Lettering(16, bold=True)),
    ]
    title = pick(language, "On the card, from above", "Sur la rose, vue du dessus")
    description = _describe(values, language)
    return Drawing("card-plane", sheet("card-plane", SIZE, parts, title, description), title, description)


def _fields(heading_deg: float, dip_deg: float, bank_deg: float) -> tuple[Point, Point]:
    """Return the ends of the level field and of its sum with the vertical field's part, fitted inside the numbers."""
    ahead, right = cos_deg(heading_deg), -sin_deg(heading_deg) * cos_deg(bank_deg)
    part = tan_deg(dip_deg) * sin_deg(bank_deg)
    longest = max(hypot(ahead, right), hypot(ahead, right + part), abs(part))
    unit = min(LEVEL_FIELD, LONGEST / longest)
    return (unit * right, -unit * ahead), (unit * part, 0.0)


def _card(reading_deg: float, language: Language) -> Iterator[str]:
    for heading in range(10, 361, 10):
        long = heading % 30 == 0
        ends = (around(CENTRE, out, heading - reading_deg) for out in (RADIUS, RADIUS - (10 if long else 6)))
        yield stroke(segment(*ends), Pen("ink", 2 if long else 1.5))
        if long:
            style = Lettering(15, bold=is_cardinal(heading))
            yield centred(around(CENTRE, NUMBERS, heading - reading_deg), label(heading, language), style)


def _sum(level: Point, part: Point, language: Language) -> Iterator[str]:
    """Draw the two parts, the box they span and their sum, with their names."""
    (x, y), side = CENTRE, (1 if part[0] >= 0 else -1)
    level_end, part_end = (x + level[0], y + level[1]), (x + part[0], y + part[1])
    end = (level_end[0] + part[0], level_end[1] + part[1])
    yield stroke(polyline([level_end, end, part_end]), THIN)
    yield from arrow(CENTRE, level_end, Pen("magnetic", 2.5))
    yield from arrow(CENTRE, part_end, Pen("magnetic", 2.5))
    yield from arrow(CENTRE, end, Pen("ink", 2.5))
    middle = (x + level_end[0]) / 2, (y + level_end[1]) / 2
    yield centred((middle[0] - 14 * side, middle[1]), "H", Lettering(15, "magnetic", bold=True, halo="paper"))
    if part[0]:
        below = 20 if level_end[1] <= y else -12
        said = pick(language, "along the card", "suivant la rose")
        yield words((x + part[0] / 2, y + below), said, Lettering(14, "magnetic", bold=True, halo="paper"))


def _reads(reading_deg: float, language: Language) -> str:
    return pick(language, f"reads {three_digits(reading_deg)}", f"indique {three_digits(reading_deg)}")


def _describe(values: Values, language: Language) -> str:
    heading = values.get("heading_deg", 360)
    reading = three_digits(turn_reading_deg(heading, values["dip_deg"], values["bank_deg"]))
    at = three_digits(heading)
    return pick(
        language,
        f"The card from above on the real magnetic heading {at}. The level field H and the part of the vertical field "
        f"along the card add up; the card's north turns toward their sum, so the card reads {reading}.",
        f"La rose vue du dessus, au cap magnétique réel {at}. Le champ horizontal H et la part du champ vertical qui "
        f"suit la rose s'additionnent; le nord de la rose suit leur somme, et la rose indique {reading}.",
    )


def _conflicts(values: Values) -> list[str]:
    if usable(values["bank_deg"], values["dip_deg"]):
        return []
    return [not_followed(values)]


CARD_PLANE = Figure(
    "card-plane",
    {
        "dip_deg": need(between(-85, 85)),
        "bank_deg": need(between(-LARGEST_BANK_DEG, LARGEST_BANK_DEG)),
        "heading_deg": WHOLE_HEADING,
    },
    draw,
    _conflicts,
)
