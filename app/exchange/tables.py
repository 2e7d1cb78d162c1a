"""Tables: CSV in which no cell is taken for a formula, and reading what a spreadsheet wrote."""

import csv
from collections.abc import Iterable, Iterator, Sequence
from io import StringIO

BYTE_ORDER_MARK = "\ufeff"  # without it spreadsheets take accents for something else
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")

SEPARATORS = ";\t,"

Cell = str | int | float | None


class UnreadableTable(Exception):
    """A file that is no text of a known encoding, or no table."""


def csv_text(header: Sequence[str], rows: Iterable[Sequence[Cell]]) -> str:
    """Return a table as CSV (RFC 4180), its texts safe to open in a spreadsheet; numbers stay numbers."""
    out = StringIO()
    writer = csv.writer(out)
    writer.writerow([safe(cell) for cell in header])
    writer.writerows([safe(cell) for cell in row] for row in rows)
    return BYTE_ORDER_MARK + out.getvalue()


def safe(cell: Cell) -> Cell:
    """Return a cell that stays what it says: a text that would begin a formula gets an apostrophe before it."""
    if isinstance(cell, str) and cell.lstrip(" \u00a0").startswith(FORMULA_STARTS):
        return f"'{cell}"
    return cell


def read_table(content: bytes) -> Iterator[tuple[int, list[str]]]:
    """Yield the lines of a table that hold anything, with their numbers from 1; raises UnreadableTable."""
    text = _decode(content)
    first = next((line for line in text.splitlines() if line.strip()), "")
    separator = max(SEPARATORS, key=first.count)
    try:
        for number, cells in enumerate(csv.reader(StringIO(text, newline=""), delimiter=separator, strict=True), 1):
            if any(cell.strip() for cell in cells):
                yield number, [cell.strip() for cell in cells]
    except csv.Error as error:
        raise UnreadableTable(str(error)) from error


def _decode(content: bytes) -> str:
    if b"\0" in content:
        raise UnreadableTable("zero bytes")
    for encoding in ("utf-8-sig", "cp1252"):
        try:
            return content.decode(encoding)
        except UnicodeDecodeError:
            continue
    raise UnreadableTable("unknown encoding")
