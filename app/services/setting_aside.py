"""Setting answers to a withdrawn question aside, and letting them count again: their marks stay as they are.

One visit after another, each in one transaction, as marking again does it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from hashlib import sha256
from uuid import UUID

from sqlalchemy import Connection

from app.packs.library import Library
from app.services.audit import note_for
from app.services.learning import rebuild
from app.services.quality_count import count_family_again
from app.services.regrading import FINGERPRINT, Who
from app.storage.ids import new_id
from app.storage.models import RegradedAttempt
from app.storage.queries import past_answers, regrading, tallies, withdrawals
from app.storage.queries.past_answers import Past
from app.storage.queries.regrading import MarkRow
from app.storage.unit_of_work import UnitOfWork


class Deed(StrEnum):
    """What can be done to past answers."""

    MARK = "marked"
    SET_ASIDE = "set-aside"
    COUNT = "counted"


ACTIONS = {Deed.SET_ASIDE: "answers-set-aside", Deed.COUNT: "answers-counted-again"}


@dataclass(slots=True)
class Aside:
    """Answers to be set aside or to count again: how many, how many of them right, whose, and a fingerprint of them."""

    answers: int = 0
    right: int = 0
    people: int = 0
    fingerprint: str = ""

    @property
    def changed(self) -> int:
        """Answers that change: all of them."""
        return self.answers

    def add(self, rows: Sequence[MarkRow]) -> None:
        """Count the answers of one visit."""
        self.answers += len(rows)
        self.right += sum(row.correct for row in rows)
        self.people += bool(rows)
        ids = " ".join(str(row.id) for row in rows)
        self.fingerprint = sha256(f"{self.fingerprint} {ids}".encode()).hexdigest()[:FINGERPRINT]


def answers_to(uow: UnitOfWork, school_id: UUID, past: Past, deed: Deed) -> Past | None:
    """Return which answers can be set aside or count again; None to set aside what the school never withdrew."""
    if deed is Deed.COUNT:
        return past._replace(aside=True)
    with uow.reader() as connection:
        rows = withdrawals.list_withdrawals(connection, school_id)
    versions = [row.version for row in rows if row.family == past.family]
    return past._replace(aside=False, newest=versions[0]) if versions else None


def look_aside(uow: UnitOfWork, school_id: UUID, past: Past) -> Aside:
    """Return what setting these answers aside, or letting them count again, would change; changes nothing."""
    found = Aside()
    for _, rows in list_moved(uow, school_id, past):
        found.add(rows)
    return found


def move(uow: UnitOfWork, library: Library, school_id: UUID, what: tuple[Past, Deed], who: Who, now: datetime) -> Aside:
    """Set answers aside or let them count again, (which, what); figures, scores and learner states are made anew."""
    (past, deed), found = what, Aside()
    for visit_id, _ in list_moved(uow, school_id, past):
        with uow.writer() as connection:
            rows = regrading.list_marks(connection, school_id, visit_id, past)
            _put(connection, [_row(school_id, row, deed, who[1], now) for row in rows], deed, now)
            tallies.count_again(connection, school_id, visit_id, now)
            rebuild(connection, school_id, visit_id)
        found.add(rows)
    if found.answers:
        count_family_again(uow, library, school_id, past.family, now)
        with uow.writer() as connection:
            action = (ACTIONS[deed], past.family)
            note_for(connection, school_id, who, action, now, answers=found.answers, people=found.people)
    return found


def list_moved(uow: UnitOfWork, school_id: UUID, past: Past) -> Iterator[tuple[UUID, Sequence[MarkRow]]]:
    """Yield the answers, visit by visit."""
    with uow.reader() as connection:
        visits = tuple(past_answers.count_by_visit(connection, school_id, past))
    for visit_id in visits:
        with uow.reader() as connection:
            rows = regrading.list_marks(connection, school_id, visit_id, past)
        yield visit_id, rows


def _put(connection: Connection, rows: Sequence[RegradedAttempt], deed: Deed, now: datetime) -> None:
    regrading.keep_set_aside(connection, rows, now if deed is Deed.SET_ASIDE else None)


def _row(school_id: UUID, row: MarkRow, deed: Deed, who: str, now: datetime) -> RegradedAttempt:
    return RegradedAttempt(
        school_id=school_id,
        id=new_id(now),
        attempt_id=row.id,
        visit_id=row.visit_id,
        family=row.family,
        old_correct=row.correct,
        old_share=row.share,
        old_misconceptions=row.misconceptions,
        new_correct=row.correct,
        new_share=row.share,
        new_misconceptions=row.misconceptions,
        regraded_by=who,
        regraded_at=now,
        deed=deed.value,
    )
