"""Needles free to tilt, each in the plane of the magnetic meridian, magnetic north to the right.

A needle lies along the field: its north end (filled) is below the level line by the dip, above it where dip is
negative. With its parts drawn the field F is split into H, level, and Z, straight up or down.
"""

from collections.abc import Iterator

from app.figures.figure import Figure, Values
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import FLAG, between, need
from app.figures.strokes import (
    FRAME,
    HEAVY,
    THIN,
    YOURS,
    Lettering,
    Pen,
    Point,
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
from app.physics.angles import round_half_up

HEIGHT, MIDDLE_Y, HALF, LEVEL_HALF = 170.0, 88.0, 44.0, 48.0
COLUMNS = {1: (160.0,), 2: (92.0, 228.0), 3: (55.0, 160.0, 265.0)}
LETTERS = "abc"
LEVEL_WITHIN_DEG = 3.0  # a needle that tilts no more is called level


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw one to three needles side by side."""
    dips = [values[f"dip_{letter}_deg"] for letter in LETTERS if f"dip_{letter}_deg" in values]
    parts: list[str] = []
    for letter, x, dip in zip("ABC", COLUMNS[len(dips)], dips, strict=False):
        parts += [*_needle((x, MIDDLE_Y), dip, letter if len(dips) > 1 else "")]
        parts += _parts((x, MIDDLE_Y), dip) if values.get("show_parts") else []
    parts.append(
        centred(
            (160, HEIGHT - 12),
            pick(language, "magnetic north to the right", "nord magnétique à droite"),
            Lettering(),
        )
    )
    title = pick(language, "Dip needles" if len(dips) > 1 else "Dip needle", "Aiguille d'inclinaison")
    if language == "fr" and len(dips) > 1:
        title = "Aiguilles d’inclinaison"
    description = _describe(dips, language, parts_drawn=values.get("show_parts", False))
    size = (320.0, HEIGHT)
    return Drawing("dip-needles", sheet("dip-needles", size, parts, title, description), title, description)


def _needle(at: Point, dip_deg: float, letter: str) -> Iterator[str]:
    x, y = at
    north, south = around(at, HALF, 90 + dip_deg), around(at, HALF, 270 + dip_deg)
    yield stroke(segment((x - LEVEL_HALF, y), (x + LEVEL_HALF, y)), THIN)
    yield stroke(segment(south, at), Pen("ink", 2))
    yield stroke(segment(at, north), Pen("ink", 5))
    yield disc(north, 5)
    yield ring(south, 4, FRAME, "card")
    yield disc(at, 3)
    if letter:
        yield centred((x, 16), letter, Lettering(18, bold=True))


def _parts(at: Point, dip_deg: float) -> list[str]:
    """Draw the level and the upright part of the field, as the two short sides under the needle's north end."""
    north = around(at, HALF, 90 + dip_deg)
    corner = (north[0], at[1])
    way = 1 if dip_deg >= 0 else -1
    return [
        stroke(segment(at, corner), HEAVY),
        stroke(segments([(corner, north)]), YOURS),
        centred(((at[0] + corner[0]) / 2, at[1] - 12 * way), "H", Lettering(16, bold=True)),
        centred((corner[0] + 14, (at[1] + north[1]) / 2), "Z", Lettering(16, bold=True)),
        centred(around(north, 14, 90 + dip_deg), "F", Lettering(16, bold=True)),
    ]


def _describe(dips: list[float], language: Language, *, parts_drawn: bool) -> str:
    said = []
    for letter, dip in zip("ABC", dips, strict=False):
        size = f"{round_half_up(abs(dip)):g}°"
        which = pick(language, f"Needle {letter}" if len(dips) > 1 else "The needle",
                     f"L'aiguille {letter}" if len(dips) > 1 else "L'aiguille")  # fmt: skip
        if abs(dip) <= LEVEL_WITHIN_DEG:
            said.append(pick(language, f"{which} lies level.", f"{which} est horizontale."))
            continue
        end = pick(language, "north" if dip > 0 else "south", "nord" if dip > 0 else "sud")
        said.append(
            pick(
                language,
                f"{which} has its {end} end {size} below the level line.",
                f"{which} a son extrémité {end} à {size} sous la ligne horizontale.",
            )
        )
    if parts_drawn:
        said.append(
            pick(
                language,
                "The field F along it is split into a level part H and an upright part Z.",
                "Le champ F, le long de l'aiguille, est décomposé en une part horizontale H et une part verticale Z.",
            )
        )
    return " ".join(said).replace(f" {NBSP}", NBSP)


def _in_order(values: Values) -> list[str]:
    if "dip_c_deg" in values and "dip_b_deg" not in values:
        return ["give dip_b_deg before dip_c_deg"]
    return []


DIP = between(-90, 90, "degrees, north end down positive,")
DIP_NEEDLES = Figure(
    "dip-needles",
    {"dip_a_deg": need(DIP), "dip_b_deg": DIP, "dip_c_deg": DIP, "show_parts": FLAG},
    draw,
    _in_order,
)
