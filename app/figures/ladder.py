"""The ladder from true to magnetic to compass: three scales under each other, joined by slanting lines.

A path is a list of headings in the order in which the question walks the rows: down from T, or up from C. The slant of
a step is the variation or the deviation; the working is heavy with filled discs, the student's own path thin with open
rings and barred where it first went wrong.
"""

from collections.abc import Iterator, Mapping
from itertools import pairwise
from math import ceil, floor
from typing import Any

from app.figures.figure import Figure, Values
from app.figures.ladder_parts import (
    LEFT,
    RIGHT,
    Path,
    Scale,
    describe,
    draw_key_mark,
    draw_path,
    draw_rows,
    draw_scale,
    legend,
)
from app.figures.ladder_words import row_names, step_words
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import EAST_POSITIVE, HEADING, Parameter, is_number, one_of
from app.figures.strokes import Lettering, centred, sheet
from app.figures.words import pick
from app.physics.angles import unwrap

HEADINGS = {"T": "true_deg", "M": "magnetic_deg", "C": "compass_deg"}
ERRORS = {"variation_deg": "TM", "deviation_deg": "MC"}
# Rows in the order in which a question walks them.
ROWS_OF_ASK = {
    "compass": "TMC", "magnetic": "TM", "compass-from-magnetic": "MC",
    "true": "CMT", "true-from-magnetic": "MT", "magnetic-from-compass": "CM",
}  # fmt: skip
WALKS = ("TMC", "CMT", "TM", "MT", "MC", "CM", "TC", "CT")
PAD_DEG, LEAST_PAD_UNITS = 20, 46.0
SCALE_UNITS = 218.0


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw the rows with what is known of them, and after the answer the working and the student's path."""
    walk = walk_of(values)
    rows = "".join(sorted(walk, key="TMC".index))
    known = {row: values[name] for row, name in HEADINGS.items() if row in rows and name in values}
    key, yours = _path(values, "key", walk), _path(values, "yours", walk)
    near = next(iter((key or known).values()))
    paths = [Path(_unwrapped(path, near), name) for name, path in (("yours", yours), ("key", key)) if path]
    scale = _scale(paths or [Path(_unwrapped(known, near), "known")], rows, values)
    parts = [*draw_scale(scale), *draw_rows(scale, language)]
    parts += _answered(scale, paths, walk, values, language) if paths else _open(scale, known, near, values, language)
    title = pick(language, "From one heading to the next", "D'un cap à l'autre")
    description = describe(scale, known, paths, language)
    markup = sheet("ladder", (320, scale.height), parts, title, description)
    return Drawing("ladder", markup, title, description, legend(paths, language))


def _answered(scale: Scale, paths: list[Path], walk: str, values: Values, language: Language) -> Iterator[str]:
    barred = values.get("first_wrong", "").replace("-", "")
    for path, other in zip(paths, [*reversed(paths)] if len(paths) > 1 else [None], strict=True):
        steps = _steps(path, walk, values, language)
        yield from draw_path(scale, path, other, steps, barred if path.name == "yours" else "")
    if not _finds_error(values):
        yield draw_key_mark(scale, paths[-1], walk[-1])


def _open(
    scale: Scale, known: Mapping[str, float], near_deg: float, values: Values, language: Language
) -> Iterator[str]:
    """Draw what is known before the answer: points on their rows, and the names and sizes of the steps."""
    yield from draw_path(scale, Path(_unwrapped(known, near_deg), "known"), None, {}, "")
    for name, ends in ERRORS.items():
        if name in values and set(ends) <= set(scale.rows):
            at = (LEFT + RIGHT) / 2, (scale.y(ends[0]) + scale.y(ends[1])) / 2
            size = step_words(values[name], None, values[name], language)
            yield centred(at, f"{row_names(language)[name]} {size}", Lettering(15, halo="paper"))


def walk_of(values: Values) -> str:
    """Return the rows a path walks, in order: by `rows`, by `ask`, or from what is given."""
    if "rows" in values:
        return str(values["rows"])
    if values.get("ask") in ROWS_OF_ASK:
        return ROWS_OF_ASK[values["ask"]]
    named = "".join(row for row, name in HEADINGS.items() if name in values)
    if len(values.get("key", ())) == 3 or len(named) == 1:
        return "TMC"
    return named


def _path(values: Values, name: str, walk: str) -> dict[str, float]:
    return dict(zip(walk, values[name], strict=True)) if name in values else {}


def _unwrapped(path: Mapping[str, float], near_deg: float) -> dict[str, float]:
    """Count all headings on from the first one, across north where need be."""
    return {row: unwrap(value, near_deg) for row, value in path.items()}


def _scale(paths: list[Path], rows: str, values: Values) -> Scale:
    held = [value for path in paths for value in path.at.values()]
    if "key" not in values:
        reach = sum(abs(values.get(name, 0)) for name in ERRORS)
        held += [held[0] - reach, held[0] + reach]
    pad = PAD_DEG
    while True:
        low, high = 10 * floor(min(held) / 10) - pad, 10 * ceil(max(held) / 10) + pad
        if pad * SCALE_UNITS / (high - low) >= LEAST_PAD_UNITS:
            return Scale(rows, low, high)
        pad += 10


def _finds_error(values: Values) -> bool:
    """Whether the question asks for a step, not for a heading: then no heading is the key."""
    return str(values.get("ask", "")).startswith(("variation", "deviation", "total"))


def _steps(path: Path, walk: str, values: Values, language: Language) -> dict[str, str]:
    """Return the words of each step of a path, by its two rows from top to bottom."""
    said = {}
    for start, end in pairwise(walk):
        upper, lower = sorted(start + end, key="TMC".index)
        name = next((each for each, rows in ERRORS.items() if rows == upper + lower), "")
        finds = not name or _finds_error(values)
        change = path.at[end] - path.at[start]
        east = path.at[upper] - path.at[lower]
        said[upper + lower] = step_words(east, None if finds else change, values.get(name), language)
    return said


def _conflicts(values: Values) -> list[str]:
    named = [name for name in HEADINGS.values() if name in values]
    if not named and "key" not in values:
        return ["no heading is given: give one of true_deg, magnetic_deg, compass_deg"]
    walk = walk_of(values)
    found = [
        f"{name} has {len(values[name])} headings for the rows {walk}: give one for each row"
        for name in ("key", "yours")
        if name in values and len(values[name]) != len(walk)
    ]
    steps = [walk[at : at + 2] for at in range(len(walk) - 1)]
    barred = values.get("first_wrong", "").replace("-", "")
    if barred and barred not in steps and barred[::-1] not in steps:
        found.append(f"first_wrong is {values['first_wrong']}: the rows are {walk}")
    if "key" not in values and ("yours" in values or barred):
        found.append("yours and first_wrong need the key beside them")
    return found


def _is_path(value: Any) -> bool:
    return isinstance(value, list | tuple) and len(value) in {2, 3} and all(is_number(each) for each in value)


PATH = Parameter("a list of two or three headings, in the order the question walks the rows", _is_path)
ASK = Parameter("the ask of the question", lambda value: isinstance(value, str))
LADDER = Figure(
    "ladder",
    {
        "ask": ASK,
        "rows": one_of(*WALKS),
        "true_deg": HEADING,
        "magnetic_deg": HEADING,
        "compass_deg": HEADING,
        "variation_deg": EAST_POSITIVE,
        "deviation_deg": EAST_POSITIVE,
        "key": PATH,
        "yours": PATH,
        "first_wrong": one_of("T-M", "M-T", "M-C", "C-M", "T-C", "C-T"),
    },
    draw,
    _conflicts,
)
