"""Pitot tube and static port with their lines to three instruments, and a cross where something is blocked.

What the instruments then do is what the question asks: nothing here says it.
Source of the arrangement: FAA-H-8083-25C, chapter 8, pitot-static system (from memory).
"""

from collections.abc import Iterator

from app.figures.figure import Figure, Values
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import one_of
from app.figures.strokes import (
    EDGE,
    EVENT_DASH,
    FRAME,
    HEAVY,
    Lettering,
    Pen,
    Point,
    centred,
    polyline,
    ring,
    segment,
    segments,
    sheet,
    stroke,
    words,
)
from app.figures.words import in_a_row, pick

SIZE = (320.0, 256.0)
INSTRUMENTS = {"asi": (142.0, 54.0), "altimeter": (206.0, 54.0), "vsi": (270.0, 54.0)}
NAMES = {"asi": ("Airspeed", "Vitesse"), "altimeter": ("Altitude", "Altitude"), "vsi": ("Climb", "Montée")}
RADIUS = 27.0
PITOT_Y, STATIC_Y, ALTERNATE_Y = 138.0, 186.0, 234.0
OPENING, DRAIN, PORT, VALVE = (14.0, PITOT_Y), (52.0, PITOT_Y + 9), (14.0, STATIC_Y), (100.0, ALTERNATE_Y)
BLOCKED = {
    "none": (), "ram": ("opening",), "ram-drain": ("opening", "drain"), "static": ("port",),
    "all": ("opening", "drain", "port"), "alternate": (),
}  # fmt: skip
PLACES = {"opening": OPENING, "drain": DRAIN, "port": PORT}
SAID = {
    "opening": ("the opening of the pitot tube", "l'entrée du tube de Pitot"),
    "drain": ("its drain", "son drain"),
    "port": ("the static port", "la prise statique"),
}


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw the lines, and a cross at each blocked place; the alternate source is open or shut."""
    fault = values.get("fault", "none")
    title = pick(language, "Pitot and static lines", "Circuits de Pitot et statique")
    parts = [
        *_pitot(language),
        *_static(language),
        *_alternate(language, opened=fault == "alternate"),
        *_instruments(language),
        *(_cross(PLACES[place]) for place in BLOCKED[fault]),
    ]
    description = _describe(fault, language)
    return Drawing("plumbing", sheet("plumbing", SIZE, parts, title, description), title, description)


def _pitot(language: Language) -> Iterator[str]:
    """Draw the tube, open ahead (left) and below, and its line to the airspeed indicator."""
    tube = [(64, PITOT_Y - 9), (14, PITOT_Y - 9), (14, PITOT_Y - 4)], [(14, PITOT_Y + 4), (14, PITOT_Y + 9)]
    yield stroke(polyline(tube[0]), FRAME)
    yield stroke(polyline([*tube[1], (47, PITOT_Y + 9)]), FRAME)
    yield stroke(segment((57, PITOT_Y + 9), (64, PITOT_Y + 9)), FRAME)
    yield stroke(segment((64, PITOT_Y - 9), (64, PITOT_Y + 9)), FRAME)
    x, y = INSTRUMENTS["asi"]
    yield stroke(polyline([(64, PITOT_Y), (x - 10, PITOT_Y), (x - 10, y + RADIUS)]), HEAVY)
    yield words((10, PITOT_Y - 18), pick(language, "Pitot tube", "Tube de Pitot"), Lettering(anchor="start"))


def _static(language: Language) -> Iterator[str]:
    """Draw the port and its line, with a branch to each instrument."""
    yield stroke(polyline([(14, STATIC_Y - 12), (14, STATIC_Y + 12)]), Pen("ink", 2, "6 8"))
    last = INSTRUMENTS["vsi"][0]
    yield stroke(segment((14, STATIC_Y), (last, STATIC_Y)), Pen("ink", 2))
    for name, (x, y) in INSTRUMENTS.items():
        at = x + 10 if name == "asi" else x
        yield stroke(segment((at, STATIC_Y), (at, y + (RADIUS - 2 if name == "asi" else RADIUS))), Pen("ink", 2))
    yield words((24, STATIC_Y - 7), pick(language, "Static port", "Prise statique"), Lettering(anchor="start"))


def _alternate(language: Language, *, opened: bool) -> Iterator[str]:
    x, y = VALVE
    yield stroke(segment((x, STATIC_Y), (x, y - 10)), Pen("ink", 2, "" if opened else EVENT_DASH))
    yield ring(VALVE, 10, FRAME, "card")
    way = ((x, y - 10), (x, y + 10)) if opened else ((x - 10, y), (x + 10, y))
    yield stroke(segment(*way), FRAME)
    state = pick(language, "open" if opened else "shut", "ouverte" if opened else "fermée")
    said = pick(language, f"Alternate source: {state}", f"Prise de secours\u00a0: {state}")
    yield words((x + 16, y + 5), said, Lettering(anchor="start"))


def _instruments(language: Language) -> Iterator[str]:
    for name, (x, y) in INSTRUMENTS.items():
        yield ring((x, y), RADIUS, FRAME, "card")
        yield ring((x, y), RADIUS - 6, EDGE)
        yield stroke(segments([((x, y), (x - 8, y - 12))]), HEAVY)
        yield centred((x, y - RADIUS - 14), pick(language, *NAMES[name]), Lettering())


def _cross(at: Point) -> str:
    x, y = at
    return stroke(segments([((x - 9, y - 9), (x + 9, y + 9)), ((x - 9, y + 9), (x + 9, y - 9))]), Pen("ink", 4))


def _describe(fault: str, language: Language) -> str:
    lines = pick(
        language,
        "The pitot tube, with its opening ahead and a drain, feeds one side of the airspeed indicator. The static port "
        "feeds its other side, the altimeter and the vertical speed indicator.",
        "Le tube de Pitot, avec son entrée devant et un drain, alimente un côté de l'anémomètre. La prise statique "
        "alimente l'autre côté, l'altimètre et le variomètre.",
    )
    source = pick(
        language,
        f"The alternate source, in the cabin, is {'open' if fault == 'alternate' else 'shut'}.",
        f"La prise de secours, en cabine, est {'ouverte' if fault == 'alternate' else 'fermée'}.",
    )
    crossed = [pick(language, *SAID[place]) for place in BLOCKED[fault]]
    if not crossed:
        return f"{lines} {source}"
    listed = in_a_row(crossed, language)
    return f"{lines} {source} {pick(language, f'A cross blocks {listed}.', f'Une croix obstrue {listed}.')}"


PLUMBING = Figure("plumbing", {"fault": one_of(*BLOCKED)}, draw)
