"""Three gyro instruments and what drives each: suction with its gauge, or the electrical feed.

A broken feed is barred above its box, and so are the instruments that hang on it. For verdicts: it shows what is lost.
"""

from collections.abc import Iterator, Mapping

from app.figures.figure import Figure, Values
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import need, one_of
from app.figures.strokes import (
    EDGE,
    FRAME,
    HEAVY,
    Lettering,
    Pen,
    Point,
    around,
    centred,
    polyline,
    ring,
    rounded,
    segment,
    segments,
    sheet,
    stroke,
)
from app.figures.words import in_a_row, pick

SIZE = (320.0, 250.0)
GYROS: Mapping[str, Point] = {
    "attitude-indicator": (60, 66), "heading-indicator": (160, 66), "turn-instrument": (260, 66),
}  # fmt: skip
NAMES = {
    "attitude-indicator": ("Attitude", "Assiette"),
    "heading-indicator": ("Heading", "Cap"),
    "turn-instrument": ("Turn", "Virage"),
}
DRIVES = {
    "classic": ("suction", "suction", "electrical"),
    "electric-horizon": ("electrical", "suction", "electrical"),
    "all-suction": ("suction", "suction", "suction"),
}
FEEDS = {"suction": (88.0, 176.0), "electrical": (232.0, 148.0)}  # where a feed's box stands, where its line runs
FEED_NAMES = {"suction": ("Suction", "Dépression"), "electrical": ("Electrical", "Électrique")}
RADIUS, BOX, BOX_Y = 34.0, (112.0, 34.0), 210.0
OUTLET_Y, STUB_Y = 193.0, 182.0  # where a feed is barred, above its box; where it ends when nothing hangs on it


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw the feeds and bar the broken one with all that hangs on it."""
    panel, failure = values["panel"], values["failure"]
    drives = dict(zip(GYROS, DRIVES[panel], strict=True))
    lost = [gyro for gyro, feed in drives.items() if feed == failure]
    parts = [
        *(part for feed in FEEDS for part in _feed(feed, [g for g in GYROS if drives[g] == feed], language)),
        *(part for gyro in GYROS for part in _face(gyro, language)),
        *(_bar(GYROS[gyro], RADIUS - 4) for gyro in lost),
        *([_bar((FEEDS[failure][0], OUTLET_Y), 11)] if failure in FEEDS else []),
    ]
    title = pick(language, "What drives the gyros", "Ce qui entraîne les gyroscopes")
    description = _describe(drives, failure, lost, language)
    return Drawing("gyro-panel", sheet("gyro-panel", SIZE, parts, title, description), title, description)


def _feed(feed: str, driven: list[str], language: Language) -> Iterator[str]:
    middle, line_y = FEEDS[feed]
    pen = HEAVY if feed == "suction" else Pen("ink", 2.5, "5 4")
    shift = -8 if feed == "suction" else 8
    for gyro in driven:
        x = GYROS[gyro][0] + shift
        yield stroke(polyline([(x, GYROS[gyro][1] + RADIUS), (x, line_y), (middle, line_y), (middle, BOX_Y)]), pen)
    if not driven:
        yield stroke(segment((middle, STUB_Y), (middle, BOX_Y)), pen)
    yield stroke(rounded((middle - BOX[0] / 2, BOX_Y), BOX, 4), FRAME, "card")
    yield centred((middle, BOX_Y + BOX[1] / 2), pick(language, *FEED_NAMES[feed]), Lettering(15, bold=True))


def _face(gyro: str, language: Language) -> Iterator[str]:
    x, y = at = GYROS[gyro]
    yield ring(at, RADIUS, FRAME, "card")
    if gyro == "attitude-indicator":
        yield stroke(segments([((x - 24, y), (x + 24, y)), ((x - 10, y + 8), (x + 10, y + 8))]), EDGE)
    elif gyro == "heading-indicator":
        ticks = range(0, 360, 30)
        yield stroke(segments((around(at, RADIUS - 3, a), around(at, RADIUS - 10, a)) for a in ticks), EDGE)
    else:
        yield stroke(segment((x, y + 16), (x, y - 12)), Pen("ink", 4))
    yield centred((x, 16), pick(language, *NAMES[gyro]), Lettering(15, bold=True))


def _bar(at: Point, reach: float) -> str:
    return stroke(segments((around(at, reach, a), around(at, -reach, a)) for a in (45, 135)), Pen("ink", 4))


def _describe(drives: Mapping[str, str], failure: str, lost: list[str], language: Language) -> str:
    said = []
    for feed in FEEDS:
        names = [pick(language, *NAMES[gyro]).lower() for gyro in drives if drives[gyro] == feed]
        if names:
            listed, name = in_a_row(names, language), pick(language, *FEED_NAMES[feed])
            said.append(pick(language, f"{name} drives: {listed}.", f"{name}, pour\u00a0: {listed}."))
    if lost:
        listed = in_a_row([pick(language, *NAMES[gyro]).lower() for gyro in lost], language)
        said.append(pick(language, f"Barred, because their feed is lost: {listed}.",
                         f"Barré, faute d'alimentation\u00a0: {listed}."))  # fmt: skip
    elif failure not in FEEDS:
        said.append(pick(language, "No gyro is barred.", "Aucun gyroscope n'est barré."))
    return " ".join(said)


GYRO_PANEL = Figure(
    "gyro-panel",
    {"panel": need(one_of(*DRIVES)), "failure": need(one_of("suction", "electrical", "pitot"))},
    draw,
)
