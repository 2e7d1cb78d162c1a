"""The check command: which checks run, in what order, and bad names."""

from click.testing import CliRunner

from app.cli import root
from app.cli.check import CHECKS


def test_checks_are_those_of_the_handbook() -> None:
    assert list(CHECKS) == ["format", "lint", "types", "arrows", "packs", "migrations"]


def test_unknown_check_is_refused() -> None:
    result = CliRunner().invoke(root, ["check", "arows"])
    assert result.exit_code == 2
    assert "arrows" in result.output


def test_bad_number_of_draws_is_refused() -> None:
    result = CliRunner().invoke(root, ["check", "packs", "--draws", "0"])
    assert result.exit_code == 2
    assert "--draws" in result.output


def test_one_check_prints_one_line() -> None:
    result = CliRunner().invoke(root, ["check", "arrows"])
    assert result.exit_code == 0, result.output
    assert result.output.startswith("arrows     passed")
    assert result.output.count("\n") == 1
