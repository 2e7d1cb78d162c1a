"""A runway from above with its two numbers, and the wind as an arrow that comes from its direction; north is magnetic.

The parts of the wind are what the question asks: nothing here says them, nor the angle, nor the side.
"""

from collections.abc import Iterator

from app.figures.aeroplane import three_strokes
from app.figures.faces import three_digits
from app.figures.figure import Figure, Values
from app.figures.model import Drawing, Language, Medium
from app.figures.norths import magnetic_north
from app.figures.parameters import Parameter, between, is_number, need
from app.figures.strokes import (
    FRAME,
    HEAVY,
    Lettering,
    Point,
    around,
    centred,
    fill,
    polygon,
    segment,
    sheet,
    stroke,
    words,
)
from app.figures.words import NBSP, pick

SIZE = (320.0, 340.0)
CENTRE: Point = (160.0, 160.0)
HALF_LENGTH, HALF_WIDTH, NUMBER_AT = 100.0, 16.0, 117.0
WIND_TAIL, WIND_TIP, HEAD_LONG, HEAD_HALF = 148.0, 96.0, 14.0, 5.0


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw the runway, an aeroplane that uses it, and the wind."""
    direction = 10.0 * values["runway"]
    parts = [
        *magnetic_north((18, 56), (18, 12), 0),
        centred((18, 72), "M", Lettering(18, "magnetic", bold=True)),
        stroke(polygon(_corners(direction)), FRAME, "card"),
        *_numbers(values["runway"], direction),
        *three_strokes(CENTRE, direction),
        *_wind(values["wind_from_deg"]),
        words((CENTRE[0], SIZE[1] - 12), _said(values, language), Lettering(16, bold=True)),
    ]
    title = pick(language, "Runway and wind", "Piste et vent")
    description = _describe(values, language)
    return Drawing("runway-wind", sheet("runway-wind", SIZE, parts, title, description), title, description)


def _corners(direction_deg: float) -> Iterator[Point]:
    for end, side in ((1, 1), (1, -1), (-1, -1), (-1, 1)):
        yield around(around(CENTRE, end * HALF_LENGTH, direction_deg), side * HALF_WIDTH, direction_deg + 90)


def _numbers(runway: int, direction_deg: float) -> Iterator[str]:
    """Each number stands at the end where a landing on it begins; the one in use is bold."""
    yield centred(around(CENTRE, -NUMBER_AT, direction_deg), f"{runway:02d}", Lettering(18, bold=True))
    yield centred(around(CENTRE, NUMBER_AT, direction_deg), f"{other_end(runway):02d}", Lettering(18))


def other_end(runway: int) -> int:
    """Return the number at a runway's other end, 1 to 36."""
    return (runway + 17) % 36 + 1


def _wind(from_deg: float) -> Iterator[str]:
    tip, neck = around(CENTRE, WIND_TIP, from_deg), around(CENTRE, WIND_TIP + HEAD_LONG, from_deg)
    sides = (around(neck, side * HEAD_HALF, from_deg + 90) for side in (-1, 1))
    yield stroke(segment(around(CENTRE, WIND_TAIL, from_deg), neck), HEAVY)
    yield fill(polygon([tip, *sides]), "ink")


def _said(values: Values, language: Language) -> str:
    said = f"{pick(language, 'Wind', 'Vent')} {three_digits(values['wind_from_deg'])}, {values['wind_kt']:g}{NBSP}kt"
    if "gust_kt" not in values:
        return said
    return f"{said}, {pick(language, 'gusts', 'rafales')} {values['gust_kt']:g}{NBSP}kt"


def _describe(values: Values, language: Language) -> str:
    runway = f"{values['runway']:02d}"
    seen = pick(
        language,
        f"Runway {runway} from above, magnetic north up, with an aeroplane along it and an arrow for the wind.",
        f"La piste {runway} vue d'en haut, nord magnétique en haut, un avion dans l'axe et une flèche pour le vent.",
    )
    origin = pick(language, "Wind is given as the direction it comes from.", "Le vent est donné par sa provenance.")
    return f"{seen} {_said(values, language)}. {origin}"


RUNWAY = Parameter("a whole runway number from 1 to 36", lambda v: is_number(v) and v in range(1, 37))
SPEED = between(0, 200, "a number of knots")
RUNWAY_WIND = Figure(
    "runway-wind",
    {
        "runway": need(RUNWAY),
        "wind_from_deg": need(between(0, 360, "a direction")),
        "wind_kt": need(SPEED),
        "gust_kt": SPEED,
    },
    draw,
)
