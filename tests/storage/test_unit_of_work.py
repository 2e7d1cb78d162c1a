import sqlite3
from collections.abc import Callable
from contextlib import AbstractContextManager, closing
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import text

from app.storage.unit_of_work import UnitOfWork

ADD = text(
    """INSERT INTO school VALUES
    ('0' || :name, :name, '2026-01-01 00:00:00', :name, 'en', 'UTC', '{}', '{}', '{}', FALSE, 1, 0)"""
)
COUNT = text("SELECT count(*) FROM school")
Counting = Callable[[], AbstractContextManager[Any]]


def test_writer_keeps_its_changes(uow: UnitOfWork) -> None:
    with uow.writer() as connection:
        connection.execute(ADD, {"name": "One"})
    with uow.reader() as connection:
        assert connection.scalar(COUNT) == 2


def test_writer_keeps_nothing_after_an_exception(uow: UnitOfWork) -> None:
    def add_and_fail() -> None:
        with uow.writer() as connection:
            connection.execute(ADD, {"name": "One"})
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        add_and_fail()
    with uow.reader() as connection:
        assert connection.scalar(COUNT) == 1


def test_reader_keeps_nothing(uow: UnitOfWork) -> None:
    with uow.reader() as connection:
        connection.execute(ADD, {"name": "One"})
    with uow.reader() as connection:
        assert connection.scalar(COUNT) == 1


def test_writer_takes_the_lock_at_once_and_reader_does_not(uow: UnitOfWork, database: Path) -> None:
    with closing(sqlite3.connect(database, timeout=0, isolation_level=None)) as other:
        with uow.reader() as connection:
            connection.scalar(COUNT)
            other.execute("BEGIN IMMEDIATE")
            other.execute("ROLLBACK")
        with uow.writer(), pytest.raises(sqlite3.OperationalError, match="locked"):
            other.execute("BEGIN IMMEDIATE")
        other.execute("BEGIN IMMEDIATE")


def test_reader_sees_one_state(uow: UnitOfWork) -> None:
    with uow.reader() as reader:
        assert reader.scalar(COUNT) == 1
        with uow.writer() as writer:
            writer.execute(ADD, {"name": "One"})
        assert reader.scalar(COUNT) == 1


def test_writer_commits_once_and_reader_never(uow: UnitOfWork, count_queries: Counting) -> None:
    for opened, commits in ((uow.writer, 1), (uow.reader, 0)):
        with count_queries() as counted, opened() as connection:
            connection.scalar(COUNT)
        assert counted.commits == commits
