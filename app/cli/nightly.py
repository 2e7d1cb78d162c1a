"""What is to be done once a night: count how good the questions are, and measure how difficult."""

from datetime import UTC, datetime
from pathlib import Path

import click

from app.cli.database import instance_option, open_database
from app.cli.packs import open_library
from app.services.difficulty_count import measure_all
from app.services.quality_count import count_all


@click.command()
@instance_option
def command(instance: Path) -> None:
    """Count how good the questions are, school by school, and measure how difficult they are.

    The count reads only answers since the last one; the measuring goes through what the latest learners answered, until
    there is enough of each kind, so that each answer is weighed with what was known of its learner before. What it
    finds is in force for the answers to come.
    """
    uow, library, now = open_database(instance), open_library(), datetime.now(UTC)
    click.echo(f"Counted {count_all(uow, library, now)} new answers.")
    click.echo(f"Measured {measure_all(uow, library, now)} difficulties.")
