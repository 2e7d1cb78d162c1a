"""The benchmark prints what it measures; nothing here is timed."""

from click.testing import CliRunner

from app.cli import root
from app.cli.bench import write
from app.cli.measures import Reading, regrade


def test_reading_with_a_goal_says_whether_it_is_met() -> None:
    assert write(Reading("x", 1.0, "s", 1.5)).endswith("goal 1.5: met")
    assert write(Reading("x", 2.0, "s", 1.5)).endswith("goal 1.5: NOT MET")
    assert write(Reading("x", 2.0, "ms")).endswith("2.000 ms")


def test_floor_is_measured() -> None:
    result = CliRunner().invoke(root, ["bench", "floor"])
    assert result.exit_code == 0, result.output
    assert result.output.startswith("floor: one answer")


def test_marking_again_loses_nothing() -> None:
    *_, lost = regrade.measure(people=2)
    assert (lost.name, lost.value) == ("regrade: answers, marks or changes lost", 0)


def test_unknown_measure_is_refused() -> None:
    result = CliRunner().invoke(root, ["bench", "flor"])
    assert result.exit_code == 2
    assert "floor" in result.output
