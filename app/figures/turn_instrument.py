"""Turn coordinator and turn needle with the ball below, seen from the front.

A mark is rate one: the wing of the symbol, or the needle, has then gone 20 degrees, and in proportion for other rates.
The ball lies in a tube bent downward; it is drawn where it lies, and nothing here names turn, slip or skid.
Source of the arrangement: FAA-H-8083-25C, chapter 8, turn indicators and inclinometer (from memory).
"""

from collections.abc import Iterator

from app.figures.figure import Figure, Values
from app.figures.instrument import corner_screws, square_case
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import need, one_of
from app.figures.strokes import (
    FRAME,
    HEAVY,
    Lettering,
    Pen,
    Point,
    arc,
    around,
    centred,
    disc,
    ring,
    segment,
    segments,
    sheet,
    stroke,
)
from app.figures.words import pick

SIZE = (320.0, 320.0)
CENTRE, GLASS = (160.0, 160.0), 134.0
WINGS_AT, WING, MARK_FROM, MARK_TO = (160.0, 138.0), 96.0, 108.0, 124.0
NEEDLE_FOOT, NEEDLE = (160.0, 214.0), 118.0
RATE_ONE_DEG = 20.0
SHARES = {"half-way": 0.5, "on-the-mark": 1.0, "past-the-mark": 1.5}
TUBE_CENTRE, TUBE, TUBE_HALF, TUBE_END_DEG, BALL_OUT_DEG, LINES_DEG = (160.0, 40.0), 216.0, 13.0, 17.0, 11.5, 4.0
BALLS = {"ball-left": 1, "ball-centre": 0, "ball-right": -1}  # the tube hangs down: right is less azimuth
SIDES = {"left": -1, "right": 1}


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw the instrument at a deflection, with the ball where it lies."""
    moved_deg = SIDES[values["turn"]] * SHARES[values["mark"]] * RATE_ONE_DEG
    needle = values["instrument"] == "turn-needle"
    title = (
        pick(language, "Turn needle and ball", "Aiguille de virage et bille")
        if needle
        else pick(language, "Turn coordinator and ball", "Coordonnateur de virage et bille")
    )
    parts = [
        *square_case(SIZE),
        ring(CENTRE, GLASS, FRAME, "card"),
        *(_needle(moved_deg, language) if needle else _coordinator(moved_deg, language)),
        *_tube(BALLS[values["ball"]]),
        *corner_screws(SIZE),
    ]
    description = _describe(values, language)
    return Drawing("turn-instrument", sheet("turn-instrument", SIZE, parts, title, description), title, description)


def _coordinator(moved_deg: float, language: Language) -> Iterator[str]:
    azimuths = (270, 90, 270 - RATE_ONE_DEG, 90 + RATE_ONE_DEG)
    yield stroke(segments((around(WINGS_AT, MARK_FROM, a), around(WINGS_AT, MARK_TO, a)) for a in azimuths), HEAVY)
    yield from _letters(WINGS_AT, 104, (270 - 2 * RATE_ONE_DEG, 90 + 2 * RATE_ONE_DEG), language)
    yield centred((160, 200), f"2{chr(160)}MIN", Lettering(16))
    yield from symbol(WINGS_AT, WING, moved_deg)


def symbol(at: Point, wing: float, moved_deg: float) -> Iterator[str]:
    """Draw the aeroplane of a turn coordinator from behind, its wings first, turned clockwise by an angle."""
    yield stroke(segment(around(at, wing, 270 + moved_deg), around(at, wing, 90 + moved_deg)), Pen("ink", 5))
    yield stroke(segment(at, around(at, wing * 0.32, moved_deg)), Pen("ink", 4))
    yield disc(at, wing * 0.13)


def _needle(moved_deg: float, language: Language) -> Iterator[str]:
    azimuths = (-RATE_ONE_DEG, 0, RATE_ONE_DEG)
    yield stroke(segments((around(NEEDLE_FOOT, 126, a), around(NEEDLE_FOOT, 146, a)) for a in azimuths), Pen("ink", 8))
    yield from _letters(NEEDLE_FOOT, 126, (-2 * RATE_ONE_DEG, 2 * RATE_ONE_DEG), language)
    yield stroke(segment(NEEDLE_FOOT, around(NEEDLE_FOOT, NEEDLE, moved_deg)), Pen("ink", 6))
    yield disc(NEEDLE_FOOT, 8)


def _letters(at: Point, reach: float, azimuths: tuple[float, float], language: Language) -> Iterator[str]:
    for azimuth, letter in zip(azimuths, pick(language, "LR", "GD"), strict=True):
        yield centred(around(at, reach, azimuth), letter, Lettering(20, bold=True))


def _tube(side: int) -> Iterator[str]:
    """Draw the tube, its two lines, and the ball."""
    ends = 180 - TUBE_END_DEG, 180 + TUBE_END_DEG
    inner, outer = (arc(TUBE_CENTRE, TUBE + half, *ends) for half in (-TUBE_HALF, TUBE_HALF))
    yield stroke(inner, FRAME)
    yield stroke(outer, FRAME)
    yield stroke(
        segments((around(TUBE_CENTRE, TUBE - TUBE_HALF, a), around(TUBE_CENTRE, TUBE + TUBE_HALF, a)) for a in ends),
        FRAME,
    )
    lines = (180 - LINES_DEG, 180 + LINES_DEG)
    yield stroke(
        segments((around(TUBE_CENTRE, TUBE - TUBE_HALF, a), around(TUBE_CENTRE, TUBE + TUBE_HALF, a)) for a in lines),
        Pen("ink", 2.5),
    )
    yield disc(around(TUBE_CENTRE, TUBE, 180 + side * BALL_OUT_DEG), TUBE_HALF - 2)


def _describe(values: Values, language: Language) -> str:
    turn, needle = values["turn"], values["instrument"] == "turn-needle"
    side = pick(language, turn, "gauche" if turn == "left" else "droite")
    where = {
        "half-way": pick(language, "half-way to the mark", "à mi-chemin du repère"),
        "on-the-mark": pick(language, "on the mark", "sur le repère"),
        "past-the-mark": pick(language, "half as far again as the mark", "à une fois et demie l'écart du repère"),
    }[values["mark"]]
    pointer = (
        pick(language, f"The needle is to the {side}, {where}.", f"L'aiguille est à {side}, {where}.")
        if needle
        else pick(
            language,
            f"The {side} wing of the symbol is down, {where}.",
            f"L'aile {side} du symbole est basse, {where}.",
        )
    )
    ball = {
        "ball-left": pick(language, "left of its two lines", "à gauche de ses deux traits"),
        "ball-centre": pick(language, "between its two lines", "entre ses deux traits"),
        "ball-right": pick(language, "right of its two lines", "à droite de ses deux traits"),
    }[values["ball"]]
    return f"{pointer} {pick(language, f'The ball is {ball}.', f'La bille est {ball}.')}"


TURN_INSTRUMENT = Figure(
    "turn-instrument",
    {
        "instrument": need(one_of("turn-coordinator", "turn-needle")),
        "turn": need(one_of("left", "right")),
        "mark": need(one_of(*SHARES)),
        "ball": need(one_of(*BALLS)),
    },
    draw,
)
