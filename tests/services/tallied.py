"""Answers of a week, written straight to where they are counted."""

from collections.abc import Sequence
from datetime import datetime
from uuid import UUID

from app.storage.queries.tallies import ADD, week_of
from app.storage.unit_of_work import UnitOfWork


def tally(
    uow: UnitOfWork, school_id: UUID, visits: Sequence[UUID], family: str, counts: tuple[int, int], when: datetime
) -> None:
    """Count (answers, right) to a family for each visit in the week of a moment."""
    answers, right = counts
    of = {"school_id": school_id, "family": family, "week": week_of(when), "changed_at": when, "timed": 0, "took_ms": 0}
    with uow.writer() as connection:
        connection.execute(ADD, [of | {"visit_id": each, "answers": answers, "correct": right} for each in visits])
