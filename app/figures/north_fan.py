"""Three norths from one point: T, M and C, with the angles between them, and one heading measured from each.

Magnetic north lies V east of true north, compass north D east of magnetic north, V = T - M and D = M - C. A north is
drawn only where its place follows from what is given.
"""

from collections.abc import Iterator, Mapping

from app.figures.aeroplane import three_strokes
from app.figures.faces import size_and_letter, three_digits
from app.figures.figure import Figure, Values
from app.figures.ladder_words import row_names
from app.figures.model import Drawing, Language, Medium
from app.figures.norths import compass_north, magnetic_north, star
from app.figures.parameters import EAST_POSITIVE, HEADING
from app.figures.strokes import EDGE, TRUE, Lettering, Pen, Point, arc, around, centred, segment, sheet, stroke, words
from app.figures.words import in_a_row, pick
from app.physics.angles import difference, wrap360

SIZE = (320.0, 320.0)
CENTRE: Point = (160.0, 204.0)
REACH = {"T": 164.0, "M": 138.0, "C": 112.0}
INK = {"T": "true", "M": "magnetic", "C": "ink"}
HEADINGS = {"T": "true_deg", "M": "magnetic_deg", "C": "compass_deg"}
HEADING_REACH = 104.0
ARCS = {"variation_deg": ("T", "M", 88.0), "deviation_deg": ("M", "C", 62.0)}


def norths(values: Values) -> dict[str, float]:
    """Return the azimuth of each north that follows from what is given; the uppermost one known points up."""
    errors = _errors(values)
    if "deviation_deg" in errors and "variation_deg" not in errors:
        return {"M": 0.0, "C": errors["deviation_deg"]}
    if "variation_deg" not in errors:
        return {"T": 0.0} if "true_deg" in values or "compass_deg" not in values else {"C": 0.0}
    at = {"T": 0.0, "M": errors["variation_deg"]}
    return at | ({"C": at["M"] + errors["deviation_deg"]} if "deviation_deg" in errors else {})


def _errors(values: Values) -> dict[str, float]:
    """Return variation and deviation as given, or as the difference of two headings."""
    found = {}
    for name, (upper, lower, _) in ARCS.items():
        if name in values:
            found[name] = float(values[name])
        elif HEADINGS[upper] in values and HEADINGS[lower] in values:
            found[name] = difference(values[HEADINGS[upper]], values[HEADINGS[lower]])
    return found


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw the norths that are known, the angles between them and the heading."""
    at = norths(values)
    ray = _heading_azimuth(values, at)
    parts = [
        *(part for row, azimuth in at.items() for part in _north(row, azimuth, _side(at))),
        *_angles(at, language),
        *_heading(ray, values, language),
        *three_strokes(CENTRE, ray if ray is not None else 0),
    ]
    title = pick(language, "Norths and the heading", "Les nords et le cap")
    description = _describe(at, values, language)
    return Drawing("north-fan", sheet("north-fan", SIZE, parts, title, description), title, description)


def _heading_azimuth(values: Values, at: Mapping[str, float]) -> float | None:
    return next(
        (wrap360(at[row] + values[name]) for row, name in HEADINGS.items() if row in at and name in values), None
    )


def _side(at: Mapping[str, float]) -> int:
    """Return on which side of magnetic north the compass's own lies: +1 right, -1 left."""
    return 1 if at.get("C", 0) >= at.get("M", 0) else -1


def _north(row: str, azimuth: float, side: int) -> Iterator[str]:
    """Draw one north and its letter: beyond its head, or beside it where another ray runs on close by."""
    foot, tip = around(CENTRE, 18, azimuth), around(CENTRE, REACH[row], azimuth)
    letter_at = around(CENTRE, REACH[row] + 15, azimuth)
    if row == "T":
        yield stroke(segment(foot, tip), TRUE)
        yield star(around(CENTRE, REACH[row] + 4, azimuth))
        letter_at = around(CENTRE, REACH[row] + 22, azimuth)
    elif row == "M":
        yield from magnetic_north(foot, tip, azimuth)
    else:
        yield from compass_north(foot, tip, azimuth)
        letter_at = around(around(CENTRE, REACH[row] - 4, azimuth), 15, azimuth + 90 * side)
    yield centred(letter_at, row, Lettering(18, INK[row], bold=True, halo="paper"))


def _angles(at: Mapping[str, float], language: Language) -> Iterator[str]:
    """Draw the angle between neighbouring norths: variation named beyond true, deviation on the side away from true."""
    for upper, lower, radius in ARCS.values():
        if upper not in at or lower not in at or at[upper] == at[lower]:
            continue
        east = at[lower] - at[upper]
        yield stroke(arc(CENTRE, radius, at[upper], at[lower]), EDGE)
        away = at["M"] or at.get("C", 0)
        right = east < 0 if upper == "T" else away > 0
        outer = max(at[upper], at[lower]) if right else min(at[upper], at[lower])
        x, y = around(CENTRE, radius, outer)
        style = Lettering(15, bold=True, anchor="start" if right else "end", halo="paper")
        yield centred((x + (8 if right else -8), y), size_and_letter(east, language), style)


def _heading(ray: float | None, values: Values, language: Language) -> Iterator[str]:
    """Draw the heading and list it as measured from each north, in the corner away from it."""
    if ray is not None:
        yield stroke(segment(around(CENTRE, 18, ray), around(CENTRE, HEADING_REACH, ray)), Pen("ink", 3))
    rows = [row for row, name in HEADINGS.items() if name in values]
    right = ray is not None and ray > 180
    x, anchor = (SIZE[0] - 6, "end") if right else (6, "start")
    for line, row in enumerate(reversed(rows)):
        said = f"{row_names(language)[row]} {three_digits(values[HEADINGS[row]])}"
        yield words((x, SIZE[1] - 12 - 22 * line), said, Lettering(16, INK[row], bold=True, anchor=anchor))


def _describe(at: Mapping[str, float], values: Values, language: Language) -> str:
    names = row_names(language)
    drawn = in_a_row([names[row] for row in at], language)
    said = [pick(language, f"Arrows from one point: north {drawn}.", f"Flèches d'un même point\u00a0: nord {drawn}.")]
    for name, (upper, lower, _) in ARCS.items():
        if upper in at and lower in at:
            said.append(f"{names[name].capitalize()} {size_and_letter(at[lower] - at[upper], language)}.")
    headings = [f"{names[row]} {three_digits(values[name])}" for row, name in HEADINGS.items() if name in values]
    if headings:
        listed = in_a_row(headings, language)
        said.append(pick(language, f"The heading: {listed}.", f"Le cap\u00a0: {listed}."))
    return " ".join(said)


def _conflicts(values: Values) -> list[str]:
    if not values:
        return ["nothing is given: give headings, variation_deg or deviation_deg"]
    errors = _errors(values)
    return [f"{name} comes to {errors[name]:g}: a fan shows 60 at most" for name in errors if abs(errors[name]) > 60]


NORTH_FAN = Figure(
    "north-fan",
    {
        "true_deg": HEADING,
        "magnetic_deg": HEADING,
        "compass_deg": HEADING,
        "variation_deg": EAST_POSITIVE,
        "deviation_deg": EAST_POSITIVE,
    },
    draw,
    _conflicts,
)
