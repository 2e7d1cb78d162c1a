"""The demonstration's database is made whole or not at all."""

from contextlib import closing
from pathlib import Path

import pytest

from app.cli.demonstration import make_whole
from app.storage.engine import create_engine_for
from app.storage.queries import schools
from app.storage.unit_of_work import UnitOfWork
from tests.services.people import SCHOOL_ONE, add_school_row


def add_one(uow: UnitOfWork) -> None:
    add_school_row(uow, SCHOOL_ONE, "One")


def interrupted(uow: UnitOfWork) -> None:
    add_one(uow)
    raise KeyboardInterrupt


def names_in(database: Path) -> list[str]:
    with closing(UnitOfWork(create_engine_for(database))) as uow, uow.reader() as connection:
        return [school.name for school in schools.list_schools(connection)]


def test_one_that_was_interrupted_leaves_nothing_and_is_begun_anew(tmp_path: Path) -> None:
    database = tmp_path / "lubberline.sqlite3"
    with pytest.raises(KeyboardInterrupt):
        make_whole(database, interrupted)
    assert not list(tmp_path.iterdir())
    make_whole(database, add_one)
    assert names_in(database) == ["School One"]
    assert list(tmp_path.glob("draft-*")) == []


def test_one_that_is_there_stays(tmp_path: Path) -> None:
    database = tmp_path / "lubberline.sqlite3"
    make_whole(database, add_one)
    make_whole(database, lambda _: None)
    assert names_in(database) == ["School One"]
