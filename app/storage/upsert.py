"""Insert or update in one statement: both databases can, each in its own dialect."""

from collections.abc import Callable, Mapping
from importlib import import_module
from typing import Any

from sqlalchemy import ColumnElement, Connection, CursorResult, Executable, Table


class OwnInsert:
    """An insert that each database words in its own way: built once, when a connection to that database runs it.

    Only then is the dialect loaded: who serves SQLite need not wait for the other's.
    """

    def __init__(self, table: Table, finish: Callable[[Any], Executable]) -> None:
        """`finish` takes the dialect's bare insert and says what is done on a conflict."""
        self._table, self._finish = table, finish
        self._by_dialect: dict[str, Executable] = {}

    def run(self, connection: Connection, row: Mapping[str, Any]) -> CursorResult[Any]:
        """Add a row, or do what is done on a conflict."""
        dialect = connection.dialect.name
        statement = self._by_dialect.get(dialect)
        if statement is None:
            insert = import_module(f"sqlalchemy.dialects.{dialect}").insert
            statement = self._by_dialect[dialect] = self._finish(insert(self._table))
        return connection.execute(statement, row)


class AddIfFree(OwnInsert):
    """A statement that adds a row where none has its key; what it returns counts the rows it has added."""

    def __init__(self, table: Table) -> None:
        super().__init__(
            table, lambda insert: insert.on_conflict_do_nothing().execution_options(preserve_rowcount=True)
        )


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
