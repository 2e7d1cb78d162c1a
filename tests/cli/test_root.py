"""The command line as a whole: help everywhere, the default command, mistyped commands."""

import pytest
from click.testing import CliRunner

from app.cli import COMMANDS, root, suggest, with_default


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_has_help(name: str) -> None:
    result = CliRunner().invoke(root, [name, "--help"])
    assert result.exit_code == 0, result.output
    assert result.output.startswith(f"Usage: root {name}")


def test_help_lists_every_command() -> None:
    result = CliRunner().invoke(root, ["--help"])
    assert result.exit_code == 0
    assert [line.split()[0] for line in result.output.partition("Commands:\n")[2].splitlines()] == list(COMMANDS)


def test_mistyped_command_names_the_near_one() -> None:
    result = CliRunner().invoke(root, ["chekc"])
    assert result.exit_code == 2
    assert "check" in result.output


@pytest.mark.parametrize(
    ("given", "run"),
    [
        ([], ["serve"]),
        (["--port", "1"], ["serve", "--port", "1"]),
        (["-h"], ["-h"]),
        (["--help"], ["--help"]),
        (["draw", "x"], ["draw", "x"]),
    ],
)
def test_serving_is_the_default(given: list[str], run: list[str]) -> None:
    assert with_default(given) == run


def test_suggestions() -> None:
    assert suggest("timed-tunr", ["timed-turn", "card-neighbour"]) == " Did you mean timed-turn?"
    assert suggest("zzz", ["timed-turn"]) == ""
