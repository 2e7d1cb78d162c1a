"""A runway from above, true north up, with both norths beside it: numbers asked stay hidden, painted ones come after.

An aeroplane on it faces the way of the stem's direction; its number is at the end behind it. Where both ends are asked
there is none: which way to land is then part of the question.
"""

from collections.abc import Iterator

from app.figures.aeroplane import three_strokes
from app.figures.faces import size_and_letter, three_digits
from app.figures.figure import Figure, Values
from app.figures.model import Drawing, Language, Medium
from app.figures.norths import magnetic_north, star
from app.figures.parameters import Parameter, between, is_number, need, one_of
from app.figures.strokes import (
    FRAME,
    TRUE,
    Lettering,
    Point,
    around,
    centred,
    polygon,
    segment,
    sheet,
    stroke,
)
from app.figures.words import NBSP, pick
from app.physics.headings import reciprocal_runway

SIZE = (320.0, 300.0)
CENTRE: Point = (188.0, 150.0)
HALF_LENGTH, HALF_WIDTH, NUMBER_AT = 96.0, 17.0, 116.0
NORTHS_FOOT, TRUE_REACH, MAGNETIC_REACH = (44.0, 104.0), 62.0, 70.0
ASKED = {"near": (-1,), "far": (1,), "both": (-1, 1)}  # ends by their side of the middle, along the direction


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw the runway, the aeroplane on it, and the two norths."""
    direction = values["runway_true_deg"]
    corners = [
        around(around(CENTRE, end * HALF_LENGTH, direction), side * HALF_WIDTH, direction + 90)
        for end, side in ((1, 1), (1, -1), (-1, -1), (-1, 1))
    ]
    parts = [
        *_norths(values["variation_deg"]),
        stroke(polygon(corners), FRAME, "card"),
        *(three_strokes(CENTRE, direction) if values["part"] != "both" else ()),
        *_ends(values),
    ]
    title = pick(language, "Runway from above", "Piste vue d'en haut")
    description = _describe(values, language)
    return Drawing("runway-plan", sheet("runway-plan", SIZE, parts, title, description), title, description)


def _norths(variation_deg: float) -> Iterator[str]:
    tip = around(NORTHS_FOOT, TRUE_REACH, 0)
    yield stroke(segment(NORTHS_FOOT, tip), TRUE)
    yield star(around(tip, 4, 0))
    yield from magnetic_north(NORTHS_FOOT, around(NORTHS_FOOT, MAGNETIC_REACH, variation_deg), variation_deg)
    aside = -1 if variation_deg > 0 else 1
    yield centred((tip[0] + 16 * aside, tip[1] + 18), "T", Lettering(18, "true", bold=True))
    beside = around(around(NORTHS_FOOT, 52, variation_deg), -14 * aside, variation_deg + 90)
    yield centred(beside, "M", Lettering(18, "magnetic", bold=True))


def _ends(values: Values) -> Iterator[str]:
    direction, runway = values["runway_true_deg"], values.get("runway")
    asked = ASKED[values["part"]]
    for side in (-1, 1):
        at = around(CENTRE, side * NUMBER_AT, direction)
        if runway is not None:
            painted = runway if side == -1 else reciprocal_runway(runway)
            yield centred(at, f"{painted:02d}", Lettering(20, bold=side in asked))
        elif side in asked:
            yield centred(at, "?", Lettering(24, bold=True))


def _describe(values: Values, language: Language) -> str:
    direction, runway = three_digits(values["runway_true_deg"]), values.get("runway")
    variation = size_and_letter(values["variation_deg"], language).replace(NBSP, f"°{NBSP}")
    seen = pick(
        language,
        f"A runway from above, true north up, along {direction} true. Two arrows show true north, T, and magnetic "
        f"north, M: variation {variation}.",
        f"Une piste vue d'en haut, nord vrai en haut, dans l'axe {direction} vrai. Deux flèches montrent nord vrai, T, "
        f"et nord magnétique, M{NBSP}: déclinaison magnétique {variation}.",
    )
    said = [seen, *_aeroplane_words(values["part"], language)]
    if runway is None:
        said.append(_hidden(values["part"], language))
    else:
        ends = f"{runway:02d}", f"{reciprocal_runway(runway):02d}"
        said.append(_painted(ends, direction, language))
    return " ".join(said)


def _aeroplane_words(part: str, language: Language) -> Iterator[str]:
    if part != "both":
        yield pick(
            language, "An aeroplane on it faces that way.", "Un avion sur cette piste fait face dans cette direction."
        )


def _painted(ends: tuple[str, str], direction: str, language: Language) -> str:
    return pick(
        language,
        f"Painted where landing toward {direction} begins: {ends[0]}; at its other end: {ends[1]}.",
        f"Peint où commence un atterrissage vers {direction}{NBSP}: {ends[0]}; à l'autre extrémité{NBSP}: {ends[1]}.",
    )


def _hidden(part: str, language: Language) -> str:
    if part == "both":
        return pick(
            language,
            "Question marks stand at both ends.",
            "Un point d'interrogation marque chaque extrémité.",
        )
    end = pick(language, {"near": "behind", "far": "ahead of"}[part], {"near": "derrière", "far": "devant"}[part])
    return pick(
        language,
        f"A question mark stands at the end {end} it.",
        f"Un point d'interrogation marque l'extrémité {end} l'avion.",
    )


NUMBER = Parameter("a whole runway number from 1 to 36", lambda v: is_number(v) and v in range(1, 37))
RUNWAY_PLAN = Figure(
    "runway-plan",
    {
        "runway_true_deg": need(between(0, 360, "a direction")),
        "variation_deg": need(between(-45, 45, "degrees, east positive,")),
        "part": need(one_of(*ASKED)),
        "runway": NUMBER,
    },
    draw,
)
