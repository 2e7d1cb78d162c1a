"""Marking past answers again after a key was corrected."""

from datetime import UTC, datetime
from pathlib import Path

import click

from app.cli.database import instance_option, open_database
from app.cli.packs import open_library
from app.cli.past_answers import past_of, past_options, schools_asking
from app.services.regrading import Regrade, apply, plan

WHO = (None, "regrade")


@click.command()
@past_options
@instance_option
def command(
    family: str,
    code: str | None,
    version: int | None,
    since: datetime | None,
    until: datetime | None,
    dry_run: bool,  # noqa: FBT001 - click's way
    instance: Path,
) -> None:
    """Mark the answers to FAMILY again with today's key. Earlier marks are kept, and the learners are told."""
    uow, past = open_database(instance), past_of(family, version, since, until)
    for school in schools_asking(uow, open_library(), family, code):
        of = (uow, school.library, school.id, past)
        found = plan(*of) if dry_run else apply(*of, WHO, datetime.now(UTC))
        click.echo(f"{school.code}: {write(found)}")
    if dry_run:
        click.echo("Nothing was changed.")


def write(found: Regrade) -> str:
    """Write what a plan changes in one line."""
    return (
        f"{found.answers} answers, {found.to_right} wrong -> right, {found.to_wrong} right -> wrong, "
        f"{found.otherwise} otherwise, {found.lost} cannot be marked again; {found.people} people touched"
    )
