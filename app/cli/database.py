"""Where the database of an instance is, for commands that work on it while it may be served."""

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

from app.cli import Refused
from app.environment import ROOT
from app.storage.engine import create_engine_for
from app.storage.migrate import NewerDatabase, UnusableDatabase, upgrade
from app.storage.unit_of_work import UnitOfWork
from app.web.settings import DATABASE_FILE

Command = Callable[..., Any]


def instance_option(command: Command) -> Command:
    """Add --instance, as serve has it."""
    return click.option(
        "--instance",
        type=click.Path(path_type=Path, file_okay=False),
        default=ROOT / "instance",
        envvar="LUBBERLINE_INSTANCE",
        show_default="instance",
        show_envvar=True,
        help="Folder of the database.",
    )(command)


def database_of(instance: Path) -> Path | str:
    """Return the database of an instance: a SQLite file, or the URL that LUBBERLINE_DATABASE holds."""
    given = os.environ.get("LUBBERLINE_DATABASE", "")
    return given if "://" in given else Path(given or instance / DATABASE_FILE)


def sqlite_file(instance: Path) -> Path:
    """Return the SQLite file of an instance; refuses a database on a server, which has tools of its own for this."""
    database = database_of(instance)
    if not isinstance(database, Path):
        raise Refused(
            "LUBBERLINE_DATABASE names a database server. Use the server's own tools to back it up and restore it "
            "(PostgreSQL: pg_dump and pg_restore)."
        )
    return database


def open_database(instance: Path) -> UnitOfWork:
    """Bring the database up to date and open it for the command that runs; it is closed with it."""
    try:
        instance.mkdir(parents=True, exist_ok=True)
        upgrade(database_of(instance))
    except (NewerDatabase, UnusableDatabase) as error:
        raise Refused(str(error)) from error
    except OSError as error:
        raise Refused(f"The instance folder {instance} cannot be written: {error.strerror}.") from error
    uow = UnitOfWork(create_engine_for(database_of(instance)))
    click.get_current_context().call_on_close(uow.close)
    return uow
