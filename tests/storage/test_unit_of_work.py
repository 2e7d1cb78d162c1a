from collections.abc import Callable
from contextlib import AbstractContextManager
from typing import Any

import pytest
from sqlalchemy import text

from app.storage.unit_of_work import UnitOfWork

ADD = text(
    """INSERT INTO school VALUES
    ('0' || :name, :name, '2026-01-01 00:00:00', :name, 'en', 'UTC', '{}', '{}', '{}', FALSE, 1)"""
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


def test_writer_takes_the_lock_at_once_and_reader_does_not(uow: UnitOfWork, count_queries: Counting) -> None:
    with count_queries() as counted, uow.writer() as connection:
        connection.scalar(COUNT)
    assert counted.statements[0] == "BEGIN IMMEDIATE"
    assert counted.commits == 1
    with count_queries() as counted, uow.reader() as connection:
        connection.scalar(COUNT)
    assert counted.statements[0] == "BEGIN"
    assert counted.commits == 0
