"""Which past answers a command is about: a family, one school or all, one version, some days."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from typing import Any, NamedTuple
from uuid import UUID

import click

from app.cli import Refused, suggest
from app.packs.library import Library
from app.services.own_library import school_library
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


def past_of(family: str, version: int | None, since: datetime | None, until: datetime | None) -> Past:
    """Return the answers that the options name."""
    end = until + timedelta(days=1) if until else None
    return Past(family, version, since and since.replace(tzinfo=UTC), end and end.replace(tzinfo=UTC))


class Asking(NamedTuple):
    """A school that asks a family: its code, its id, and its library, own questions included."""

    code: str
    id: UUID
    library: Library


def schools_asking(uow: UnitOfWork, packs: Library, family: str, code: str | None) -> tuple[Asking, ...]:
    """Return the one school, or all, that ask a family of the packs or of their own; refuses one there is not."""
    schools = [school for school in list_schools(uow) if code in {None, school.code}]
    if code and not schools:
        raise Refused(f"There is no school {code!r}. `school list` shows those there are.")
    asking = [Asking(school.code, school.id, school_library(uow, school.id, packs)) for school in schools]
    found = tuple(each for each in asking if family in each.library.families)
    if not found and family not in packs.families:
        raise Refused(f"There is no family {family!r}.{suggest(family, list(packs.families))}")
    return found
