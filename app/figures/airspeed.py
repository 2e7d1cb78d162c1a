"""The airspeed indicator: numerals each 20 kt, marks each 5, its arcs, and a needle.

Numerals and letters stand over the needle, so that it hides none. An arc is told from the others by its pattern and its
letter, never by colour: white hollow, green solid, yellow barred; the red line crosses them.
Source of the arrangement: FAA-H-8083-25C, chapter 8 (from memory).
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
from app.figures.words import NBSP, pick

SIZE = (320.0, 320.0)
CENTRE, GLASS, TICKS, NUMERALS = (160.0, 160.0), 134.0, 129.0, 72.0
SLOWEST_KT, FASTEST_KT, FIRST_DEG, PER_KT_DEG = 30, 180, 24.0, 2.08
GREEN, WHITE_IN, WHITE_OUT, YELLOW_IN, YELLOW_OUT, LETTERS = 116.0, 94.0, 104.0, 111.0, 121.0, 99.0
RED_FROM, NEEDLE = 88.0, 104.0
UNIT = (160.0, 120.0)  # in the gap of the scale, where no needle comes
ARCS = ("white_low_kt", "white_high_kt", "green_low_kt", "green_high_kt", "red_kt")


def azimuth_of(speed_kt: float) -> float:
    """Return where a speed stands on the dial, degrees clockwise from the top."""
    return FIRST_DEG + PER_KT_DEG * (speed_kt - SLOWEST_KT)


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw the dial, with its arcs where they are given and the needle where a speed is."""
    title = pick(language, "Airspeed indicator", "Anémomètre")
    parts = [
        *square_case(SIZE),
        ring(CENTRE, GLASS, FRAME, "card"),
        *_marks(),
        *(_arcs(values) if "red_kt" in values else ()),
        *(_needle(values["ias_kt"]) if "ias_kt" in values else ()),
        *_numerals(),
        *(_letters(values, language) if "red_kt" in values else ()),
        *corner_screws(SIZE),
    ]
    description = _describe(values, language)
    return Drawing("airspeed", sheet("airspeed", SIZE, parts, title, description), title, description)


def _marks() -> Iterator[str]:
    speeds = range(SLOWEST_KT, FASTEST_KT + 1, 5)
    for tens, length, pen in ((True, 16, Pen("ink", 2.5)), (False, 9, EDGE)):
        azimuths = (azimuth_of(speed) for speed in speeds if (speed % 10 == 0) == tens)
        yield stroke(segments((around(CENTRE, TICKS, a), around(CENTRE, TICKS - length, a)) for a in azimuths), pen)


def _numerals() -> Iterator[str]:
    for speed in range(40, FASTEST_KT + 1, 20):
        yield centred(around(CENTRE, NUMERALS, azimuth_of(speed)), str(speed), Lettering(18, bold=True, halo="card"))
    yield centred(UNIT, "kt")


def _arcs(values: Values) -> Iterator[str]:
    white, green, red = _ends(values)
    yield stroke(arc(CENTRE, GREEN, *green), Pen("ink", 6))
    yield from _band((WHITE_IN, WHITE_OUT), white)
    yield from _band((YELLOW_IN, YELLOW_OUT), (green[1], red))
    bars = (green[1] + 4 * step for step in range(1, int((red - green[1]) / 4) + 1))
    yield stroke(segments((around(CENTRE, YELLOW_IN, a), around(CENTRE, YELLOW_OUT, a)) for a in bars), EDGE)
    yield stroke(segment(around(CENTRE, RED_FROM, red), around(CENTRE, GLASS, red)), Pen("ink", 5))


def _ends(values: Values) -> tuple[tuple[float, float], tuple[float, float], float]:
    """Return where the white and green arcs begin and end, and where the red line is."""
    at = {name: azimuth_of(values[name]) for name in ARCS}
    white, green = (at["white_low_kt"], at["white_high_kt"]), (at["green_low_kt"], at["green_high_kt"])
    return white, green, at["red_kt"]


