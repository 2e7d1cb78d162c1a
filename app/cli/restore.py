"""Put a copy of the database back."""

from datetime import UTC, datetime
from pathlib import Path

import click

from app.cli import Refused
from app.cli.database import instance_option, sqlite_file
from app.storage.backup import restore
from app.storage.migrate import NewerDatabase, UnusableDatabase, upgrade


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@instance_option
def command(file: Path, instance: Path) -> None:
    """Put the copy in FILE back in the place of the database, and bring it up to date.

    Stop the server first: what is answered meanwhile is lost. The database there was is kept beside it.
    """
    database = sqlite_file(instance)
    replaced = database.with_name(f"{database.name}.replaced-{datetime.now(UTC):%Y%m%dT%H%M%SZ}")
    try:
        database.parent.mkdir(parents=True, exist_ok=True)
        restore(file, database, replaced)
        upgrade(database)
    except (UnusableDatabase, NewerDatabase) as error:
        raise Refused(str(error)) from error
    except OSError as error:
        raise Refused(f"{error.filename} cannot be written: {error.strerror}.") from error
    kept = f" What was there is kept as {replaced}." if replaced.exists() else ""
    click.echo(f"Put {file} back as {database}.{kept}")
