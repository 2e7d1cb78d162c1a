"""Runs the migrations in one transaction, on SQLite with foreign keys off: a rebuilt table would lose its children."""

from collections.abc import Iterator
from contextlib import contextmanager

from alembic import context
from sqlalchemy import Connection, Engine

import app.storage.models  # noqa: F401 - completes the metadata
from app.storage.base import Base
from app.storage.engine import begin_writing


class BrokenReferences(RuntimeError):
    """A migration left rows that refer to rows which are not there; it was undone."""


@contextmanager
def foreign_keys_off(connection: Connection) -> Iterator[None]:
    """Batch mode rebuilds a table by dropping it, and ON DELETE CASCADE would take the children along.

    SQLite ignores the pragma inside a transaction, so it goes to the driver while none is open.
    """
    if connection.dialect.name != "sqlite":
        yield
        return
    driver = connection.connection.driver_connection
    driver.execute("PRAGMA foreign_keys=OFF")
    try:
        yield
    finally:
        driver.execute("PRAGMA foreign_keys=ON")


def demand_whole_references(connection: Connection) -> None:
    """Refuse what a migration has broken while foreign keys were off."""
    if connection.dialect.name != "sqlite":
        return
    broken = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
    if broken:
        tables = sorted({row[0] for row in broken})
        raise BrokenReferences(f"{len(broken)} rows of {', '.join(tables)} refer to rows that are not there")


def migrate(engine: Engine) -> None:
    """Run what Alembic was asked for, all of it or nothing."""
    with engine.connect() as connection, foreign_keys_off(connection), begin_writing(connection):
        context.configure(connection=connection, target_metadata=Base.metadata, render_as_batch=True)
        context.run_migrations()
        demand_whole_references(connection)


migrate(context.config.attributes["engine"])