def _letters(values: Values, language: Language) -> Iterator[str]:
    white, green, red = _ends(values)
    spots = (white[1] + 7, green[1] - 12, (green[1] + red) / 2, red + 9)
    for azimuth, letter in zip(spots, pick(language, "WGYR", "BVJR"), strict=True):
        yield centred(around(CENTRE, LETTERS, azimuth), letter, Lettering(15, bold=True, halo="card"))


def _band(radii: tuple[float, float], ends: tuple[float, float]) -> Iterator[str]:
    """Draw a hollow arc, shut at both ends."""
    for radius in radii:
        yield stroke(arc(CENTRE, radius, *ends), EDGE)
    yield stroke(segments((around(CENTRE, radii[0], end), around(CENTRE, radii[1], end)) for end in ends), EDGE)


def _needle(speed_kt: float) -> Iterator[str]:
    ends = around(CENTRE, NEEDLE, azimuth_of(speed_kt)), around(CENTRE, -24, azimuth_of(speed_kt))
    yield stroke(segment(*ends), Pen("card", 8))
    yield stroke(segment(*ends), Pen("ink", 5))
    yield disc(CENTRE, 8)


def _describe(values: Values, language: Language) -> str:
    said = [
        pick(
            language,
            f"Numerals each 20{NBSP}kt from 40 to 180, clockwise, with marks each 5{NBSP}kt.",
            f"Chiffres tous les 20{NBSP}kt, de 40 à 180, dans le sens horaire, traits tous les 5{NBSP}kt.",
        )
    ]
    if "red_kt" in values:
        w, x, g, h, r = (f"{values[name]:g}" for name in ARCS)
        said.append(
            pick(
                language,
                f"Hollow arc W, white, {w} to {x}; solid arc G, green, {g} to {h}; barred arc Y, yellow, {h} to {r}; "
                f"line R, red, at {r}.",
                f"Arc creux B, blanc, de {w} à {x}; arc plein V, vert, de {g} à {h}; arc barré J, jaune, de {h} à {r}; "
                f"trait R, rouge, à {r}.",
            )
        )
    if "ias_kt" in values:
        said.append(_needle_words(values["ias_kt"], language))
    return " ".join(said)


def _needle_words(speed_kt: float, language: Language) -> str:
    numeral, past = divmod(int(speed_kt), 20)
    marks = past // 5
    if not marks:
        return pick(language, f"The needle is on {20 * numeral}.", f"L'aiguille est sur {20 * numeral}.")
    name = pick(language, "mark" if marks == 1 else "marks", "trait" if marks == 1 else "traits")
    return pick(
        language,
        f"The needle is {marks} {name} past {20 * numeral}.",
        f"L'aiguille est à {marks} {name} après {20 * numeral}.",
    )


def _whole_set(values: Values) -> list[str]:
    """Demand the arcs together, each from its lower to its higher end, or the needle, or both."""
    given = [name for name in ARCS if name in values]
    if given and len(given) < len(ARCS):
        return [f"give all of {', '.join(ARCS)}, or none"]
    if not given and "ias_kt" not in values:
        return ["give ias_kt, the arcs, or both"]
    if given and not (values["white_low_kt"] < values["white_high_kt"] < values["red_kt"]):
        return ["the white arc begins below its end, and the red line is above it"]
    if given and not (values["green_low_kt"] < values["green_high_kt"] < values["red_kt"]):
        return ["the green arc begins below its end, and the red line is above it"]
    return []


MARKED = between(SLOWEST_KT, FASTEST_KT, "a number of knots")
ON_A_MARK = Parameter(
    f"knots from 40 to {FASTEST_KT}, a multiple of 5",
    lambda v: is_number(v) and 40 <= v <= FASTEST_KT and v % 5 == 0,
)
AIRSPEED = Figure("airspeed", {"ias_kt": ON_A_MARK, **dict.fromkeys(ARCS, MARKED)}, draw, _whole_set)
