"""The wind triangle: heading at true airspeed, wind, and track at ground speed as arrows from tail to head.

One head marks the heading, two the track, three the wind (common practice of the trade, no source). Heading and track
leave one point, and the wind joins their ends: the slant between them is the drift.
"""

from collections.abc import Iterator
from math import atan2, degrees, hypot

from app.figures.faces import three_digits
from app.figures.figure import Figure, Values
from app.figures.model import Drawing, Language, Medium
from app.figures.norths import barb, star
from app.figures.parameters import HEADING, between, need
from app.figures.strokes import HEAVY, TRUE, Lettering, Pen, Point, around, centred, segment, sheet, stroke, words
from app.figures.words import NBSP, pick

SIZE = (320.0, 360.0)
MIDDLE: Point = (160.0, 146.0)
ROOM = 216.0  # units across which the longest side of the triangle's box may run
LABEL_OUT, HEAD_GAP = 24.0, 8.0
CLOSES_KT = 5.0  # whole degrees and knots leave this much between the sides at most
HEADS = {"heading": 1, "track": 2, "wind": 3}


def ends_kt(values: Values) -> tuple[Point, Point, Point]:
    """Return where heading and track begin, where the heading ends and where the track ends, in knots, y down."""
    start = (0.0, 0.0)
    heading = around(start, values["tas_kt"], values["heading_deg"])
    return start, heading, around(start, values["gs_kt"], values["track_true_deg"])


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw the three arrows, each with its direction beside it, and list them below."""
    start, heading, track = _placed(ends_kt(values))
    sides = {"heading": (start, heading), "track": (start, track), "wind": (heading, track)}
    directions = {name: values[key] for name, key in KEYS.items()}
    inside = (start[0] + heading[0] + track[0]) / 3, (start[1] + heading[1] + track[1]) / 3
    parts = [stroke(segment((20, 62), (20, 28)), TRUE), star((20, 20)), centred((20, 76), "T", NORTH)]
    parts += [part for name, side in sides.items() for part in _arrow(side, HEADS[name], PENS[name])]
    parts += [_label(sides[name], inside, three_digits(directions[name])) for name in sides]
    for line, said in enumerate(_lines(values, language)):
        parts.append(words((SIZE[0] / 2, SIZE[1] - 56 + 22 * line), said, Lettering(16)))
    title = pick(language, "The wind triangle", "Le triangle des vitesses")
    description = _describe(values, language)
    return Drawing("wind-triangle", sheet("wind-triangle", SIZE, parts, title, description), title, description)


NORTH = Lettering(18, "true", bold=True)
KEYS = {"heading": "heading_deg", "track": "track_true_deg", "wind": "wind_from_deg"}
PENS = {"heading": Pen("ink", 2), "track": Pen("true", 2.5), "wind": HEAVY}


def _placed(points: tuple[Point, Point, Point]) -> tuple[Point, Point, Point]:
    """Scale the triangle to its room and set the middle of its box."""
    (left, right), (top, bottom) = ((min(each), max(each)) for each in zip(*points, strict=True))
    scale = ROOM / max(right - left, bottom - top)
    x, y = (left + right) / 2, (top + bottom) / 2
    first, second, third = ((MIDDLE[0] + scale * (px - x), MIDDLE[1] + scale * (py - y)) for px, py in points)
    return first, second, third


def _azimuth(side: tuple[Point, Point]) -> float:
    (from_x, from_y), (to_x, to_y) = side
    return degrees(atan2(to_x - from_x, from_y - to_y))


def _arrow(side: tuple[Point, Point], heads: int, pen: Pen) -> Iterator[str]:
    """Draw a side with its heads about its middle, so that they are not hidden where sides meet."""
    along = _azimuth(side)
    middle = (side[0][0] + side[1][0]) / 2, (side[0][1] + side[1][1]) / 2
    yield stroke(segment(*side), pen)
    for head in range(heads):
        tip = around(middle, HEAD_GAP * (heads - 1 - head) + 6 - HEAD_GAP * (heads - 1) / 2, along)
        yield from (barb(tip, along, pen, each) for each in (-1, 1))


def _label(side: tuple[Point, Point], inside: Point, said: str) -> str:
    """Set a direction beside a side, away from the inside of the triangle, past the heads in its middle."""
    along = _azimuth(side)
    share = 0.5 if hypot(side[1][0] - side[0][0], side[1][1] - side[0][1]) < LABEL_SHORT else 0.3
    at = side[0][0] + share * (side[1][0] - side[0][0]), side[0][1] + share * (side[1][1] - side[0][1])
    right = around(at, LABEL_OUT, along + 90)
    left = around(at, LABEL_OUT, along - 90)
    away = max(right, left, key=lambda point: hypot(point[0] - inside[0], point[1] - inside[1]))
    return centred(away, said, Lettering(16, bold=True, halo="paper"))


LABEL_SHORT = 100.0


def _lines(values: Values, language: Language) -> list[str]:
    names = pick(language, "Heading|Track|Wind from", "Cap|Route|Vent du").split("|")
    speeds = ("tas_kt", "gs_kt", "wind_kt")
    heads = pick(language, "one head|two heads|three heads", "une pointe|deux pointes|trois pointes").split("|")
    return [
        f"{name} {three_digits(values[key])}, {values[speed]:g}{NBSP}kt ({head})"
        for name, key, speed, head in zip(names, KEYS.values(), speeds, heads, strict=True)
    ]


def _describe(values: Values, language: Language) -> str:
    seen = pick(
        language,
        "Arrows, true north up: heading and track leave one point, and wind blows from one end to another.",
        "Flèches, nord vrai en haut\u00a0: le cap et la route partent d'un même point, et le vent en joint les bouts.",
    )
    return f"{seen} {'. '.join(_lines(values, language))}."


def _conflicts(values: Values) -> list[str]:
    _, heading, track = ends_kt(values)
    blown = around(heading, -values["wind_kt"], values["wind_from_deg"])
    gap = hypot(blown[0] - track[0], blown[1] - track[1])
    return [f"the sides miss each other by {gap:.0f} kt: {CLOSES_KT:g} at most"] if gap > CLOSES_KT else []


SPEED = need(between(1, 600, "a number of knots"))
WIND_TRIANGLE = Figure(
    "wind-triangle",
    {
        "heading_deg": need(HEADING),
        "tas_kt": SPEED,
        "track_true_deg": need(HEADING),
        "gs_kt": SPEED,
        "wind_from_deg": need(HEADING),
        "wind_kt": SPEED,
    },
    draw,
    _conflicts,
)
