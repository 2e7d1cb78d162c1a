"""Statements handed to the driver: what goes in and comes out is what it is through SQLAlchemy, on both databases."""

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta, timezone
from pathlib import Path
from typing import Any
from uuid import UUID

import pytest
from sqlalchemy import (
    Boolean,
    Column,
    Date,
    Double,
    Engine,
    MetaData,
    String,
    Table,
    Uuid,
    bindparam,
    insert,
    select,
    update,
)
from sqlalchemy.exc import IntegrityError

from app.storage.engine import create_engine_for
from app.storage.prepared import Prepared
from app.storage.types import Json, UtcDateTime
from app.storage.unit_of_work import UnitOfWork
from app.storage.upsert import AddIfFree, Upsert
from tests.postgresql import needs_postgresql, new_database

NOTE = Table(
    "note",
    MetaData(),
    Column("id", Uuid(), primary_key=True),
    Column("text", String(), nullable=False, unique=True),
    Column("told", Json()),
    Column("at", UtcDateTime()),
    Column("day", Date()),
    Column("kept", Boolean()),
    Column("share", Double()),
)
ADD = Prepared(insert(NOTE))
LIST = Prepared(select(NOTE).where(NOTE.c.text != "never").order_by(NOTE.c.text.desc()).limit(5))
FIND = Prepared(select(NOTE).where(NOTE.c.id == bindparam("id"), NOTE.c.kept.is_(False)))
RENAME = Prepared(update(NOTE).where(NOTE.c.id == bindparam("of_id")).values(text=bindparam("text")))
FULL: dict[str, Any] = {
    "id": UUID(int=1),
    "text": "100 % sure: é",
    "told": {"numbers": [1, 2.5, None], "words": {"é": "°"}},
    "at": datetime(2026, 9, 1, 12, 0, 0, 250_000, tzinfo=timezone(timedelta(hours=-4))),
    "day": date(2026, 9, 1),
    "kept": False,
    "share": 0.1,
}
BARE: dict[str, Any] = dict.fromkeys(FULL) | {"id": UUID(int=2), "text": "bare"}


@pytest.fixture(params=["sqlite", pytest.param("postgresql", marks=needs_postgresql)])
def uow(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[UnitOfWork]:
    if request.param == "sqlite":
        yield from opened(create_engine_for(tmp_path / "notes.sqlite3"))
    else:
        with new_database() as url:
            yield from opened(create_engine_for(url))


def opened(engine: Engine) -> Iterator[UnitOfWork]:
    NOTE.create(engine)
    yield UnitOfWork(engine)
    engine.dispose()


def keep(uow: UnitOfWork, *rows: dict[str, Any]) -> None:
    with uow.writer() as connection:
        assert [ADD.run(connection, row) for row in rows] == [1] * len(rows)


def test_reads_and_writes_what_core_does(uow: UnitOfWork) -> None:
    keep(uow, FULL, BARE)
    with uow.reader() as connection:
        rows = LIST.rows(connection, {})
        assert rows == [tuple(row) for row in connection.execute(select(NOTE).order_by(NOTE.c.text.desc()))]
        assert FIND.first(connection, {"id": FULL["id"]}) == tuple(FULL.values())
        assert FIND.first(connection, {"id": BARE["id"]}) is None
    assert rows == [tuple(BARE.values()), tuple(FULL.values())]
    assert rows[1][3].tzinfo is UTC


def test_says_how_many_rows_it_changed(uow: UnitOfWork) -> None:
    keep(uow, FULL)
    with uow.writer() as connection:
        assert RENAME.run(connection, {"of_id": FULL["id"], "text": "other"}) == 1
        assert RENAME.run(connection, {"of_id": BARE["id"], "text": "other"}) == 0
    with uow.reader() as connection:
        assert [row[1] for row in LIST.rows(connection, {})] == ["other"]


def test_what_a_constraint_forbids_is_an_integrity_error_and_nothing_is_kept(uow: UnitOfWork) -> None:
    keep(uow, FULL)
    with pytest.raises(IntegrityError):
        keep(uow, BARE, BARE | {"id": FULL["id"]})
    with uow.reader() as connection:
        assert len(LIST.rows(connection, {})) == 1


def test_reader_sees_one_state(uow: UnitOfWork) -> None:
    with uow.reader() as connection:
        assert LIST.rows(connection, {}) == []
        keep(uow, FULL)
        assert LIST.rows(connection, {}) == []


def test_value_left_out_is_an_error(uow: UnitOfWork) -> None:
    keep(uow, FULL)
    with uow.writer() as connection, pytest.raises(KeyError, match="share"):
        ADD.run(connection, {name: value for name, value in BARE.items() if name != "share"})


def test_inserts_that_meet_a_row(uow: UnitOfWork) -> None:
    add, change = AddIfFree(NOTE), Upsert(NOTE, lambda new: {"share": NOTE.c.share + new.share, "kept": None})
    with uow.writer() as connection:
        assert [add.run(connection, FULL), add.run(connection, FULL)] == [1, 0]
        assert change.run(connection, FULL) == 1
    with uow.reader() as connection:
        ((*_, kept, share),) = LIST.rows(connection, {})
    assert (kept, share) == (None, 0.2)
