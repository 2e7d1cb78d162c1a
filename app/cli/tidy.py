"""Take away what is kept no longer."""

from datetime import UTC, datetime
from pathlib import Path

import click

from app.cli.database import instance_option, open_database
from app.services.retention import tidy_school, tidy_visits
from app.services.schools import list_schools


@click.command()
@instance_option
def command(instance: Path) -> None:
    """Take away what the schools keep no longer, and visitors' drills a month after their visit ended.

    Make a backup first: what goes is gone. Meant to run once a day. A school's page shows beforehand what would go.
    """
    uow, now = open_database(instance), datetime.now(UTC)
    for school in list_schools(uow):
        gone = tidy_school(uow, school.id, now)
        told = ", ".join(f"{count} {kind}" for kind, count in gone.items())
        click.echo(f"{school.code}: {told}")
    click.echo(f"visitors: {tidy_visits(uow, now)} visits")
