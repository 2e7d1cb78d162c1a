"""Making the demonstration's database, done once and whole or not at all, and saying how to come in."""

import os
from collections.abc import Callable
from contextlib import closing, suppress
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory

import click

from app.packs.load import load_library
from app.services.demonstration import ADMINISTRATOR, CODE, INSTRUCTORS, PASSWORD, make_demonstration
from app.services.logins import plain_login
from app.services.passwords import Argon2
from app.storage.engine import create_engine_for
from app.storage.migrate import upgrade
from app.storage.unit_of_work import UnitOfWork


def offer_demonstration(database: Path, packs: Path) -> None:
    """Make the invented school where there is no database yet, and say how to come in."""
    if not database.exists():
        click.echo("Making an invented school with simulated students (done once):")
        library = load_library(packs)
        make_whole(
            database,
            lambda uow: make_demonstration(
                uow, library, Argon2(), datetime.now(UTC), lambda what: click.echo(f"  {what}")
            ),
        )
    people = ", ".join(plain_login(name) for name in (ADMINISTRATOR, *INSTRUCTORS))
    click.echo(f'Sign in at /sign-in?school={CODE} as {people} or a student; the password is "{PASSWORD}".')


def make_whole(database: Path, fill: Callable[[UnitOfWork], None]) -> None:
    """Fill a new database beside its place and link it there: what was interrupted is begun anew, of two one stays."""
    with TemporaryDirectory(dir=database.parent, prefix="draft-") as folder:
        draft = Path(folder, database.name)
        upgrade(draft)
        with closing(UnitOfWork(create_engine_for(draft))) as uow:
            fill(uow)
        with suppress(FileExistsError):
            os.link(draft, database)
