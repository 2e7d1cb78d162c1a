"""The statements an answer needs: worded once for each kind of database, then handed to its driver directly.

SQLAlchemy words a statement and says how each value goes in and comes out; what it does around every execution costs
several times what the driver takes, and the answer path does without. All else stays: the connection, its transaction
and the errors are those of any other statement.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from sqlalchemy import Connection, Dialect, Insert, Select, Update
from sqlalchemy.exc import DBAPIError

Row = tuple[Any, ...]
Change = Callable[[Any], Any]
Statement = Select[Any] | Insert | Update


class _Taken(NamedTuple):
    """A parameter: where `given` by whoever runs the statement its name, else its fixed value; how it is made fit."""

    name: str
    given: bool
    fixed: Any
    change: Change | None


@dataclass(slots=True)
class _Worded:
    """A statement in a database's own words; `gives`: the columns its driver leaves half read, once it is known."""

    text: str
    takes: tuple[_Taken, ...]
    by_name: bool
    gives: tuple[tuple[int, Change], ...] | None = None

    def fit(self, values: Mapping[str, Any]) -> Sequence[Any] | Mapping[str, Any]:
        """Return the values as the driver takes them; KeyError where one is missing."""
        fitted = []
        for name, given, fixed, change in self.takes:
            value = values[name] if given else fixed
            fitted.append(value if change is None or value is None else change(value))
        return {take.name: value for take, value in zip(self.takes, fitted, strict=True)} if self.by_name else fitted

    def read(self, row: Row) -> Row:
        """Return a row's values as the types of its columns say."""
        read = list(row)
        for at, change in self.gives or ():
            if read[at] is not None:
                read[at] = change(read[at])
        return tuple(read)


class Prepared:
    """A statement to be run often, always with the same names; lists spelt out in it (`in_`) cannot stand in it."""

    def __init__(self, statement: Statement) -> None:
        self._statement = statement
        self._by_dialect: dict[str, _Worded] = {}

    def rows(self, connection: Connection, values: Mapping[str, Any]) -> list[Row]:
        """Return every row that a query finds."""
        worded, cursor = self._execute(connection, values)
        return [worded.read(row) for row in cursor.fetchall()]

    def first(self, connection: Connection, values: Mapping[str, Any]) -> Row | None:
        """Return the first row that a query finds."""
        worded, cursor = self._execute(connection, values)
        row = cursor.fetchone()
        cursor.close()
        return worded.read(row) if row else None

    def run(self, connection: Connection, values: Mapping[str, Any]) -> int:
        """Change something and return how many rows; IntegrityError where a constraint forbids it."""
        return int(self._execute(connection, values)[1].rowcount)

    def _execute(self, connection: Connection, values: Mapping[str, Any]) -> tuple[_Worded, Any]:
        if not connection.in_transaction():
            connection.begin()
        dialect = connection.dialect
        worded = self._by_dialect.get(dialect.name)
        if worded is None:
            worded = self._by_dialect[dialect.name] = _word(self._statement, dialect, values)
        cursor: Any = connection.connection.cursor()
        try:
            cursor.execute(worded.text, worded.fit(values))
        except dialect.loaded_dbapi.Error as error:
            of_driver = dialect.loaded_dbapi.Error
            raise DBAPIError.instance(worded.text, None, error, of_driver, dialect=dialect) from error
        if worded.gives is None:
            worded.gives = tuple(_half_read(self._statement, dialect, cursor.description or ()))
        return worded, cursor


def _word(statement: Statement, dialect: Dialect, values: Mapping[str, Any]) -> _Worded:
    compiled: Any = statement.compile(dialect=dialect, column_keys=list(values))
    binds = {name: bind for bind, name in compiled.bind_names.items()}

    def taken(name: str) -> _Taken:
        bind, fixed = binds[name], compiled.params[name]
        return _Taken(name, bind.required, fixed, bind.type.dialect_impl(dialect).bind_processor(dialect))

    return _Worded(str(compiled), tuple(map(taken, compiled.positiontup or binds)), compiled.positiontup is None)


def _half_read(statement: Statement, dialect: Dialect, described: Sequence[Any]) -> Iterator[tuple[int, Change]]:
    """Yield where a column stands whose values have to be read further, and how."""
    columns = statement.selected_columns if isinstance(statement, Select) else ()
    for at, (column, of_driver) in enumerate(zip(columns, described, strict=False)):
        change = column.type.dialect_impl(dialect).result_processor(dialect, of_driver[1])
        if change is not None:
            yield at, change
