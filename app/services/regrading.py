"""Marking past answers again after a key was corrected: first what would change, then the change.

An answer is marked again only where today's packs draw the very numbers it was given to. One visit is looked at after
another, and each is one transaction with its own marks, tallies and learner state: answers go on meanwhile, what is
held at a time does not grow with the school, and a run that was cut short is run again.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from typing import NamedTuple
from uuid import UUID

from app.grader.grade import Grade, grade
from app.grader.reply import Reply
from app.packs.library import Library
from app.questions.model import OPTION_FORMS
from app.questions.present import plain
from app.services.audit import note_for
from app.services.items import find_item
from app.services.learning import rebuild
from app.services.quality_count import count_family_again
from app.storage.ids import new_id
from app.storage.models import RegradedAttempt
from app.storage.queries import past_answers, regrading, tallies
from app.storage.queries.past_answers import Past
from app.storage.queries.regrading import GradedRow
from app.storage.unit_of_work import UnitOfWork

Who = tuple[UUID | None, str]
Change = tuple[GradedRow, Grade]
FINGERPRINT = 32


class Marked(NamedTuple):
    """The answers of one visit with the marks they get today; None where they cannot be marked."""

    visit_id: UUID
    answers: Sequence[tuple[GradedRow, Grade | None]]

    @property
    def changes(self) -> Sequence[Change]:
        """The answers that get another mark."""
        return [(row, marks) for row, marks in self.answers if marks is not None and _differs(row, marks)]


@dataclass(slots=True)
class Regrade:
    """What marking a family again changes, and a fingerprint of every change.

    `lost` answers cannot be marked, as other numbers are drawn today.
    """

    answers: int = 0
    lost: int = 0
    to_right: int = 0
    to_wrong: int = 0
    otherwise: int = 0
    people: int = 0
    fingerprint: str = ""

    @property
    def changed(self) -> int:
        """Answers that get another mark."""
        return self.to_right + self.to_wrong + self.otherwise

    def add(self, marked: Marked) -> None:
        """Count the answers of one visit."""
        self.answers += len(marked.answers)
        self.lost += sum(marks is None for _, marks in marked.answers)
        self.people += bool(marked.changes)
        for row, marks in marked.changes:
            self.to_right += marks.correct and not row.correct
            self.to_wrong += row.correct and not marks.correct
            self.otherwise += row.correct == marks.correct
            change = f"{self.fingerprint} {row.id} {marks.correct} {marks.share} {marks.misconceptions}"
            self.fingerprint = sha256(change.encode()).hexdigest()[:FINGERPRINT]


def plan(uow: UnitOfWork, library: Library, school_id: UUID, past: Past) -> Regrade:
    """Return what marking a school's past answers again would change; changes nothing."""
    found = Regrade()
    for marked in mark_again(uow, library, school_id, past):
        found.add(marked)
    return found


def apply(uow: UnitOfWork, library: Library, school_id: UUID, past: Past, who: Who, now: datetime) -> Regrade:
    """Give past answers the marks they get today; the earlier ones are kept, figures and learner states made anew."""
    found = Regrade()
    for marked in mark_again(uow, library, school_id, past):
        found.add(marked)
        rows = [_row(school_id, row, marks, who[1], now) for row, marks in marked.changes]
        if rows:
            _keep(uow, school_id, marked.visit_id, rows, now)
    if found.changed:
        count_family_again(uow, library, school_id, past.family, now)
        counts = {"answers": found.answers, "right now": found.to_right, "wrong now": found.to_wrong}
        with uow.writer() as connection:
            what = ("answers-regraded", past.family)
            note_for(connection, school_id, who, what, now, **counts, lost=found.lost, people=found.people)
    return found


def mark_again(uow: UnitOfWork, library: Library, school_id: UUID, past: Past) -> Iterator[Marked]:
    """Yield, visit by visit, the answers with the marks that today's packs give them."""
    with uow.reader() as connection:
        visits = tuple(past_answers.count_by_visit(connection, school_id, past))
    for visit_id in visits:
        with uow.reader() as connection:
            rows = regrading.list_graded(connection, school_id, visit_id, past)
        yield Marked(visit_id, [(row, mark_today(library, row)) for row in rows])


def _keep(uow: UnitOfWork, school_id: UUID, visit_id: UUID, rows: Sequence[RegradedAttempt], now: datetime) -> None:
    with uow.writer() as connection:
        if regrading.keep_regraded(connection, rows):
            tallies.count_again(connection, school_id, visit_id, now)
            rebuild(connection, school_id, visit_id)


def _differs(row: GradedRow, marks: Grade) -> bool:
    return (marks.correct, marks.share, list(marks.misconceptions)) != (row.correct, row.share, row.misconceptions)


def mark_today(library: Library, row: GradedRow) -> Grade | None:
    """Return the mark today's packs give an answer; None where they draw other numbers or no longer offer the reply."""
    item = find_item(library, row, row.conventions)
    if item is None or item.ask != row.ask or plain(item.parameters) != row.parameters:
        return None
    reply = Reply.from_json(row.answer)
    if item.form in OPTION_FORMS and all(option.value != reply.value for option in item.options):
        return None
    return grade(library, item, reply)


def _row(school_id: UUID, row: GradedRow, marks: Grade, who: str, now: datetime) -> RegradedAttempt:
    return RegradedAttempt(
        school_id=school_id,
        id=new_id(now),
        attempt_id=row.id,
        visit_id=row.visit_id,
        family=row.family,
        old_correct=row.correct,
        old_share=row.share,
        old_misconceptions=row.misconceptions,
        new_correct=marks.correct,
        new_share=marks.share,
        new_misconceptions=list(marks.misconceptions),
        regraded_by=who,
        regraded_at=now,
    )
