"""A three-hand altimeter with its setting window, seen from the front: ten numerals, twenty feet a mark.

The long thin hand goes round once in 1000 ft, the short wide one once in 10 000, the one that ends in a triangle at the
rim once in 100 000: an altitude A stands at 360 A / 1000, 360 A / 10 000 and 360 A / 100 000 degrees. The setting is
on the right, or where no hand hides it: on the left, or below. Numerals stand over the hands.
Source of the arrangement: FAA-H-8083-25C, chapter 8, sensitive altimeter (from memory).
"""

from collections.abc import Iterator

from app.figures.figure import Figure, Values
from app.figures.instrument import corner_screws, square_case
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import Parameter, between, is_number
from app.figures.strokes import (
    EDGE,
    FRAME,
    Lettering,
    Pen,
    Point,
    around,
    centred,
    disc,
    polygon,
    ring,
    rounded,
    segment,
    segments,
    sheet,
    stroke,
)
from app.figures.words import pick
from app.physics.angles import difference

SIZE = (320.0, 320.0)
CENTRE = (160.0, 160.0)
GLASS, TICKS, NUMERALS = 134.0, 129.0, 94.0
LONG, SHORT = 17.0, 9.0
# Hands as points along and to the right of them; the short one is hollow, so that ink is spared and it stands apart.
TRIANGLE = ((112.0, 0.0), (127.0, 7.0), (127.0, -7.0))
SHORT_HAND = ((72.0, 0.0), (52.0, 10.0), (14.0, 4.0), (-14.0, 4.0), (-14.0, -4.0), (14.0, -4.0), (52.0, -10.0))
TRIANGLE_PEN, SHORT_PEN = Pen("ink", 1.75), Pen("ink", 2.25)
LONG_GROUND, LONG_PEN = Pen("card", 8), Pen("ink", 5)
WINDOW_SIZE, WINDOW_FROM_CENTRE = (58.0, 22.0), 57.0
WINDOWS = {90: 30, 270: 30, 180: 50}  # azimuth of a place for the window, and how far from it a hand leaves it free
HIGHEST_FT = 20_000
HANDS_FT = {"long": 1000, "short": 10_000, "rim": 100_000}  # feet in one turn of each hand
ALTITUDE = Parameter(
    f"feet from 0 to {HIGHEST_FT}, a whole multiple of 20",
    lambda value: is_number(value) and 0 <= value <= HIGHEST_FT and value % 20 == 0,
    needed=True,
)


