"""The suction gauge of the gyros: inches of mercury from 0 to 8, marks each fifth, a solid arc where it should stand.

The arc from 4.5 to 5.5: common practice, FAA-H-8083-25C, chapter 8 (from memory); an aircraft's own manual may differ.
"""

from collections.abc import Iterator

from app.figures.figure import Figure, Values
from app.figures.instrument import corner_screws, square_case
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import Parameter, is_number, need
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
CENTRE, GLASS, NUMERALS, TICKS, GREEN, NEEDLE = (160.0, 160.0), 134.0, 117.0, 102.0, 88.0, 80.0
MOST, MARKS_AN_INCH, FIRST_DEG, PER_INCH_DEG = 8, 5, -120.0, 30.0
ARC_LOW, ARC_HIGH = 4.5, 5.5
LETTER_AT = 5.5


def azimuth_of(suction_inhg: float) -> float:
    """Return where a suction stands on the dial, degrees clockwise from the top."""
    return FIRST_DEG + PER_INCH_DEG * suction_inhg


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw the dial with its arc and its needle."""
    title = pick(language, "Suction gauge", "Indicateur de dépression")
    unit = pick(language, "IN HG", "PO HG")
    parts = [
        *square_case(SIZE),
        ring(CENTRE, GLASS, FRAME, "card"),
        *_scale(),
        *_green(language),
        centred((CENTRE[0], 214), pick(language, "SUCTION", "DÉPRESSION"), Lettering(16, bold=True)),
        centred((CENTRE[0], 236), unit, Lettering(15)),
        *_needle(values["suction_inhg"]),
        *corner_screws(SIZE),
    ]
    description = _describe(values["suction_inhg"], language)
    return Drawing("suction-gauge", sheet("suction-gauge", SIZE, parts, title, description), title, description)


def _scale() -> Iterator[str]:
    marks = range(MOST * MARKS_AN_INCH + 1)
    for whole, length, pen in ((True, 18, Pen("ink", 3)), (False, 10, EDGE)):
        azimuths = [azimuth_of(mark / MARKS_AN_INCH) for mark in marks if (mark % MARKS_AN_INCH == 0) == whole]
        yield stroke(segments((around(CENTRE, TICKS, a), around(CENTRE, TICKS - length, a)) for a in azimuths), pen)
    for inches in range(MOST + 1):
        yield centred(around(CENTRE, NUMERALS, azimuth_of(inches)), str(inches), Lettering(22, bold=True))


def _green(language: Language) -> Iterator[str]:
    yield stroke(arc(CENTRE, GREEN, azimuth_of(ARC_LOW), azimuth_of(ARC_HIGH)), Pen("ink", 6))
    yield centred(around(CENTRE, NUMERALS, azimuth_of(LETTER_AT)), pick(language, "G", "V"), Lettering(16))


def _needle(suction_inhg: float) -> Iterator[str]:
    ends = (around(CENTRE, length, azimuth_of(suction_inhg)) for length in (NEEDLE, -20))
    line = segment(*ends)
    yield stroke(line, Pen("card", 8))
    yield stroke(line, Pen("ink", 5))
    yield disc(CENTRE, 8)


def _describe(suction_inhg: float, language: Language) -> str:
    inches, marks = divmod(round(suction_inhg * MARKS_AN_INCH), MARKS_AN_INCH)
    face = pick(
        language,
        f"Numerals 0 to {MOST}, inches of mercury, clockwise, with five steps between neighbours. "
        f"Solid arc G, green, from half-way between 4 and 5 to half-way between 5 and 6.",
        f"Chiffres 0 à {MOST}, pouces de mercure, dans le sens horaire, cinq pas entre voisins. "
        f"Arc plein V, vert, de la moitié entre 4 et 5 à la moitié entre 5 et 6.",
    )
    if not marks:
        place = pick(language, f"on {inches}", f"sur {inches}")
    else:
        steps = "step" if marks == 1 else "steps"
        place = pick(language, f"{marks} {steps} past {inches}", f"à {marks} pas après {inches}")
    return f"{face} {pick(language, 'The needle is', f'Aiguille{NBSP}:')} {place}."


ON_A_MARK = Parameter(
    f"inches of mercury from 0 to {MOST}, a multiple of 0.2",
    lambda v: is_number(v) and 0 <= v <= MOST and abs(v * MARKS_AN_INCH - round(v * MARKS_AN_INCH)) < 1e-9,
)
SUCTION_GAUGE = Figure("suction-gauge", {"suction_inhg": need(ON_A_MARK)}, draw)
