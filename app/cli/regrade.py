"""Marking past answers again after a key was corrected."""

from datetime import UTC, datetime
from pathlib import Path

import click

from app.cli import Refused, suggest
from app.cli.database import instance_option, open_database
from app.cli.packs import open_library
from app.services.regrading import Regrade, apply, plan
from app.services.schools import list_schools


@click.command()
@click.argument("family")
@click.option("--school", "code", default=None, metavar="CODE", help="One school; without it all schools.")
@click.option("--dry-run", is_flag=True, help="Say what would change and change nothing.")
@instance_option
def command(family: str, code: str | None, dry_run: bool, instance: Path) -> None:  # noqa: FBT001 - click's way
    """Mark the answers to FAMILY again with today's key. Earlier marks are kept, and the learners are told."""
    library, uow = open_library(), open_database(instance)
    if family not in library.families:
        raise Refused(f"There is no family {family!r}.{suggest(family, list(library.families))}")
    schools = [school for school in list_schools(uow) if code in {None, school.code}]
    if code and not schools:
        raise Refused(f"There is no school {code!r}. `school list` shows those there are.")
    for school in schools:
        found = plan(uow, library, school.id, family)
        click.echo(f"{school.code}: {write(found)}")
        if not dry_run and found.changed:
            apply(uow, school.id, family, found, "regrade", datetime.now(UTC))
    if dry_run:
        click.echo("Nothing was changed.")


def write(found: Regrade) -> str:
    """Write what a plan changes in one line."""
    return (
        f"{found.answers} answers, {found.to_right} wrong -> right, {found.to_wrong} right -> wrong, "
        f"{found.otherwise} otherwise, {found.lost} cannot be marked again; {len(found.changes)} people touched"
    )
