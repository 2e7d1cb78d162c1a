"""Reports of a problem with a question."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any, NamedTuple
from uuid import UUID

from app.packs.library import Library
from app.questions.present import plain
from app.services.actor import Actor
from app.services.errors import Conflict, Invalid
from app.services.items import ItemView, find_item, view_item
from app.services.messages import say
from app.services.practice import own_item
from app.storage.ids import new_id
from app.storage.models import Report
from app.storage.queries import reports
from app.storage.queries.attempts import ItemRow
from app.storage.unit_of_work import UnitOfWork

LONGEST_TEXT = 2000
MOST_REPORTS = 5


class Reported(NamedTuple):
    """The item a report is about, with the numbers it shows; `item` is None when the packs no longer draw it."""

    item_id: UUID
    drill_id: UUID
    position: int
    answered: bool
    item: ItemView | None
    numbers: Mapping[str, Any]


def get_reported(uow: UnitOfWork, actor: Actor, library: Library, item_id: UUID) -> Reported:
    """Return the item of a report to be written; NotFound for a stranger's item."""
    row = own_item(uow, actor, item_id)
    item = find_item(library, row, row.conventions)
    return Reported(
        item_id=item_id,
        drill_id=row.drill_id,
        position=row.position,
        answered=row.correct is not None,
        item=view_item(library, item, actor.language) if item else None,
        numbers=plain(item.parameters) if item else {},
    )


def report_problem(uow: UnitOfWork, actor: Actor, library: Library, item_id: UUID, text: str, now: datetime) -> None:
    """Keep what somebody found wrong with an item of theirs, with its exact numbers.

    NotFound for a stranger's item, Invalid for an empty or long text, Conflict after several reports of one item.
    """
    row = own_item(uow, actor, item_id)
    report = Report(
        school_id=actor.school_id,
        id=new_id(now),
        drill_item_id=item_id,
        visit_id=actor.own_visit,
        family=row.family,
        item=_numbers(library, row),
        text=_checked(text, actor),
        language=actor.language,
        created_at=now,
    )
    with uow.writer() as connection:
        count = reports.count_reports(connection, actor.school_id, item_id)
        if count >= MOST_REPORTS:
            raise Conflict(say("enough-reports", actor.language, value=count))
        reports.add_report(connection, report)


def _checked(text: str, actor: Actor) -> str:
    wanted = text.strip()
    if not wanted:
        raise Invalid(say("empty-report", actor.language), "text")
    if len(wanted) > LONGEST_TEXT:
        raise Invalid(say("long-report", actor.language, value=len(wanted), most=LONGEST_TEXT), "text")
    return wanted


def _numbers(library: Library, row: ItemRow) -> dict[str, Any]:
    """Return what the item is drawn from and, as long as the packs still draw it, all its numbers."""
    drawn = {"family": row.family, "seed": row.seed, "form": row.form, "conventions": row.conventions}
    item = find_item(library, row, row.conventions)
    if item is None:
        return drawn
    return drawn | {
        "version": item.version,
        "pack": item.pack,
        "pack_version": item.pack_version,
        "ask": item.ask,
        "parameters": plain(item.parameters),
        "key": plain(item.key),
        "options": [plain(option.value) for option in item.options],
    }
