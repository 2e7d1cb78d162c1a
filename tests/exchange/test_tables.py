"""CSV that a spreadsheet takes for what it says. The beginnings of formulas are those OWASP names ("CSV Injection")."""

import csv
from io import StringIO

import pytest

from app.exchange.tables import BYTE_ORDER_MARK, Cell, csv_text


def read(text: str) -> list[list[str]]:
    assert text.startswith(BYTE_ORDER_MARK)
    return list(csv.reader(StringIO(text.removeprefix(BYTE_ORDER_MARK))))


@pytest.mark.parametrize("name", ["=1+1", "+33 1", "-2", "@SUM(A1)", "\t=1", "\r=1", " =1", "＝1"])
def test_text_that_begins_like_a_formula_does_not_run(name: str) -> None:
    cell = read(csv_text(["Name"], [[name]]))[1][0]
    assert cell == f"'{name}"


def test_everything_else_is_as_it_was() -> None:
    row: list[Cell] = ["O'Brien", "Zoë, 2nd", 'the "evening" class', "two\nlines", "3 - 2", -4, 87.5, None, ""]
    assert read(csv_text(["a"] * 9, [row]))[1] == [*row[:5], "-4", "87.5", "", ""]
