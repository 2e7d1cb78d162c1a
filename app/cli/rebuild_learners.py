"""Make the learner model's state anew from the attempts."""

from pathlib import Path

import click

from app.cli.database import instance_option, open_database
from app.services.learning import rebuild_all


@click.command()
@instance_option
def command(instance: Path) -> None:
    """Make what is known of every learner anew from their answers; the result is the same as what each answer kept."""
    click.echo(f"Made the state of {rebuild_all(open_database(instance))} visits anew.")
