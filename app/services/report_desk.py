"""Reports of problems as the school reads and settles them, and what became of them for whoever reported."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any, NamedTuple
from uuid import UUID

from app.packs.library import Library
from app.questions.present import plain
from app.services.actor import Actor, Role
from app.services.audit import note
from app.services.errors import Conflict, Invalid, NotAllowed, NotFound
from app.services.items import find_item
from app.services.keyed_items import KeyedItem, keyed_item
from app.services.messages import say
from app.storage.models import Report
from app.storage.queries import reports
from app.storage.unit_of_work import UnitOfWork

LONGEST_ANSWER = 2000
READING = (Role.INSTRUCTOR, Role.SCHOOL)


class ReportLine(NamedTuple):
    """A report with the title of what it is about."""

    row: Report
    title: str


class ReportView(NamedTuple):
    """One report: the item with its key where today's packs draw it, and whether they draw the numbers it was of."""

    line: ReportLine
    item: KeyedItem | None
    same: bool
    numbers: Mapping[str, Any]


class _Kept(NamedTuple):
    """What a report's item is drawn from."""

    family: str
    seed: int
    form: str


def list_desk(uow: UnitOfWork, actor: Actor, library: Library, family: str = "") -> Sequence[ReportLine]:
    """Return the reports of the actor's school, of one family or all: open ones first, the oldest of them first."""
    if actor.role not in READING:
        raise NotAllowed("reports are for those who teach")
    with uow.reader() as connection:
        rows = reports.list_reports(connection, actor.school_id)
    wanted = [row for row in rows if not family or row.family == family]
    return [_line(library, row, actor) for row in sorted(wanted, key=lambda row: row.settled_at is not None)]


def get_report(uow: UnitOfWork, actor: Actor, library: Library, report_id: UUID) -> ReportView:
    """Return one report with its item as it was; NotFound for another school's."""
    with uow.reader() as connection:
        row = reports.find_report(connection, actor.school_id, report_id) if actor.role in READING else None
    if row is None:
        raise NotFound(report_id)
    kept = _Kept(row.family, row.item["seed"], row.item["form"])
    item = find_item(library, kept, row.item["conventions"])
    return ReportView(
        line=_line(library, row, actor),
        item=keyed_item(library, item, 1, actor.language) if item else None,
        same=item is not None and plain(item.parameters) == row.item.get("parameters"),
        numbers=row.item.get("parameters", {}),
    )


def settle(uow: UnitOfWork, actor: Actor, report_id: UUID, answer: str, now: datetime) -> None:
    """Settle a report with an answer to whoever made it; NotFound for another school's, Conflict when it is settled."""
    if actor.role is not Role.SCHOOL:
        raise NotAllowed(report_id)
    text = answer.strip()
    if not 1 <= len(text) <= LONGEST_ANSWER:
        raise Invalid(say("report-answer", actor.language, value=len(text), most=LONGEST_ANSWER), "answer")
    with uow.writer() as connection:
        row = reports.find_report(connection, actor.school_id, report_id)
        if row is None:
            raise NotFound(report_id)
        if not reports.settle_report(connection, row, text, actor.name, now):
            raise Conflict(say("report-settled", actor.language))
        note(connection, actor, "report-settled", row.family, now, answer=text)


def own_reports(uow: UnitOfWork, actor: Actor, library: Library, item_id: UUID | None = None) -> Sequence[ReportLine]:
    """Return what the actor reported, newest first, of one item or all; nothing for a guest."""
    if actor.visit_id is None:
        return ()
    with uow.reader() as connection:
        rows = reports.list_of_visit(connection, actor.school_id, actor.visit_id)
    return [_line(library, row, actor) for row in rows if item_id in {None, row.drill_item_id}]


def _line(library: Library, row: Report, actor: Actor) -> ReportLine:
    family = library.families.get(row.family)
    return ReportLine(row, family.title.of(actor.language) if family else row.family)
