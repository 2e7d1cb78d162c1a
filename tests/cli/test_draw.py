"""Printed draws: the shape a reader relies on, the same bytes twice, and what is refused."""

import json
from typing import Any

import pytest
from click.testing import CliRunner, Result

from app.cli import root

FAMILY = "true-to-compass"
FIELDS = [
    "family", "pack", "version", "seed", "language", "parameters", "conventions", "stem", "answer", "options", "wrong",
    "working", "figure", "sources",
]  # fmt: skip


def draw(*arguments: str) -> Result:
    return CliRunner().invoke(root, ["draw", *arguments])


def drawn(*arguments: str) -> list[dict[str, Any]]:
    result = draw(*arguments)
    assert result.exit_code == 0, result.output
    return [json.loads(line) for line in result.output.splitlines()]


def test_prints_one_json_line_an_item() -> None:
    items = drawn(FAMILY, "--count", "3", "--seed", "7")
    assert [item["seed"] for item in items] == [7, 8, 9]
    assert all(list(item) == FIELDS for item in items)
    assert list(items[0]["answer"]) == ["form", "key", "tolerance", "unit"]


def test_same_bytes_twice() -> None:
    arguments = (FAMILY, "--count", "5", "--seed", "1")
    assert draw(*arguments).stdout_bytes == draw(*arguments).stdout_bytes


def test_languages_show_the_same_numbers() -> None:
    english, french = drawn(FAMILY)[0], drawn(FAMILY, "--language", "fr")[0]
    assert english["stem"] != french["stem"]
    for same in ("parameters", "conventions", "seed"):
        assert english[same] == french[same]
    assert english["answer"]["key"] == french["answer"]["key"]


def test_french_steps_have_a_no_break_space_before_the_colon() -> None:
    steps = drawn("pressure-density-altitude", "--language", "fr", "--seed", "5")[0]["working"]
    assert all("\u00a0: " in step for step in steps)


def test_home_sets_the_field() -> None:
    home = drawn(FAMILY, "--home", "-41.3,174.8", "--date", "2027-03-01")[0]["conventions"]
    assert (home["latitude_deg"], home["longitude_deg"], home["date"]) == (-41.3, 174.8, "2027-03-01")
    assert home["dip_deg"] < 0


def test_form_is_chosen() -> None:
    assert drawn(FAMILY, "--form", "typed")[0]["answer"]["form"] == "typed"


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["true-to-compas"], "true-to-compass"),
        ([FAMILY, "--form", "match"], "choice"),
        ([FAMILY, "--home", "91,0"], "91"),
        ([FAMILY, "--home", "0,181"], "181"),
        ([FAMILY, "--home", "nan,0"], "nan"),
        ([FAMILY, "--home", "45"], "latitude,longitude"),
        ([FAMILY, "--home", "45,north"], "latitude,longitude"),
        ([FAMILY, "--home", "45,1,2"], "latitude,longitude"),
        ([FAMILY, "--date", "2026-02-30"], "2026-02-30"),
        ([FAMILY, "--date", "1/2/2026"], "YYYY-MM-DD"),
        ([FAMILY, "--date", "2019-01-01"], "2025"),
        ([FAMILY, "--date", "2031-01-01"], "2030"),
        ([FAMILY, "--count", "0"], "--count"),
        ([FAMILY, "--seed", "-1"], "--seed"),
        ([FAMILY, "--seed", "abc"], "abc"),
        ([FAMILY, "--language", "de"], "fr"),
        ([], "FAMILY"),
    ],
)
def test_bad_input_is_named(arguments: list[str], told: str) -> None:
    result = draw(*arguments)
    assert result.exit_code == 2, result.output
    assert told in result.output
    assert "Traceback" not in result.output
