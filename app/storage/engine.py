"""Engines for SQLite and PostgreSQL. On SQLite transactions begin when told, and writers take the lock at once."""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pydantic_core import from_json, to_json
from sqlalchemy import URL, Connection, Engine, QueuePool, RootTransaction, create_engine, event, make_url
from sqlalchemy.pool import PoolProxiedConnection

WRITES = "lubberline_writes"


@dataclass(frozen=True, slots=True)
class StorageSettings:
    """How the database is opened; `threads` is how many requests one process answers at a time.

    cache_kib: what each connection keeps of a SQLite file, of which a process has as many as threads. Four megabytes
    each: with sixteen a process grew by 26 in 9,000 answers, with four by 12 (docs/performance.md).
    """

    threads: int = 4
    full_sync: bool = False
    busy_timeout_ms: int = 5000
    cache_kib: int = 4_000


def create_engine_for(target: str | Path, settings: StorageSettings | None = None) -> Engine:
    """Return an engine for a SQLite file (a path) or a database URL; one connection a thread, none beyond."""
    settings = settings or StorageSettings()
    url = url_for(target)
    how: dict[str, Any] = {"poolclass": QueuePool, "pool_size": settings.threads, "max_overflow": 0}
    how |= {"json_serializer": _as_json, "json_deserializer": from_json}
    if url.get_backend_name() != "sqlite":
        return create_engine(url, pool_pre_ping=True, **how)
    engine = create_engine(url, **how)
    _set_pragmas(engine, settings)
    _begin_when_told(engine)
    return engine


def url_for(target: str | Path) -> URL:
    """Return the URL of a SQLite file, or of what is already a URL."""
    text = str(target)
    return make_url(text) if "://" in text else URL.create("sqlite", database=text)


def _as_json(value: Any) -> str:
    """Write JSON as Pydantic does: every number exactly, in a fourth of the standard library's time."""
    return to_json(value).decode()


def _set_pragmas(engine: Engine, settings: StorageSettings) -> None:
    pragmas = {
        "foreign_keys": "ON",
        "busy_timeout": settings.busy_timeout_ms,
        "journal_mode": "WAL",
        "synchronous": "FULL" if settings.full_sync else "NORMAL",
        "cache_size": -settings.cache_kib,
    }

    @event.listens_for(engine, "connect")
    def connect(driver: Any, record: Any) -> None:
        del record
        driver.isolation_level = None  # the driver would begin by itself, and too late: savepoints would leak
        for name, value in pragmas.items():
            driver.execute(f"PRAGMA {name}={value}")


def begin_writing(connection: Connection) -> RootTransaction:
    """Begin a transaction that writes: on SQLite it takes the lock at once.

    A writer that begins as a reader fails when another has written meanwhile: no waiting helps it.
    """
    connection.info[WRITES] = True
    return connection.begin()


def reading_engine(engine: Engine) -> Engine:
    """Return an engine on the same connections whose transactions see one state: those of SQLite do by themselves."""
    if engine.dialect.name == "sqlite":
        return engine
    return engine.execution_options(isolation_level="REPEATABLE READ")


def _begin_when_told(engine: Engine) -> None:
    """Have every transaction begin with a statement of its own.

    Set on the dialect: a listener for `begin` would have each statement ask after listeners at four more places.
    """

    def begin(pooled: PoolProxiedConnection) -> None:
        driver: Any = pooled.driver_connection
        driver.execute("BEGIN IMMEDIATE" if pooled.info.pop(WRITES, False) else "BEGIN")

    engine.dialect.do_begin = begin  # type: ignore[method-assign, assignment]
