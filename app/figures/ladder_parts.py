"""Draws the pieces of the ladder: graticule, rows, paths with their values and steps, the mark of the key."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import hypot

from app.figures.answers import HALF_WIDTH, HEIGHT
from app.figures.faces import three_digits
from app.figures.ladder_words import row_names
from app.figures.model import Language
from app.figures.strokes import (
    COMPASS,
    GRATICULE,
    HEAVY,
    MAGNETIC,
    TRUE,
    YOURS,
    Lettering,
    Point,
    centred,
    disc,
    fill,
    polygon,
    polyline,
    ring,
    segment,
    stroke,
    words,
)
from app.figures.words import in_a_row, pick

LEFT, RIGHT, TOP_Y, PITCH, FOOT = 84.0, 302.0, 58.0, 84.0, 32.0
PENS = {"T": TRUE, "M": MAGNETIC, "C": COMPASS}
INK = {"T": "true", "M": "magnetic", "C": "ink"}
POINT_RADIUS = 5.5
STEP_AT, STEP_OUT, STEP_OUT_BARRED = 0.42, 14.0, 24.0
WIDEST_LABELLED_EACH_10, WIDEST_RULED_EACH_10 = 60, 160
BAR_LENGTH = 18.0
WIDTH, WIDTH_OF_A_LETTER = 320.0, 7.5  # units; the mean letter at size 14, rounded up


@dataclass(frozen=True, slots=True)
class Scale:
    """The rows of a ladder from top to bottom and the stretch of headings they show."""

    rows: str
    low: float
    high: float

    @property
    def height(self) -> float:
        """Height of the drawing."""
        return self.y(self.rows[-1]) + FOOT

    def x(self, heading_deg: float) -> float:
        """Return where an unwrapped heading stands on every row."""
        return LEFT + (heading_deg - self.low) * (RIGHT - LEFT) / (self.high - self.low)

    def y(self, row: str) -> float:
        """Return the height of a row."""
        return TOP_Y + PITCH * self.rows.index(row)

    def spot(self, row: str, heading_deg: float) -> Point:
        """Return the point of a heading on its row."""
        return self.x(heading_deg), self.y(row)


@dataclass(frozen=True, slots=True)
class Path:
    """Unwrapped headings by row, and whose they are: key, yours, or known before the answer."""

    at: Mapping[str, float]
    name: str


def draw_scale(scale: Scale) -> Iterator[str]:
    """Draw a graticule line each ten degrees, labelled each ten or each twenty; coarser where the scale is wide."""
    every = 10 if scale.high - scale.low <= WIDEST_LABELLED_EACH_10 else 20
    while (scale.high - scale.low) / every > 7:
        every += 10
    bottom = scale.y(scale.rows[-1]) + 16
    fine = 10 if scale.high - scale.low <= WIDEST_RULED_EACH_10 else every
    for heading in range(int(scale.low), int(scale.high) + 1, 10):
        x = scale.x(heading)
        if heading % fine == 0:
            yield stroke(segment((x, 32), (x, bottom)), GRATICULE)
        if heading % every == 0 and x + 15 <= 320:
            yield words((x, 22), three_digits(heading), Lettering(14, "soft"))


def draw_rows(scale: Scale, language: Language) -> Iterator[str]:
    """Draw each row in its own dash, its letter and its name before it."""
    for row in scale.rows:
        y = scale.y(row)
        yield stroke(segment((LEFT, y), (RIGHT, y)), PENS[row])
        yield words((0, y + 2), row, Lettering(20, INK[row], bold=True, anchor="start"))
        yield words((0, y + 20), row_names(language)[row], Lettering(14, INK[row], anchor="start"))


def draw_path(scale: Scale, path: Path, other: Path | None, steps: Mapping[str, str], barred: str) -> Iterator[str]:
    """Draw one path with its values and its steps; where two paths run, their words stand outward of each other."""
    rows = [row for row in scale.rows if row in path.at]
    yours = path.name == "yours"
    if steps:
        yield stroke(polyline([scale.spot(row, path.at[row]) for row in rows]), YOURS if yours else HEAVY)
    for ends, said in steps.items():
        bar = set(ends) == set(barred)
        if not (yours and _agrees(path, other, ends)):
            yield _step(scale, path, ends, said, _side(path, other, ends) * (STEP_OUT_BARRED if bar else STEP_OUT))
        if bar:
            yield _bar(scale, path, ends)
    for row in rows:
        point = scale.spot(row, path.at[row])
        yield ring(point, POINT_RADIUS, YOURS, "card") if yours else disc(point, POINT_RADIUS)
        if not (yours and _agrees(path, other, row)):
            yield _value(scale, path, row, _side(path, other, row))


def draw_key_mark(scale: Scale, path: Path, row: str) -> str:
    """Draw the key's triangle: under its point, or above it on the top row."""
    (x, y), down = scale.spot(row, path.at[row]), row == scale.rows[0]
    tip, base = (y - 8, y - 8 - HEIGHT) if down else (y + 9, y + 9 + HEIGHT)
    return fill(polygon([(x, tip), (x - HALF_WIDTH, base), (x + HALF_WIDTH, base)]), "ink")


