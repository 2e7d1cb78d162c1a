"""Which past answers a command is about: a family, one school or all, one version, some days."""

from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from typing import Any
from uuid import UUID

import click

from app.cli import Refused, suggest
from app.packs.library import Library
from app.services.schools import list_schools
from app.storage.queries.past_answers import Past
from app.storage.unit_of_work import UnitOfWork

DAY = click.DateTime(["%Y-%m-%d"])
OPTIONS = (
    click.argument("family"),
    click.option("--school", "code", default=None, metavar="CODE", help="One school; without it all schools."),
    click.option("--version", type=click.IntRange(1), default=None, help="Answers to this version of it only."),
    click.option("--since", type=DAY, default=None, help="Answers from this day on (UTC)."),
    click.option("--until", type=DAY, default=None, help="Answers up to this day (UTC)."),
    click.option("--dry-run", is_flag=True, help="Say what would change and change nothing."),
)


def past_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Give a command the options that say which answers it is about."""
    for option in reversed(OPTIONS):
        command = option(command)
    return command


def past_of(library: Library, family: str, version: int | None, since: datetime | None, until: datetime | None) -> Past:
    """Return the answers that the options name; refuses a family there is not."""
    if family not in library.families:
        raise Refused(f"There is no family {family!r}.{suggest(family, list(library.families))}")
    end = until + timedelta(days=1) if until else None
    return Past(family, version, since and since.replace(tzinfo=UTC), end and end.replace(tzinfo=UTC))


def schools_of(uow: UnitOfWork, code: str | None) -> Iterator[tuple[str, UUID]]:
    """Yield (code, id) of the one school, or of all; refuses a code there is not."""
    schools = [school for school in list_schools(uow) if code in {None, school.code}]
    if code and not schools:
        raise Refused(f"There is no school {code!r}. `school list` shows those there are.")
    yield from ((school.code, school.id) for school in schools)
