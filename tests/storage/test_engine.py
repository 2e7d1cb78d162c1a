"""The SQLite traps: each test fails with the driver's own transaction mode or a plain BEGIN."""

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from sqlalchemy import Engine, QueuePool, text
from sqlalchemy.exc import IntegrityError

from app.storage.engine import StorageSettings, create_engine_for, url_for
from app.storage.unit_of_work import UnitOfWork


def pragma(engine: Engine, name: str) -> object:
    with engine.connect() as connection:
        return connection.exec_driver_sql(f"PRAGMA {name}").scalar()


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("foreign_keys", 1),
        ("journal_mode", "wal"),
        ("synchronous", 1),
        ("busy_timeout", 5000),
        ("cache_size", -4_000),
    ],
)
def test_pragmas_are_set_on_every_connection(engine: Engine, name: str, expected: object) -> None:
    assert pragma(engine, name) == expected


def test_full_sync_is_a_setting(database: Path) -> None:
    engine = create_engine_for(database, StorageSettings(full_sync=True))
    assert pragma(engine, "synchronous") == 2
    engine.dispose()


def test_pool_holds_one_connection_a_thread_and_none_beyond(database: Path) -> None:
    engine = create_engine_for(database, StorageSettings(threads=3))
    assert isinstance(engine.pool, QueuePool)
    assert engine.pool.size() == 3
    assert engine.pool._max_overflow == 0
    engine.dispose()


def test_foreign_keys_hold(uow: UnitOfWork) -> None:
    orphan = text("INSERT INTO drill VALUES ('s', 'd', 'v', NULL, 1, '{}', '2026-01-01', 'practice', NULL, NULL, NULL)")
    with pytest.raises(IntegrityError), uow.writer() as connection:
        connection.execute(orphan)


def test_savepoint_undone_leaves_nothing(uow: UnitOfWork) -> None:
    with uow.writer() as connection:
        connection.execute(text("CREATE TABLE note (word TEXT)"))
        inner = connection.begin_nested()
        connection.execute(text("INSERT INTO note VALUES ('inner')"))
        inner.rollback()
        connection.execute(text("INSERT INTO note VALUES ('outer')"))
    with uow.reader() as connection:
        assert connection.scalars(text("SELECT word FROM note")).all() == ["outer"]


def test_outer_transaction_undone_takes_a_released_savepoint_along(uow: UnitOfWork) -> None:
    with uow.writer() as connection:
        connection.execute(text("CREATE TABLE note (word TEXT)"))
    with uow.reader() as connection:
        with connection.begin_nested():
            connection.execute(text("INSERT INTO note VALUES ('inner')"))
        connection.rollback()
    with uow.reader() as connection:
        assert connection.scalar(text("SELECT count(*) FROM note")) == 0


def test_writers_who_read_first_never_fail_and_lose_nothing(uow: UnitOfWork) -> None:
    """With a plain BEGIN a reader that turns writer fails at once, whatever the timeout."""

    def increment(_: int) -> None:
        with uow.writer() as connection:
            count = connection.scalar(text("SELECT count FROM tally"))
            connection.execute(text("UPDATE tally SET count = :count"), {"count": count + 1})

    with uow.writer() as connection:
        connection.execute(text("CREATE TABLE tally (count INTEGER)"))
        connection.execute(text("INSERT INTO tally VALUES (0)"))
    with ThreadPoolExecutor(8) as threads:
        list(threads.map(increment, range(200)))
    with uow.reader() as connection:
        assert connection.scalar(text("SELECT count FROM tally")) == 200


def test_a_path_and_a_url_name_the_same_file(tmp_path: Path) -> None:
    file = tmp_path / "a b%.sqlite3"
    assert url_for(file).database == str(file)
    assert url_for(f"sqlite:///{tmp_path}/x.sqlite3").database == f"{tmp_path}/x.sqlite3"
    assert url_for("postgresql+psycopg://host/name").get_backend_name() == "postgresql"
