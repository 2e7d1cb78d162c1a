"""Insert or update in one statement: both databases can, each in its own dialect."""

from collections.abc import Callable, Mapping
from typing import Any

from sqlalchemy import ColumnElement, Connection, Table
from sqlalchemy.dialects import postgresql, sqlite


class Upsert:
    """A statement built once that adds a row or, where one with this key is there, changes it."""

    def __init__(self, table: Table, change: Callable[[Any], Mapping[str, ColumnElement[Any] | Any]]) -> None:
        """`change` takes the row that could not be added and returns what becomes of the one that is there."""
        key = [column.name for column in table.primary_key.columns]
        self._by_dialect = {}
        for name, insert in (("sqlite", sqlite.insert), ("postgresql", postgresql.insert)):
            statement = insert(table)
            self._by_dialect[name] = statement.on_conflict_do_update(
                index_elements=key, set_=dict(change(statement.excluded))
            )

    def run(self, connection: Connection, row: Mapping[str, Any]) -> None:
        """Add a row or change the one with its key."""
        connection.execute(self._by_dialect[connection.dialect.name], row)
