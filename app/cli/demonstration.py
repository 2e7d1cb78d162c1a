"""Filling the demonstration's database, done once, and saying how to come in."""

from datetime import UTC, datetime

import click

from app.packs.load import load_library
from app.services.demonstration import (
    ADMINISTRATOR,
    CODE,
    INSTRUCTORS,
    PASSWORD,
    has_demonstration,
    make_demonstration,
)
from app.services.logins import plain_login
from app.services.passwords import Argon2
from app.storage.engine import create_engine_for
from app.storage.unit_of_work import UnitOfWork
from app.web.settings import Settings


def fill_demonstration(settings: Settings) -> None:
    """Make the invented school where it is not there yet, and say how to come in."""
    uow = UnitOfWork(create_engine_for(settings.database))
    if not has_demonstration(uow):
        click.echo("Making an invented school with simulated students (done once):")
        library = load_library(settings.packs)
        make_demonstration(uow, library, Argon2(), datetime.now(UTC), lambda what: click.echo(f"  {what}"))
    people = ", ".join(plain_login(name) for name in (ADMINISTRATOR, *INSTRUCTORS))
    click.echo(f'Sign in at /sign-in?school={CODE} as {people} or a student; the password is "{PASSWORD}".')
