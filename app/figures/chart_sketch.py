"""A piece of chart on a square grid of nautical miles, true north up: places, and rings one of which may be picked.

Places are counted east and north from the lower left corner. Lines are drawn after the answer, from a place:
position lines to the edge, legs to another place. On a page a
ring carries the number of its option, so that pressing it chooses that option.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from app.figures.figure import Figure, Values
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import Parameter, between, is_number, need
from app.figures.strokes import (
    EDGE,
    FRAME,
    GRATICULE,
    HEAVY,
    THIN,
    Lettering,
    Pen,
    Point,
    around,
    centred,
    disc,
    fill,
    number,
    polygon,
    polyline,
    ring,
    rounded,
    segment,
    segments,
    sheet,
    stroke,
)
from app.figures.words import NBSP, pick

LEFT, BOTTOM, WIDE, HIGH = 10.0, 260.0, 300.0, 250.0
SIZE = (320.0, 292.0)
SQUARES_ACROSS, SQUARES_UP = 12, 10
MARKS = ("landmark", "aircraft", "field", "ring")
RING, REACH = 8.0, 16.0


def place_on(values: Values, east_nm: float, north_nm: float) -> Point:
    """Return where a place stands on the drawing."""
    unit = WIDE / (SQUARES_ACROSS * values["square_nm"])
    return LEFT + unit * east_nm, BOTTOM - unit * north_nm


def draw(values: Values, language: Language, medium: Medium) -> Drawing:
    """Draw the grid, the lines, the places and what marks the key."""
    frame = stroke(rounded((LEFT, BOTTOM - HIGH), (WIDE, HIGH), 1), EDGE, "card")
    parts = [frame, stroke(segments(_grid()), GRATICULE), *_scale_and_north(values), *_lines(values)]
    for spot in values["spots"]:
        at = place_on(values, spot["east_nm"], spot["north_nm"])
        parts += _ring(at, spot["label"], medium) if spot["mark"] == "ring" else _mark(at, spot)
        if spot["label"] == values.get("key_spot"):
            parts.append(fill(polygon([(at[0], at[1] - 10), (at[0] - 6, at[1] - 21), (at[0] + 6, at[1] - 21)]), "ink"))
        if spot["label"] == values.get("yours_spot"):
            parts.append(ring(at, RING + 5, Pen("ink", 1.5)))
    title = pick(language, "Piece of a chart", "Fragment de carte")
    description = _describe(values, language)
    return Drawing("chart-sketch", sheet("chart-sketch", SIZE, parts, title, description), title, description)


def _grid() -> Iterator[tuple[Point, Point]]:
    side = WIDE / SQUARES_ACROSS
    for n in range(1, SQUARES_ACROSS):
        yield (LEFT + side * n, BOTTOM), (LEFT + side * n, BOTTOM - HIGH)
    for n in range(1, SQUARES_UP):
        yield (LEFT, BOTTOM - side * n), (LEFT + WIDE, BOTTOM - side * n)


def _scale_and_north(values: Values) -> Iterator[str]:
    """Draw the bar of two squares under the chart, and the arrow of true north inside it."""
    side = WIDE / SQUARES_ACROSS
    ends = [((LEFT + n * side, BOTTOM + 8), (LEFT + n * side, BOTTOM + 16)) for n in range(3)]
    yield stroke(segments([*ends, ((LEFT, BOTTOM + 12), (LEFT + 2 * side, BOTTOM + 12))]), FRAME)
    said = f"{2 * values['square_nm']:g}{NBSP}NM"
    yield centred((LEFT + 2 * side + 34, BOTTOM + 13), said, Lettering(14))
    x = LEFT + WIDE - 14
    yield stroke(segment((x, BOTTOM + 26), (x, BOTTOM + 6)), FRAME)
    yield stroke(polyline(((x - 4, BOTTOM + 12), (x, BOTTOM + 5), (x + 4, BOTTOM + 12))), FRAME)
    yield centred((x - 16, BOTTOM + 16), "N", Lettering(15, "true", bold=True))


def _lines(values: Values) -> Iterator[str]:
    """Draw each position line from its place to the edge of the chart, each leg to its end."""
    places = {spot["label"]: spot for spot in values["spots"]}
    for line in values.get("lines", ()):
        start, *ends = (
            place_on(values, places[line[name]]["east_nm"], places[line[name]]["north_nm"])
            for name in ("from", "to")
            if name in line
        )
        yield stroke(segment(start, ends[0] if ends else _edge(start, line["bearing_deg"])), HEAVY)


def _edge(start: Point, azimuth_deg: float) -> Point:
    """Return where a line from a point leaves the chart."""
    step = around((0, 0), 1, azimuth_deg)
    reach = [
        (limit - at) / go
        for at, go, limits in ((start[0], step[0], (LEFT, LEFT + WIDE)), (start[1], step[1], (BOTTOM - HIGH, BOTTOM)))
        for limit in limits
        if abs(go) > 1e-9 and (limit - at) / go > 0
    ]
    return start[0] + min(reach) * step[0], start[1] + min(reach) * step[1]


def _ring(at: Point, label: str, medium: Medium) -> Iterator[str]:
    """Draw a ring with its number; on a page what can be pressed reaches further than what is drawn."""
    drawn = ring(at, RING + 2, FRAME, "card") + centred(at, label, Lettering(14, bold=True))
    if medium == "paper":
        yield drawn
        return
    area = f'<circle class="" cx="{number(at[0])}" cy="{number(at[1])}" r="{number(REACH)}" fill="none"/>'
    yield f'<g class="spot" data-pick="{label}">{area}{drawn}</g>'


def _mark(at: Point, spot: Mapping[str, Any]) -> Iterator[str]:
    x, y = at
    if spot["mark"] == "landmark":
        yield fill(polygon([(x, y - 8), (x - 7, y + 5), (x + 7, y + 5)]), "ink")
    elif spot["mark"] == "field":
        yield ring(at, 6, FRAME, "card")
        yield stroke(segment((x - 9, y), (x + 9, y)), THIN)
    else:
        yield disc(at, 4.5)
    side = -1 if x > LEFT + WIDE - 30 else 1
    yield centred((x + 16 * side, y - 3), spot["label"], Lettering(17, bold=True, halo="card"))


def _describe(values: Values, language: Language) -> str:
    said = [
        pick(
            language,
            f"A chart with squares of {values['square_nm']:g}{NBSP}NM, true north up. "
            f"Places in NM east and north of its lower left corner:",
            f"Une carte à carreaux de {values['square_nm']:g}{NBSP}NM, nord vrai en haut. "
            f"Lieux en NM à l'est et au nord de son coin inférieur gauche\u00a0:",
        )
    ]
    names = {
        "landmark": pick(language, "landmark", "repère"),
        "aircraft": pick(language, "your position", "votre position"),
        "field": pick(language, "airfield", "aérodrome"),
        "ring": pick(language, "ring", "anneau"),
    }
    places = [
        f"{names[spot['mark']]} {spot['label']} ({_decimal(spot['east_nm'], language)} "
        f"{pick(language, 'and', 'et')} {_decimal(spot['north_nm'], language)})"
        for spot in values["spots"]
    ]
    said.append("; ".join(places) + ".")
    if "key_spot" in values:
        said.append(pick(language, f"The key is {values['key_spot']}.", f"La réponse est {values['key_spot']}."))
    return " ".join(said)


def _decimal(value: float, language: Language) -> str:
    return f"{value:.1f}".replace(".", pick(language, ".", ","))


def _is_spot(value: Any) -> bool:
    return (
        isinstance(value, Mapping)
        and set(value) == {"label", "mark", "east_nm", "north_nm"}
        and value["mark"] in MARKS
        and isinstance(value["label"], str)
        and is_number(value["east_nm"])
        and is_number(value["north_nm"])
    )


def _is_line(value: Any) -> bool:
    if not isinstance(value, Mapping):
        return False
    return set(value) == {"from", "to"} or (set(value) == {"from", "bearing_deg"} and is_number(value["bearing_deg"]))


def _many(what: str, fits: Any) -> Parameter:
    return Parameter(what, lambda value: isinstance(value, Sequence) and len(value) > 0 and all(map(fits, value)))


def _conflicts(values: Values) -> list[str]:
    labels = [spot["label"] for spot in values["spots"]]
    wide, high = SQUARES_ACROSS * values["square_nm"], SQUARES_UP * values["square_nm"]
    found = [
        f"{spot['label']} lies outside the chart of {wide:g} by {high:g} NM"
        for spot in values["spots"]
        if not (0 <= spot["east_nm"] <= wide and 0 <= spot["north_nm"] <= high)
    ]
    named = [line[name] for line in values.get("lines", ()) for name in ("from", "to") if name in line]
    named += [values[name] for name in ("key_spot", "yours_spot") if name in values]
    return found + [
        f"there is no place {name!r}: there are {', '.join(labels)}" for name in named if name not in labels
    ]


LABEL_OF_SPOT = Parameter("the label of a place", lambda value: isinstance(value, str))
CHART_SKETCH = Figure(
    "chart-sketch",
    {
        "square_nm": need(between(1, 20, "a number of nautical miles")),
        "spots": need(_many("a list of {label, mark, east_nm, north_nm}", _is_spot)),
        "lines": _many("a list of {from, bearing_deg} or {from, to}", _is_line),
        "key_spot": LABEL_OF_SPOT,
        "yours_spot": LABEL_OF_SPOT,
    },
    draw,
    _conflicts,
)
