"""Tables for spreadsheets: CSV in which no cell is ever taken for a formula."""

import csv
from collections.abc import Iterable, Sequence
from io import StringIO

BYTE_ORDER_MARK = "\ufeff"  # without it spreadsheets take accents for something else
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")

Cell = str | int | float | None


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
