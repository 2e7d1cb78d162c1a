"""Reports of problems with questions."""

from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import Connection, bindparam, func, insert, select

from app.storage.base import table_of
from app.storage.models import Report

REPORT = table_of(Report)


@dataclass(frozen=True, slots=True)
class ReportRow:
    """A report as it is kept."""

    school_id: UUID
    id: UUID
    drill_item_id: UUID
    visit_id: UUID
    family: str
    item: dict[str, Any]
    text: str
    language: str
    created_at: datetime


ADD = insert(REPORT)
COUNT = (
    select(func.count())
    .select_from(REPORT)
    .where(REPORT.c.school_id == bindparam("school_id"), REPORT.c.drill_item_id == bindparam("item_id"))
)
LIST = select(REPORT).where(REPORT.c.school_id == bindparam("school_id")).order_by(REPORT.c.id)


def add_report(connection: Connection, report: ReportRow) -> None:
    """Keep a report."""
    connection.execute(ADD, asdict(report))


def count_reports(connection: Connection, school_id: UUID, item_id: UUID) -> int:
    """Return how many reports an item has."""
    return connection.scalar(COUNT, {"school_id": school_id, "item_id": item_id}) or 0


def list_reports(connection: Connection, school_id: UUID) -> tuple[ReportRow, ...]:
    """Return a school's reports, oldest first."""
    return tuple(ReportRow(**row) for row in connection.execute(LIST, {"school_id": school_id}).mappings())
