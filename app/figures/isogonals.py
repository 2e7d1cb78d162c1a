"""A chart fragment: two isogonals, the agonic line where it passes between them, and a place or a leg.

Lines are evenly spaced from the first, on the left, to the next; a place stands at its share of the way. The value at
the place is what the question asks: nothing here says it.
"""

from collections.abc import Iterator

from app.figures.faces import size_and_letter
from app.figures.figure import Figure, Values
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import between, need
from app.figures.strokes import (
    EDGE,
    FRAME,
    GRATICULE,
    HEAVY,
    MAGNETIC,
    THIN,
    Lettering,
    Pen,
    Point,
    centred,
    disc,
    polyline,
    rounded,
    segment,
    segments,
    sheet,
    stroke,
    words,
)
from app.figures.words import NBSP, pick

SIZE = (320.0, 260.0)
LEFT, RIGHT, TOP, BOTTOM = 10.0, 310.0, 10.0, 250.0
FIRST, NEXT, MIDDLE_Y, LEAN = 70.0, 240.0, 140.0, 0.22  # lines lean to the right going up
LINE_TOP, LINE_BOTTOM = 42.0, 224.0
LABEL_HALF = 34.0  # a distance is written this far from the lines at least


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw the fragment; with distances a place between the lines, without them a leg from one to the other."""
    first, last = values["isogonal_deg"], values["next_isogonal_deg"]
    parts = [
        stroke(rounded((LEFT, TOP), (RIGHT - LEFT, BOTTOM - TOP), 2), EDGE, "card"),
        stroke(segments(_graticule()), GRATICULE),
        *_isogonal(FIRST, first, language),
        *_isogonal(NEXT, last, language),
        *(_isogonal(_x_of_zero(first, last), 0, language) if first * last < 0 else ()),
        *(_place(values) if "gone_nm" in values else _leg()),
    ]
    title = pick(language, "Chart with isogonals", "Carte avec lignes isogones")
    description = _describe(values, language)
    return Drawing("isogonals", sheet("isogonals", SIZE, parts, title, description), title, description)


def _graticule() -> Iterator[tuple[Point, Point]]:
    for x in (85.0, 160.0, 235.0):
        yield (x, TOP), (x, BOTTOM)
    for y in (70.0, 190.0):
        yield (LEFT, y), (RIGHT, y)


def _x_of_zero(first_deg: float, next_deg: float) -> float:
    return FIRST + (NEXT - FIRST) * first_deg / (first_deg - next_deg)


def _isogonal(x: float, value_deg: float, language: Language) -> Iterator[str]:
    """Draw a line by where it crosses the middle: dashed, and the agonic line whole."""
    ends = (x + LEAN * (MIDDLE_Y - LINE_TOP), LINE_TOP), (x - LEAN * (LINE_BOTTOM - MIDDLE_Y), LINE_BOTTOM)
    yield stroke(segment(*ends), Pen("magnetic", 2.5) if value_deg == 0 else MAGNETIC)
    label = size_and_letter(value_deg, language).replace(NBSP, f"°{NBSP}") if value_deg else "0°"
    at = (ends[1][0], LINE_BOTTOM + 12) if value_deg == 0 else (ends[0][0], LINE_TOP - 14)
    yield centred(at, label, Lettering(16, "magnetic", bold=True, halo="card"))


def _place(values: Values) -> Iterator[str]:
    gone, left = values["gone_nm"], values["left_nm"]
    x = FIRST + (NEXT - FIRST) * gone / (gone + left)
    yield stroke(segment((FIRST, MIDDLE_Y), (NEXT, MIDDLE_Y)), THIN)
    yield disc((x, MIDDLE_Y), 5)
    before, after = max((FIRST + x) / 2, FIRST + LABEL_HALF), min((x + NEXT) / 2, NEXT - LABEL_HALF)
    for middle, distance, y in ((before, gone, 160), (after, left, 124)):
        yield centred((middle, y), f"{distance:g}{NBSP}NM", Lettering(16, halo="card"))


def _leg() -> Iterator[str]:
    yield stroke(segment((FIRST, MIDDLE_Y), (NEXT, MIDDLE_Y)), HEAVY)
    yield disc((FIRST, MIDDLE_Y), 5)
    yield disc((NEXT, MIDDLE_Y), 5)
    head = ((NEXT - 22, MIDDLE_Y - 7), (NEXT - 8, MIDDLE_Y), (NEXT - 22, MIDDLE_Y + 7))
    yield stroke(polyline(head), FRAME)
    for x, letter in ((FIRST - 14, "A"), (NEXT + 14, "B")):
        yield words((x, MIDDLE_Y + 22), letter, Lettering(17, bold=True, halo="card"))


def _describe(values: Values, language: Language) -> str:
    first, last = (_value(values[name], language) for name in ("isogonal_deg", "next_isogonal_deg"))
    said = [
        pick(
            language,
            f"Two slanting isogonals on a chart, marked {first} and {last}.",
            f"Deux lignes isogones obliques sur une carte, marquées {first} et {last}.",
        )
    ]
    if values["isogonal_deg"] * values["next_isogonal_deg"] < 0:
        said.append(
            pick(
                language,
                "The agonic line, marked 0°, passes between them.",
                "La ligne agone, marquée 0°, passe entre elles.",
            )
        )
    if "gone_nm" in values:
        gone, left = f"{values['gone_nm']:g}{NBSP}NM", f"{values['left_nm']:g}{NBSP}NM"
        said.append(
            pick(
                language,
                f"A place lies between them, {gone} from the line {first} and {left} from the line {last}.",
                f"Un lieu se trouve entre elles, à {gone} de la ligne {first} et à {left} de la ligne {last}.",
            )
        )
    else:
        said.append(
            pick(
                language,
                f"A leg runs straight from A, on the line {first}, to B, on the line {last}.",
                f"Une étape va droit de A, sur la ligne {first}, à B, sur la ligne {last}.",
            )
        )
    return " ".join(said)


def _value(value_deg: float, language: Language) -> str:
    return size_and_letter(value_deg, language).replace(NBSP, f"°{NBSP}") if value_deg else "0°"


def _together(values: Values) -> list[str]:
    if ("gone_nm" in values) != ("left_nm" in values):
        return ["give gone_nm and left_nm, or neither"]
    if values["isogonal_deg"] == values["next_isogonal_deg"]:
        return ["the two isogonals must differ"]
    return []


NEAR = between(1, 500, "a number of nautical miles")
ISOGONALS = Figure(
    "isogonals",
    {
        "isogonal_deg": need(between(-90, 90, "degrees, east positive,")),
        "next_isogonal_deg": need(between(-90, 90, "degrees, east positive,")),
        "gone_nm": NEAR,
        "left_nm": NEAR,
    },
    draw,
    _together,
)
