"""Transactions as context managers: a reader that keeps nothing, a writer that keeps all or nothing."""

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy import Connection, Engine

from app.storage.engine import begin_writing, reading_engine


class UnitOfWork:
    """Opens transactions on one database. They are short: items are drawn and pages rendered outside of them."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine
        self._reading = reading_engine(engine)

    def reader(self) -> Connection:
        """Return a connection, to be closed by `with`, that sees one state; nothing done through it is kept."""
        return self._reading.connect()

    @contextmanager
    def writer(self) -> Iterator[Connection]:
        """Yield a connection whose changes are kept together at the end, or not at all after an exception."""
        with self._engine.connect() as connection, begin_writing(connection):
            yield connection

    def close(self) -> None:
        """Close the connections that wait to be used; who goes on all the same gets new ones."""
        self._engine.dispose()
