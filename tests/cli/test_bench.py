"""The benchmark prints what it measures; nothing here is timed."""

import sqlite3
from contextlib import closing
from pathlib import Path
from uuid import UUID

import pytest
from click.testing import CliRunner

from app.cli import root
from app.cli.bench import write
from app.cli.measures import Reading, load, long_load, regrade


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


def test_load_of_the_real_server_loses_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(load, "SECONDS", 3)
    monkeypatch.setattr(load, "GOALS", {3: 8.0})
    readings = {each.name.rpartition(", ")[2]: each for each in load.measure()}
    assert readings["answers accepted"].value > 0
    assert readings["the floor's / these"].value > 1
    wrong = [each for each in readings.values() if each.goal == 0]
    assert len(wrong) == 4
    assert [each.value for each in wrong] == [0, 0, 0, 0]


def test_long_load_goes_on_until_enough_answers_are_accepted(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(long_load, "ANSWERS", 25)
    monkeypatch.setattr(long_load, "CONNECTIONS", 2)
    accepted, *wrong = (each for each in long_load.measure() if not each.name.endswith("largest worker"))
    assert accepted.value >= 25
    assert [each.value for each in wrong] == [0, 0, 0, 0]


def test_lost_torn_and_doubled_answers_are_seen(tmp_path: Path) -> None:
    database = tmp_path / "kept.sqlite3"
    item = UUID(int=7)
    with closing(sqlite3.connect(database)) as connection:
        connection.executescript(
            """CREATE TABLE attempt (visit_id TEXT, drill_item_id TEXT);
            CREATE TABLE week_tally (visit_id TEXT, answers INTEGER);
            INSERT INTO week_tally VALUES ('v', 1);"""
        )
        connection.executemany("INSERT INTO attempt VALUES ('v', ?)", [(item.hex,), (item.hex,)])
        connection.commit()
    seen = load.Seen(accepted=[item, UUID(int=8)], failed=["500"])
    assert [each.value for each in load.wrong("x", seen, database)] == [2, 1, 1, 1, 1]
