"""Column types that keep what they are given: aware times, plain JSON, ids as UUIDs."""

from collections.abc import Callable
from datetime import UTC, datetime
from functools import lru_cache
from typing import Any
from uuid import UUID

from sqlalchemy import JSON, DateTime, Dialect, Uuid
from sqlalchemy.types import TypeDecorator

__all__ = ["Json", "RepeatedUuid", "UtcDateTime", "Uuid"]

Json = JSON


class RepeatedUuid(Uuid[UUID]):
    """An id that comes back in many rows of one answer: each is read into a UUID once, and is the same object then."""

    def result_processor(self, dialect: Dialect, coltype: object) -> Callable[[Any], UUID | None] | None:
        """Return how an id is read; None where the driver does it."""
        read: Callable[[Any], UUID | None] | None = super().result_processor(dialect, coltype)  # type: ignore[no-untyped-call]
        return lru_cache(maxsize=1000)(read) if read else None


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
