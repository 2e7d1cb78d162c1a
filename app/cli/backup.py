"""Copy the database to a file, also while it is served."""

from pathlib import Path

import click

from app.cli import Refused
from app.cli.database import instance_option, sqlite_file
from app.storage.backup import back_up
from app.storage.migrate import UnusableDatabase


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@instance_option
def command(file: Path, instance: Path) -> None:
    """Write a whole, checked copy of the database to FILE, also while it is served.

    FILE holds everything about everybody: keep it where only you can read it. Questions come from the packs.
    """
    database = sqlite_file(instance)
    try:
        back_up(database, file)
    except UnusableDatabase as error:
        raise Refused(str(error)) from error
    except FileExistsError as error:
        raise Refused(f"{file} is there already; nothing was written. Name another file.") from error
    except OSError as error:
        raise Refused(f"{file} cannot be written: {error.strerror}.") from error
    click.echo(f"Wrote {file}, {file.stat().st_size} bytes.")
