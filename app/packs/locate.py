"""Finds the line of a TOML file where a value stands, so that a finding can say where to look."""

import re
from collections.abc import Sequence

ARRAY_TABLE = re.compile(r"\[\[\s*([^\[\]]+?)\s*\]\]")
TABLE = re.compile(r"\[\s*([^\[\]]+?)\s*\]")
KEY = re.compile(r"([A-Za-z0-9_-]+(?:\s*\.\s*[A-Za-z0-9_-]+)*)\s*=")

Location = tuple[str | int, ...]


def line_of(source: str, location: Sequence[str | int]) -> int:
    """Return the line (from 1) of the value at `location`, such as ("asks", 1, "question"), or of what holds it."""
    wanted = tuple(location)
    counts: dict[Location, int] = {}
    table: Location = ()
    best_line, best_depth = 1, 0
    for number, text in enumerate(source.splitlines(), start=1):
        line = text.strip()
        if match := ARRAY_TABLE.match(line):
            path = _resolve(match[1], counts)
            counts[path] = counts.get(path, -1) + 1
            here = table = (*path, counts[path])
        elif match := TABLE.match(line):
            here = table = _resolve(match[1], counts)
        elif match := KEY.match(line):
            here = table + tuple(part.strip() for part in match[1].split("."))
        else:
            continue
        depth = _common(here, wanted)
        if depth > best_depth:
            best_line, best_depth = number, depth
    return best_line


def _resolve(dotted: str, counts: dict[Location, int]) -> Location:
    """Return the path of a table header, with the running index of every array of tables on its way."""
    path: Location = ()
    parts = [part.strip().strip('"') for part in dotted.split(".")]
    for position, part in enumerate(parts):
        path = (*path, part)
        if path in counts and position < len(parts) - 1:
            path = (*path, counts[path])
    return path


def _common(left: Location, right: Location) -> int:
    depth = 0
    for a, b in zip(left, right, strict=False):
        if a != b:
            break
        depth += 1
    return depth
