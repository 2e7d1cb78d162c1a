"""The panel clock at two moments, side by side: twelve numerals, sixty marks, hour, minute and sweep second hand.

The second hand goes round in 60 s, the minute hand in 3600, the hour hand in 43 200, none of them by jumps: a moment of
s seconds after twelve stands at 6 s, s / 10 and s / 120 degrees.
"""

from collections.abc import Iterator

from app.figures.figure import Figure, Values
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import Parameter, is_number, need
from app.figures.strokes import (
    FRAME,
    Lettering,
    Pen,
    Point,
    around,
    centred,
    disc,
    polygon,
    ring,
    segment,
    segments,
    sheet,
    stroke,
)
from app.figures.words import NBSP, pick

SIZE = (320.0, 188.0)
CENTRES: tuple[Point, Point] = ((80.0, 82.0), (240.0, 82.0))
GLASS, TICKS, NUMERALS, LABEL_Y = 77.0, 74.0, 55.0, 174.0
HALF_DAY_S, MINUTE_S = 43_200, 60
SECOND_HAND, MINUTE_HAND, HOUR_HAND = 68.0, 64.0, 38.0
ROUND = 360.0


def hands_of(clock_s: float) -> tuple[float, float, float]:
    """Return where hour, minute and second hand point, degrees clockwise from twelve."""
    return tuple(ROUND * (clock_s % turn) / turn for turn in (HALF_DAY_S, 3600, MINUTE_S))  # type: ignore[return-value]


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw both moments, the earlier on the left."""
    moments = values["clock_s"], values["later_clock_s"]
    parts: list[str] = []
    for which, (centre, moment) in enumerate(zip(CENTRES, moments, strict=True), start=1):
        parts += [*_face(centre), *_hands(centre, moment)]
        parts.append(centred((centre[0], LABEL_Y), str(which), Lettering(18, bold=True)))
    title = pick(language, "Panel clock, twice", "Montre de bord, deux fois")
    description = _describe(moments, language)
    return Drawing("clock", sheet("clock", SIZE, parts, title, description), title, description)


def _face(centre: Point) -> Iterator[str]:
    yield ring(centre, GLASS, FRAME, "card")
    for numbered, length, pen in ((True, 8, Pen("ink", 2.5)), (False, 4, Pen("ink", 1))):
        azimuths = [6.0 * mark for mark in range(60) if (mark % 5 == 0) == numbered]
        yield stroke(segments((around(centre, TICKS, a), around(centre, TICKS - length, a)) for a in azimuths), pen)
    for numeral in range(1, 13):
        yield centred(around(centre, NUMERALS, 30.0 * numeral), str(numeral), Lettering(15, bold=numeral % 3 == 0))


def _hands(centre: Point, clock_s: float) -> Iterator[str]:
    """Draw the hands from the rear to the front: the hour hand short and hollow, the second hand thin with a tail."""
    hour, minute, second = hands_of(clock_s)
    sides = [around(around(centre, 16, hour), side, hour + 90) for side in (5, -5)]
    yield stroke(polygon([around(centre, HOUR_HAND, hour), sides[0], centre, sides[1]]), Pen("ink", 2), "card")
    yield stroke(segment(centre, around(centre, MINUTE_HAND, minute)), Pen("card", 6))
    yield stroke(segment(centre, around(centre, MINUTE_HAND, minute)), Pen("ink", 3.5))
    yield stroke(segment(around(centre, -16, second), around(centre, SECOND_HAND, second)), Pen("ink", 1.25))
    yield disc(centre, 4)


def _describe(moments: tuple[float, float], language: Language) -> str:
    said = [
        pick(
            language,
            "Two views of one clock, numerals 1 to 12 with five marks from each to the next.",
            "Deux vues d'une même montre, chiffres 1 à 12, cinq traits de chacun au suivant.",
        )
    ]
    for which, moment in enumerate(moments, start=1):
        hour, minute, second = int(moment // 3600) or 12, int(moment // 60) % 60, int(moment) % 60
        said.append(
            pick(
                language,
                f"Clock {which}: the hour hand is past {hour}, the minute hand {_place(minute, language)}"
                f"{' and beyond' if second else ''}, the sweep second hand {_place(second, language)}.",
                f"Montre {which}{NBSP}: l'aiguille des heures est après {hour}, celle des minutes "
                f"{_place(minute, language)}{' et plus loin' if second else ''}, la trotteuse "
                f"{_place(second, language)}.",
            )
        )
    return " ".join(said)


def _place(mark: int, language: Language) -> str:
    numeral, past = mark // 5 or 12, mark % 5
    if not past:
        return pick(language, f"on {numeral}", f"sur {numeral}")
    name = pick(language, "mark" if past == 1 else "marks", "trait" if past == 1 else "traits")
    return pick(language, f"{past} {name} past {numeral}", f"à {past} {name} après {numeral}")


def _in_order(values: Values) -> list[str]:
    if values["later_clock_s"] <= values["clock_s"]:
        return [f"later_clock_s is {values['later_clock_s']!r}: give a moment after clock_s, {values['clock_s']!r}"]
    return []


MOMENT = Parameter(
    f"whole seconds after twelve, 0 to {HALF_DAY_S - 1}",
    lambda v: is_number(v) and 0 <= v < HALF_DAY_S and v == int(v),
    needed=True,
)
CLOCK = Figure("clock", {"clock_s": MOMENT, "later_clock_s": need(MOMENT)}, draw, _in_order)
