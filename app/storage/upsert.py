"""Insert or update in one statement: both databases can, each in its own dialect."""

from collections.abc import Callable, Mapping
from importlib import import_module
from typing import Any

from sqlalchemy import ColumnElement, Connection, Insert, Table

from app.storage.prepared import Prepared


class OwnInsert:
    """An insert that each database words in its own way: built once, when a connection to that database runs it.

    Only then is the dialect loaded: who serves SQLite need not wait for the other's.
    """

    def __init__(self, table: Table, finish: Callable[[Any], Insert]) -> None:
        """`finish` takes the dialect's bare insert and says what is done on a conflict."""
        self._table, self._finish = table, finish
        self._by_dialect: dict[str, Prepared] = {}

    def run(self, connection: Connection, row: Mapping[str, Any]) -> int:
        """Add a row, or do what is done on a conflict; return how many rows were added or changed."""
        dialect = connection.dialect.name
        statement = self._by_dialect.get(dialect)
        if statement is None:
            insert = import_module(f"sqlalchemy.dialects.{dialect}").insert
            statement = self._by_dialect[dialect] = Prepared(self._finish(insert(self._table)))
        return statement.run(connection, row)


class AddIfFree(OwnInsert):
    """A statement that adds a row where none has its key."""

    def __init__(self, table: Table) -> None:
        super().__init__(table, lambda insert: insert.on_conflict_do_nothing())


class Upsert(OwnInsert):
    """A statement that adds a row or, where one with this key is there, changes it."""

    def __init__(
        self, table: Table, change: Callable[[Any], Mapping[str, ColumnElement[Any] | Any]] | None = None
    ) -> None:
        """`change` takes the row that could not be added and returns what becomes of the one that is there.

        Without it all but the key becomes as in the new row.
        """
        key = [column.name for column in table.primary_key.columns]
        rest = [name for name in table.c.keys() if name not in key]  # noqa: SIM118 - a table's columns, not a dict
        make = change or (lambda new: {name: new[name] for name in rest})
        super().__init__(
            table,
            lambda insert: insert.on_conflict_do_update(index_elements=key, set_=dict(make(insert.excluded))),
        )
