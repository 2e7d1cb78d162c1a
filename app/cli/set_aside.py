"""Setting past answers to a withdrawn question aside."""

from datetime import UTC, datetime
from pathlib import Path

import click

from app.cli import Refused
from app.cli.database import instance_option, open_database
from app.cli.packs import open_library
from app.cli.past_answers import past_of, past_options, schools_asking
from app.services.setting_aside import Aside, Deed, answers_to, look_aside, move

WHO = (None, "set-aside")


@click.command()
@past_options
@click.option("--take-back", is_flag=True, help="Let answers that were set aside count again.")
@instance_option
def command(
    family: str,
    code: str | None,
    version: int | None,
    since: datetime | None,
    until: datetime | None,
    dry_run: bool,  # noqa: FBT001 - click's way
    take_back: bool,  # noqa: FBT001
    instance: Path,
) -> None:
    """Set the answers to FAMILY aside where a school has withdrawn it: they are kept and count no more."""
    uow, wished = open_database(instance), past_of(family, version, since, until)
    deed = Deed.COUNT if take_back else Deed.SET_ASIDE
    for school in schools_asking(uow, open_library(), family, code):
        past = answers_to(uow, school.id, wished, deed)
        if past is None and code:
            raise Refused(f"School {code} has not withdrawn {family}. Its answers count until it does.")
        if past is not None:
            if dry_run:
                found = look_aside(uow, school.id, past)
            else:
                found = move(uow, school.library, school.id, (past, deed), WHO, datetime.now(UTC))
            click.echo(f"{school.code}: {write(found, deed)}")
    if dry_run:
        click.echo("Nothing was changed.")


def write(found: Aside, deed: Deed) -> str:
    """Write what a deed changes in one line."""
    what = "set aside" if deed is Deed.SET_ASIDE else "count again"
    return f"{found.answers} answers {what}, {found.right} of them right; {found.people} people touched"