def _agrees(path: Path, other: Path | None, rows: str) -> bool:
    return other is not None and all(path.at[row] == other.at.get(row) for row in rows)


def _side(path: Path, other: Path | None, rows: str) -> int:
    """Return on which side of a path its words stand: +1 right, -1 left."""
    apart = sum(path.at[row] - other.at.get(row, path.at[row]) for row in rows) if other else 0
    if apart == 0:
        return -1 if path.name == "yours" else 1
    return 1 if apart > 0 else -1


def _value(scale: Scale, path: Path, row: str, side: int) -> str:
    x, y = scale.spot(row, path.at[row])
    bottom = row == scale.rows[-1] and len(scale.rows) > 1
    style = Lettering(17, bold=path.name != "yours", anchor="start" if side > 0 else "end", halo="paper")
    return words((x + 11 * side, y + 24 if bottom else y - 10), three_digits(path.at[row]), style)


def _step(scale: Scale, path: Path, ends: str, said: str, out: float) -> str:
    """Set a step's words beside its slant, moved inward where they would leave the drawing."""
    (x, y), (lower_x, lower_y) = (scale.spot(row, path.at[row]) for row in ends)
    width = WIDTH_OF_A_LETTER * len(said)
    start = x + (lower_x - x) * STEP_AT + (out if out > 0 else out - width)
    at = max(2.0, min(start, WIDTH - 2.0 - width)), y + (lower_y - y) * STEP_AT
    if out < 0:
        return centred((at[0] + width, at[1]), said, Lettering(14, anchor="end", halo="paper"))
    return centred(at, said, Lettering(14, anchor="start", halo="paper"))


def _bar(scale: Scale, path: Path, ends: str) -> str:
    (x, y), (lower_x, lower_y) = (scale.spot(row, path.at[row]) for row in ends)
    run, drop = lower_x - x, lower_y - y
    half = BAR_LENGTH / 2 / hypot(run, drop)
    middle = (x + lower_x) / 2, (y + lower_y) / 2
    return stroke(
        segment(
            (middle[0] - drop * half, middle[1] + run * half),
            (middle[0] + drop * half, middle[1] - run * half),
        ),
        HEAVY,
    )


def legend(paths: list[Path], language: Language) -> str:
    """Say which line is whose."""
    if len(paths) < 2:
        return ""
    return pick(
        language,
        "Heavy line: the working. Thin line: your answer, barred where it first went wrong.",
        "Trait épais\u00a0: la démarche. Trait fin\u00a0: votre réponse, barrée là où elle s'écarte.",
    )


def describe(scale: Scale, known: Mapping[str, float], paths: list[Path], language: Language) -> str:
    """Say which headings stand on which row."""
    names = row_names(language)
    rows = in_a_row([names[row] for row in scale.rows], language)
    said = [pick(language, f"A ladder of headings: {rows}.", f"Une échelle de caps\u00a0: {rows}.")]
    whose = {
        "key": pick(language, "The working", "La démarche"),
        "yours": pick(language, "Your answer", "Votre réponse"),
        "known": pick(language, "Given", "Donné"),
    }
    for path in reversed(paths) if paths else [Path(known, "known")]:
        headings = in_a_row(
            [f"{names[row]} {three_digits(path.at[row])}" for row in scale.rows if row in path.at], language
        )
        said.append(f"{whose[path.name]}{pick(language, ':', chr(160) + ':')} {headings}.")
    return " ".join(said)
