"""Reports of problems with questions."""

from dataclasses import asdict
from datetime import datetime
from typing import Any, NamedTuple
from uuid import UUID

from sqlalchemy import Connection, bindparam, func, insert, select, update

from app.storage.base import table_of
from app.storage.models import Attempt, Report

REPORT, ATTEMPT = table_of(Report), table_of(Attempt)


class AnswerRow(NamedTuple):
    """What was answered to a reported item."""

    shown: dict[str, Any]
    answer: dict[str, Any]
    correct: bool
    set_aside_at: datetime | None


ADD = insert(REPORT)
COUNT = (
    select(func.count())
    .select_from(REPORT)
    .where(REPORT.c.school_id == bindparam("school_id"), REPORT.c.drill_item_id == bindparam("item_id"))
)
FIND = select(REPORT).where(REPORT.c.school_id == bindparam("school_id"), REPORT.c.id == bindparam("report_id"))
OF_VISIT = (
    select(REPORT)
    .where(REPORT.c.school_id == bindparam("school_id"), REPORT.c.visit_id == bindparam("visit_id"))
    .order_by(REPORT.c.id.desc())
)
SETTLE = update(REPORT).where(
    REPORT.c.school_id == bindparam("in_school"), REPORT.c.id == bindparam("report_id"), REPORT.c.settled_at.is_(None)
)
_OF_ITEM = (ATTEMPT.c.school_id == REPORT.c.school_id) & (ATTEMPT.c.drill_item_id == REPORT.c.drill_item_id)
ANSWERS = (
    select(REPORT.c.id, *(ATTEMPT.c[name] for name in AnswerRow._fields))
    .select_from(REPORT.join(ATTEMPT, _OF_ITEM))
    .where(REPORT.c.school_id == bindparam("school_id"))
)
LIST = select(REPORT).where(REPORT.c.school_id == bindparam("school_id")).order_by(REPORT.c.id)


def add_report(connection: Connection, report: Report) -> None:
    """Keep a report."""
    connection.execute(ADD, asdict(report))


def count_reports(connection: Connection, school_id: UUID, item_id: UUID) -> int:
    """Return how many reports an item has."""
    return connection.scalar(COUNT, {"school_id": school_id, "item_id": item_id}) or 0


def list_reports(connection: Connection, school_id: UUID) -> tuple[Report, ...]:
    """Return a school's reports, oldest first."""
    return tuple(Report(**row) for row in connection.execute(LIST, {"school_id": school_id}).mappings())


def list_answers(connection: Connection, school_id: UUID) -> dict[UUID, AnswerRow]:
    """Return what was answered to the reported items of a school, by report; nothing for one without an answer."""
    rows = connection.execute(ANSWERS, {"school_id": school_id})
    return {row[0]: AnswerRow(*row[1:]) for row in rows}


def find_report(connection: Connection, school_id: UUID, report_id: UUID) -> Report | None:
    """Return one report of a school."""
    row = connection.execute(FIND, {"school_id": school_id, "report_id": report_id}).mappings().first()
    return Report(**row) if row else None


def list_of_visit(connection: Connection, school_id: UUID, visit_id: UUID) -> tuple[Report, ...]:
    """Return what a visit reported, newest first."""
    rows = connection.execute(OF_VISIT, {"school_id": school_id, "visit_id": visit_id}).mappings()
    return tuple(Report(**row) for row in rows)


def settle_report(connection: Connection, report: Report, answer: str, who: str, now: datetime) -> bool:
    """Keep what became of a report; False when it is settled already."""
    of = {"in_school": report.school_id, "report_id": report.id}
    changes = SETTLE.values(settled_at=now, settled_by=who, answer=answer)
    return connection.execute(changes, of).rowcount == 1
