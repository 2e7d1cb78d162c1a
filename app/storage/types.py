"""Column types that keep what they are given: aware times, plain JSON, ids as UUIDs."""

from datetime import UTC, datetime
from typing import Any

from sqlalchemy import JSON, DateTime, Dialect, Uuid
from sqlalchemy.types import TypeDecorator

__all__ = ["Json", "UtcDateTime", "Uuid"]

Json = JSON


class UtcDateTime(TypeDecorator[datetime]):
    """A moment in UTC. Naive values are refused; SQLite, which forgets the zone, gives it back all the same."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """Turn an aware moment into UTC; ValueError for a naive one."""
        del dialect
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError(f"{value!r} has no time zone; moments are stored in UTC")
        return value.astimezone(UTC)

    def process_result_value(self, value: Any, dialect: Dialect) -> datetime | None:
        """Return the moment in UTC."""
        del dialect
        if value is None:
            return None
        moment: datetime = value
        return moment.replace(tzinfo=UTC) if moment.tzinfo is None else moment.astimezone(UTC)
