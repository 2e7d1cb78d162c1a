"""Schools from the shell: making one, and listing them."""

from datetime import UTC, datetime
from pathlib import Path
from typing import cast

import click

from app.cli import Refused
from app.cli.database import instance_option, open_database
from app.packs.spec import LANGUAGES, Language
from app.services.errors import Invalid
from app.services.schools import NewSchool, create_school, list_schools


@click.group()
def command() -> None:
    """Make a school, or list the schools of this installation."""


@command.command("add")
@click.argument("code")
@click.argument("name")
@click.option("--administrator", required=True, metavar="NAME", help="Name of the first person who looks after it.")
@click.option("--language", type=click.Choice(LANGUAGES), default="en", show_default=True, help="Its first language.")
@click.option(
    "--time-zone", default="UTC", show_default=True, help="Such as America/Toronto: due times are read in it."
)
@instance_option
def add(code: str, name: str, administrator: str, language: str, time_zone: str, instance: Path) -> None:
    """Make a school and print its administrator's one-time code.

    CODE is what people type to say where they sign in: small letters, digits and hyphens, such as north-bay.
    """
    wanted = NewSchool(code, name, cast("Language", language), time_zone, administrator)
    try:
        slip = create_school(open_database(instance), wanted, "en", datetime.now(UTC))
    except Invalid as refusal:
        raise Refused(refusal.message) from refusal
    click.echo(f"Made {name}. {slip.name} signs in at /first-sign-in?school={slip.school_code} until", nl=False)
    click.echo(f" {slip.expires_at:%Y-%m-%d %H:%M} UTC with")
    click.echo(f"  school code   {slip.school_code}\n  login name    {slip.login}\n  one-time code {slip.code}")


@command.command("list")
@instance_option
def show(instance: Path) -> None:
    """List the schools: code, language, time zone, name."""
    for school in list_schools(open_database(instance)):
        click.echo(f"{school.code}\t{school.language}\t{school.time_zone}\t{school.name}")
