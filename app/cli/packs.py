"""The question packs as the command line meets them, and JSON lines as it writes them."""

import json
from typing import Any

import click

from app.cli import Refused
from app.environment import ROOT
from app.packs.issues import PackProblems
from app.packs.library import Library
from app.packs.load import load_library

PACKS = ROOT / "question_packs"

language_option = click.option(
    "--language", type=click.Choice(["en", "fr"]), default="en", show_default=True, help="Language of the texts."
)


def open_library() -> Library:
    """Return all packs; every error in them is refused at once, each with file and line."""
    try:
        return load_library(PACKS)
    except PackProblems as problems:
        raise Refused(f"The question packs cannot be used:\n{problems}") from problems


def print_json(value: dict[str, Any]) -> None:
    """Print one JSON line in UTF-8, whatever the terminal's own encoding."""
    click.echo((json.dumps(value, ensure_ascii=False) + "\n").encode(), nl=False)
