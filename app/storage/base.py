"""What every table shares: how a class says its columns, and the naming of constraints.

A table is declared as a class, a column a line. The classes are read here, into Core tables: nothing of the project
maps objects to rows, and an ORM that could would be a tenth of each start. Where a row is read or kept whole, `row`
lets the same class hold it.
"""

from dataclasses import Field, dataclass, field
from datetime import date, datetime
from types import NoneType
from typing import Any, ClassVar, TypeVar, dataclass_transform, get_args, get_origin
from uuid import UUID

from sqlalchemy import Boolean, Column, Date, Double, Integer, MetaData, String, Table
from sqlalchemy.schema import SchemaItem
from sqlalchemy.types import TypeEngine

from app.storage.types import Json, UtcDateTime, Uuid

# Without names SQLite cannot drop a constraint again.
NAMING = {
    "pk": "pk_%(table_name)s",
    "fk": "fk_%(table_name)s_%(referred_table_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
}
TYPES: dict[Any, TypeEngine[Any]] = {
    str: String(),
    int: Integer(),
    float: Double(),
    bool: Boolean(),
    date: Date(),
    datetime: UtcDateTime(),
    UUID: Uuid(),
    dict: Json(),
    list: Json(),
}

Model = TypeVar("Model", bound="Base")


class Base:
    """A table; `school_id` leads the key of every one that grows, so that a school is one shard.

    `name: str` is a column that is never empty, `name: str | None` one that may be; `column` says what else there is.
    """

    metadata: ClassVar = MetaData(naming_convention=NAMING)
    table: ClassVar[Table]
    __tablename__: ClassVar[str]
    __table_args__: ClassVar[tuple[SchemaItem, ...]] = ()

    def __init_subclass__(cls) -> None:
        columns = [_read(name, said, vars(cls).get(name)) for name, said in cls.__annotations__.items()]
        cls.table = Table(cls.__tablename__, Base.metadata, *columns, *cls.__table_args__)


def column(type_: type[TypeEngine[Any]] | None = None, *, primary_key: bool = False, **default: Any) -> Any:
    """Say of a column that it belongs to the key, or another type than its Python type has."""
    return field(metadata={"type_": type_, "primary_key": primary_key}, **default)


@dataclass_transform(frozen_default=True, field_specifiers=(column,))
def row(model: type[Model]) -> type[Model]:
    """Let a model hold one row of its table, whole, as a frozen dataclass."""
    return dataclass(frozen=True)(model)


def table_of(model: type[Base]) -> Table:
    """Return the table behind a model, for Core statements."""
    return model.table


def _read(name: str, said: Any, more: object) -> Column[Any]:
    may_be_empty = NoneType in get_args(said)
    kind = next(each for each in get_args(said) if each is not NoneType) if may_be_empty else said
    of_column = more.metadata if isinstance(more, Field) else {}
    type_ = of_column.get("type_") or TYPES[get_origin(kind) or kind]
    return Column(name, type_, primary_key=of_column.get("primary_key", False), nullable=may_be_empty)
