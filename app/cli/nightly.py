"""What is to be done once a night: count how good the questions are."""

from datetime import UTC, datetime
from pathlib import Path

import click

from app.cli.database import instance_option, open_database
from app.cli.packs import open_library
from app.services.quality_count import count_all


@click.command()
@instance_option
def command(instance: Path) -> None:
    """Count how good the questions are, school by school: only answers since the last count are read."""
    new = count_all(open_database(instance), open_library(), datetime.now(UTC))
    click.echo(f"Counted {new} new answers.")
