"""Bringing a database to this version's tables, and telling whether it is.

Alembic is imported only when there is something to do: a start with an up-to-date database does not wait for it.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import Connection, Engine, inspect, text
from sqlalchemy.exc import DatabaseError

from app.storage.base import Base
from app.storage.engine import create_engine_for

if TYPE_CHECKING:
    from alembic.config import Config

MIGRATIONS = Path(__file__).resolve().parents[2] / "migrations"


class NewerDatabase(RuntimeError):
    """The database was made by a newer version of the program; nothing was changed."""


class UnusableDatabase(RuntimeError):
    """The database cannot be opened or written; the message says why."""


def revisions() -> list[str]:
    """Return the revisions this version knows, oldest first: the stems of the files."""
    return sorted(file.stem for file in (MIGRATIONS / "versions").glob("[0-9]*.py"))


def head() -> str:
    """Return the newest revision this version knows."""
    return revisions()[-1]


def current(target: str | Path) -> str | None:
    """Return the database's revision, None for an empty one."""
    with _opened(target) as engine, engine.connect() as connection:
        return _revision(connection)


def upgrade(target: str | Path, revision: str = "head") -> None:
    """Bring a database (a SQLite path or a URL) up to a revision; raises NewerDatabase or UnusableDatabase."""
    with _opened(target) as engine:
        with engine.connect() as connection:
            found = _revision(connection)
        if found is not None and found not in revisions():
            raise NewerDatabase(
                f"The database is at {found}, which this version does not know; it knows up to {head()}. "
                "Nothing was changed. Use the newer version of the program, or another database."
            )
        if found != (head() if revision == "head" else revision):
            from alembic import command  # noqa: PLC0415 - see the module's docstring

            command.upgrade(_config(engine), revision)


def downgrade(target: str | Path, revision: str) -> None:
    """Take a database back to an older revision, "base" for an empty one."""
    from alembic import command  # noqa: PLC0415 - see the module's docstring

    with _opened(target) as engine:
        command.downgrade(_config(engine), revision)


def differences(target: str | Path) -> list[str]:
    """Return every difference between the tables of a database and the models, as text."""
    from alembic.autogenerate import compare_metadata  # noqa: PLC0415 - see the module's docstring
    from alembic.migration import MigrationContext  # noqa: PLC0415 - see the module's docstring

    import app.storage.models  # noqa: F401, PLC0415 - completes the metadata

    with _opened(target) as engine, engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_server_default": True})
        return [str(difference) for difference in compare_metadata(context, Base.metadata)]


def _revision(connection: Connection) -> str | None:
    if not inspect(connection).has_table("alembic_version"):
        return None
    found: str | None = connection.scalar(text("SELECT version_num FROM alembic_version"))
    return found


def _config(engine: Engine) -> "Config":
    from alembic.config import Config  # noqa: PLC0415 - see the module's docstring

    config = Config(attributes={"engine": engine})
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    return config


@contextmanager
def _opened(target: str | Path) -> Iterator[Engine]:
    engine = create_engine_for(target)
    try:
        yield engine
    except DatabaseError as error:
        raise UnusableDatabase(f"The database {engine.url.render_as_string()} cannot be used: {error.orig}.") from error
    finally:
        engine.dispose()