def draw_altimeter(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw the altimeter at an indicated altitude, with its setting in the window."""
    altitude_ft, setting = values["indicated_ft"], _setting(values, language)
    title = pick(language, "Altimeter", "Altimètre")
    parts = [
        *square_case(SIZE),
        ring(CENTRE, GLASS, FRAME, "card"),
        *_marks(),
        *_window(altitude_ft, setting),
        *_hands(altitude_ft),
        disc(CENTRE, 6),
        *_numerals(),
        *corner_screws(SIZE),
    ]
    description = _describe(altitude_ft, setting, language)
    return Drawing("altimeter", sheet("altimeter", SIZE, parts, title, description), title, description)


def _setting(values: Values, language: Language) -> str:
    if "setting_hpa" in values:
        return f"{values['setting_hpa']:.0f}"
    return f"{values['setting_inhg']:.2f}".replace(".", pick(language, ".", ","))


def _marks() -> Iterator[str]:
    for labelled, length, pen in ((True, LONG, Pen("ink", 3)), (False, SHORT, EDGE)):
        azimuths = (7.2 * mark for mark in range(50) if (mark % 5 == 0) == labelled)
        yield stroke(segments((around(CENTRE, TICKS, a), around(CENTRE, TICKS - length, a)) for a in azimuths), pen)


def _numerals() -> Iterator[str]:
    for numeral in range(10):
        yield centred(around(CENTRE, NUMERALS, 36 * numeral), str(numeral), Lettering(25, bold=True, halo="card"))


def _window(altitude_ft: float, setting: str) -> Iterator[str]:
    """Draw the setting where neither of the two thick hands comes over it."""
    hands = [360 * altitude_ft / HANDS_FT[name] for name in ("long", "short")]
    place = next(at for at, free in WINDOWS.items() if all(abs(difference(hand, at)) >= free for hand in hands))
    middle = around(CENTRE, WINDOW_FROM_CENTRE, place)
    corner = middle[0] - WINDOW_SIZE[0] / 2, middle[1] - WINDOW_SIZE[1] / 2
    yield stroke(rounded(corner, WINDOW_SIZE, 3), EDGE, "paper")
    yield centred(middle, setting, Lettering(15, bold=True))


def _hands(altitude_ft: float) -> Iterator[str]:
    """Draw the hands from the rear to the front; each outline begins at its tip (the triangle's points inward)."""
    rim, short, long = (360 * altitude_ft / feet for feet in reversed(HANDS_FT.values()))
    yield stroke(segment(around(CENTRE, 112, rim), CENTRE), Pen("ink", 1.25))
    yield stroke(polygon(_turned(point, rim) for point in TRIANGLE), TRIANGLE_PEN, "ink")
    yield stroke(polygon(_turned(point, short) for point in SHORT_HAND), SHORT_PEN, "card")
    ends = around(CENTRE, 112, long), around(CENTRE, -26, long)
    yield stroke(segment(*ends), LONG_GROUND)
    yield stroke(segment(*ends), LONG_PEN)


def _turned(point: Point, azimuth_deg: float) -> Point:
    """Return the point of a hand, given along and to the right of it, once the hand points to an azimuth."""
    along, across = point
    x, y = around(CENTRE, along, azimuth_deg)
    shift_x, shift_y = around((0, 0), across, azimuth_deg + 90)
    return x + shift_x, y + shift_y


def _describe(altitude_ft: float, setting: str, language: Language) -> str:
    names = {
        "long": pick(language, "The long thin hand", "La longue aiguille mince"),
        "short": pick(language, "The short wide hand", "La courte aiguille large"),
        "rim": pick(language, "The hand that ends in a triangle at the rim", "L'aiguille au triangle, au bord,"),
    }
    face = pick(
        language,
        "Round the dial stand the numerals 0 to 9, clockwise from the top, with five steps between neighbours.",
        "Autour du cadran, les chiffres 0 à 9 dans le sens horaire à partir du haut, cinq pas entre voisins.",
    )
    window = pick(language, f"In the window: {setting}.", f"Dans la fenêtre\u00a0: {setting}.")
    said = [f"{names[name]} {_place(altitude_ft, turn, language)}." for name, turn in HANDS_FT.items()]
    return " ".join([face, *said, window])


def _place(altitude_ft: float, turn_ft: int, language: Language) -> str:
    """Say where a hand points: its numeral, and how many steps of five beyond it, halves and tenths as decimals."""
    numeral, beyond = divmod(altitude_ft % turn_ft, turn_ft // 10)
    steps = f"{beyond * 50 / turn_ft:.1f}".removesuffix(".0")
    if steps == "0":
        return pick(language, f"is on {numeral:.0f}", f"est sur le {numeral:.0f}")
    name = "step" if steps == "1" else "steps"
    steps = steps.replace(".", pick(language, ".", ","))
    return pick(language, f"is {steps} {name} past {numeral:.0f}", f"est à {steps} pas après le {numeral:.0f}")


def _one_setting(values: Values) -> list[str]:
    if ("setting_inhg" in values) == ("setting_hpa" in values):
        return ["give setting_inhg or setting_hpa, one of them"]
    return []


ALTIMETER = Figure(
    "altimeter",
    {
        "indicated_ft": ALTITUDE,
        "setting_inhg": between(28, 31, "inches of mercury"),
        "setting_hpa": between(950, 1050, "hectopascals"),
    },
    draw_altimeter,
    _one_setting,
)
