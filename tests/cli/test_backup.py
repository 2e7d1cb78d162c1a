"""Copies of the database and putting them back, by the commands, on real files."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from sqlalchemy import text

from app.cli import root
from app.storage.engine import create_engine_for
from app.storage.migrate import current, head, upgrade
from tests.migrations.rows import count_rows, fill


@pytest.fixture
def instance(tmp_path: Path) -> Path:
    """An instance with a filled database, at an older revision than the program's."""
    file = tmp_path / "lubberline.sqlite3"
    upgrade(file, "0002_people")
    engine = create_engine_for(file)
    fill(engine, "0002_people")
    engine.dispose()
    return tmp_path


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(root, [str(argument) for argument in arguments], env={"LUBBERLINE_DATABASE": ""})


def rows(file: Path) -> dict[str, int]:
    engine = create_engine_for(file)
    counts = {table: count for table, count in count_rows(engine).items() if count}
    engine.dispose()
    return counts


def test_copy_comes_back_whole_and_up_to_date(instance: Path, tmp_path: Path) -> None:
    before, copy, other = rows(instance / "lubberline.sqlite3"), tmp_path / "copy.sqlite3", tmp_path / "other"
    assert run("backup", copy, "--instance", instance).exit_code == 0
    result = run("restore", copy, "--instance", other)
    assert result.exit_code == 0, result.output
    assert rows(other / "lubberline.sqlite3") == before
    assert current(other / "lubberline.sqlite3") == head()


def test_copy_is_taken_while_somebody_writes_and_only_we_can_read_it(instance: Path, tmp_path: Path) -> None:
    copy = tmp_path / "copy.sqlite3"
    with closing(sqlite3.connect(instance / "lubberline.sqlite3", isolation_level=None)) as writer:
        writer.execute("BEGIN IMMEDIATE")
        writer.execute("DELETE FROM school_class")
        assert run("backup", copy, "--instance", instance).exit_code == 0
    assert rows(copy)["school_class"] == 2
    assert copy.stat().st_mode & 0o077 == 0


def test_what_was_there_is_kept(instance: Path, tmp_path: Path) -> None:
    copy, database = tmp_path / "copy.sqlite3", instance / "lubberline.sqlite3"
    run("backup", copy, "--instance", instance)
    engine = create_engine_for(database)
    with engine.begin() as connection:
        connection.execute(text("DELETE FROM school_class"))
    engine.dispose()
    assert run("restore", copy, "--instance", instance).exit_code == 0
    (replaced,) = instance.glob("lubberline.sqlite3.replaced-*")
    assert "school_class" not in rows(replaced)
    assert rows(database)["school_class"] == 2


def test_file_that_is_there_is_not_written_over(instance: Path, tmp_path: Path) -> None:
    copy = tmp_path / "notes.txt"
    copy.write_text("Turn left.", "utf-8")
    result = run("backup", copy, "--instance", instance)
    assert result.exit_code == 2
    assert "notes.txt is there already" in result.output
    assert copy.read_text("utf-8") == "Turn left."


@pytest.mark.parametrize(
    ("content", "reason"), [(b"Turn left on north. " * 99, "is not a database"), (b"", "holds nothing of this program")]
)
def test_file_that_is_no_copy_changes_nothing(instance: Path, tmp_path: Path, content: bytes, reason: str) -> None:
    before, copy = rows(instance / "lubberline.sqlite3"), tmp_path / "copy"
    copy.write_bytes(content)
    result = run("restore", copy, "--instance", instance)
    assert result.exit_code == 2
    assert reason in result.output
    assert rows(instance / "lubberline.sqlite3") == before


def test_copy_of_a_newer_version_changes_nothing(instance: Path, tmp_path: Path) -> None:
    copy = tmp_path / "copy.sqlite3"
    run("backup", copy, "--instance", instance)
    with closing(sqlite3.connect(copy)) as connection, connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999_later'")
    result = run("restore", copy, "--instance", instance)
    assert result.exit_code == 2
    assert "9999_later" in result.output
    assert not list(instance.glob("*.replaced-*"))


def test_missing_database_and_database_server_are_said(tmp_path: Path) -> None:
    result = run("backup", tmp_path / "copy", "--instance", tmp_path / "nowhere")
    assert result.exit_code == 2
    assert "There is no database" in result.output
    assert not (tmp_path / "copy").exists()
    elsewhere = {"LUBBERLINE_DATABASE": "postgresql://server/lubberline"}
    refused = CliRunner().invoke(root, ["backup", str(tmp_path / "copy")], env=elsewhere)
    assert refused.exit_code == 2
    assert "pg_dump" in refused.output
