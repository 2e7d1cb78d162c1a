"""Bringing a database up to date, and refusing one that cannot be."""

from pathlib import Path

import pytest
from sqlalchemy import Engine, text

from app.storage.engine import create_engine_for
from app.storage.migrate import NewerDatabase, UnusableDatabase, current, head, upgrade
from app.storage.models import VISITORS_SCHOOL_ID
from tests.migrations.rows import count_rows, fill


def test_empty_database_gets_every_table_and_the_visitors_school(tmp_path: Path) -> None:
    file = tmp_path / "new.sqlite3"
    assert current(file) is None
    upgrade(file)
    assert current(file) == head()
    engine = create_engine_for(file)
    with engine.connect() as connection:
        assert connection.scalar(text("SELECT id FROM school")) == VISITORS_SCHOOL_ID.hex
    engine.dispose()


def test_up_to_date_database_is_left_alone(database: Path, engine: Engine) -> None:
    fill(engine, "0001_drills")
    before = count_rows(engine)
    upgrade(database)
    assert count_rows(engine) == before


def test_newer_database_is_refused_and_nothing_changed(database: Path, engine: Engine) -> None:
    with engine.begin() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '9999_later'"))
    with pytest.raises(NewerDatabase, match=r"9999_later.*knows up to 0.*Nothing was changed"):
        upgrade(database)
    assert current(database) == "9999_later"


def test_file_that_is_no_database_is_refused(tmp_path: Path) -> None:
    file = tmp_path / "notes.sqlite3"
    file.write_text("Turn left on north.\n" * 100, "utf-8")
    with pytest.raises(UnusableDatabase, match=r"notes\.sqlite3.* not a database"):
        upgrade(file)
    assert file.read_text("utf-8").startswith("Turn left")


def test_missing_folder_is_refused(tmp_path: Path) -> None:
    with pytest.raises(UnusableDatabase, match="unable to open"):
        upgrade(tmp_path / "nowhere" / "x.sqlite3")


def test_read_only_database_is_refused(tmp_path: Path) -> None:
    file = tmp_path / "old.sqlite3"
    engine = create_engine_for(file)
    with engine.begin() as connection:
        connection.execute(text("CREATE TABLE other (id INTEGER)"))
    engine.dispose()
    with pytest.raises(UnusableDatabase, match="readonly"):
        upgrade(f"sqlite:///file:{file}?mode=ro&uri=true")
