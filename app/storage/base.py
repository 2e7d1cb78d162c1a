"""What every table shares: the naming of constraints and the column type of each Python type."""

from datetime import datetime
from typing import Any, ClassVar, cast
from uuid import UUID

from sqlalchemy import MetaData, Table
from sqlalchemy.orm import DeclarativeBase

from app.storage.types import Json, UtcDateTime, Uuid

# Without names SQLite cannot drop a constraint again.
NAMING = {
    "pk": "pk_%(table_name)s",
    "fk": "fk_%(table_name)s_%(referred_table_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
}


class Base(DeclarativeBase):
    """The declarative base; `school_id` leads the key of every table that grows, so that a school is one shard."""

    metadata = MetaData(naming_convention=NAMING)
    type_annotation_map: ClassVar[dict[Any, Any]] = {
        datetime: UtcDateTime(),
        UUID: Uuid(),
        dict[str, Any]: Json(),
        list[str]: Json(),
        list[dict[str, Any]]: Json(),
    }


def table_of(model: type[Base]) -> Table:
    """Return the table behind a model, for Core statements."""
    return cast("Table", model.__table__)
