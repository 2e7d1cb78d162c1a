"""Reads the published values beside it: one TOML file a subject, rows with id, source and status."""

import tomllib
from pathlib import Path
from typing import Any

FOLDER = Path(__file__).resolve().parent
STATUSES = frozenset({"published", "computed", "memory", "common practice"})

Row = dict[str, Any]


def subjects() -> list[str]:
    return sorted(file.stem for file in FOLDER.glob("*.toml"))


def all_rows(subject: str) -> list[Row]:
    with (FOLDER / f"{subject}.toml").open("rb") as file:
        return list(tomllib.load(file)["row"])


def rows(subject: str) -> list[Row]:
    """Return the rows the models answer; a row may be a statement that only a question can put to the test."""
    return [row for row in all_rows(subject) if "answered_by" not in row]


def row_id(row: Row) -> str:
    return str(row["id"])
