"""Marking past answers again after a key was corrected: first what would change, then the change.

An answer is marked again only where today's packs draw the very numbers it was given to. Each visit is one transaction
with its own marks, tallies and learner state: answers go on meanwhile, and a run that was cut short is run again.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime
from uuid import UUID

from app.grader.grade import Grade, grade
from app.grader.reply import Reply
from app.packs.library import Library
from app.questions.present import plain
from app.services.actor import Actor
from app.services.audit import note_for
from app.services.items import find_item
from app.services.learning import rebuild
from app.storage.ids import new_id
from app.storage.queries import regrading, tallies
from app.storage.queries.regrading import NOTHING_YET, GradedRow, RegradedRow
from app.storage.unit_of_work import UnitOfWork


@dataclass(slots=True)
class Regrade:
    """What marking a family again changes; `lost` answers cannot be marked, as other numbers are drawn today."""

    answers: int = 0
    lost: int = 0
    to_right: int = 0
    to_wrong: int = 0
    otherwise: int = 0
    changes: dict[UUID, list[tuple[GradedRow, Grade]]] = field(default_factory=lambda: defaultdict(list))

    @property
    def changed(self) -> int:
        """Answers that get another mark."""
        return self.to_right + self.to_wrong + self.otherwise

    def add(self, row: GradedRow, marks: Grade | None) -> None:
        """Count one answer with the mark it gets today."""
        self.answers += 1
        if marks is None:
            self.lost += 1
            return
        if (marks.correct, marks.share, list(marks.misconceptions)) == (row.correct, row.share, row.misconceptions):
            return
        self.changes[row.visit_id].append((row, marks))
        self.to_right += marks.correct and not row.correct
        self.to_wrong += row.correct and not marks.correct
        self.otherwise += row.correct == marks.correct


def plan(uow: UnitOfWork, library: Library, school_id: UUID, family: str) -> Regrade:
    """Return what marking a school's answers to a family again would change; changes nothing."""
    found, after = Regrade(), NOTHING_YET
    while True:
        with uow.reader() as connection:
            batch = regrading.list_graded(connection, school_id, family, after)
        for row in batch:
            found.add(row, mark_today(library, row))
        if len(batch) < regrading.BATCH:
            return found
        after = batch[-1].id


def apply(uow: UnitOfWork, school_id: UUID, family: str, found: Regrade, who: str, now: datetime) -> None:
    """Give the answers of a plan their new marks; the earlier ones are kept, tallies and learner states made anew."""
    for visit_id, changes in found.changes.items():
        rows = [_row(school_id, row, marks, who, now) for row, marks in changes]
        with uow.writer() as connection:
            regrading.keep_regraded(connection, rows)
            tallies.count_again(connection, school_id, visit_id, now)
            rebuild(connection, school_id, visit_id)
    counts = {"answers": found.answers, "right now": found.to_right, "wrong now": found.to_wrong, "lost": found.lost}
    with uow.writer() as connection:
        what = ("answers-regraded", family)
        note_for(connection, school_id, (None, who), what, now, **counts, people=len(found.changes))


def mark_today(library: Library, row: GradedRow) -> Grade | None:
    """Return the mark today's packs give an answer; None where they draw other numbers or no longer offer the reply."""
    item = find_item(library, row, row.conventions)
    if item is None or item.ask != row.ask or plain(item.parameters) != row.parameters:
        return None
    reply = Reply.from_json(row.answer)
    if item.form in {"choice", "pick"} and all(option.value != reply.value for option in item.options):
        return None
    return grade(library, item, reply)


def list_untold(uow: UnitOfWork, actor: Actor) -> Sequence[RegradedRow]:
    """Return the actor's answers that were marked again and that they have not read of."""
    if actor.visit_id is None:
        return ()
    with uow.reader() as connection:
        return regrading.list_untold(connection, actor.school_id, actor.visit_id)


def tell(uow: UnitOfWork, actor: Actor, now: datetime) -> None:
    """Note that the actor has read what was marked again."""
    with uow.writer() as connection:
        regrading.tell(connection, actor.school_id, actor.own_visit, now)


def _row(school_id: UUID, row: GradedRow, marks: Grade, who: str, now: datetime) -> RegradedRow:
    return RegradedRow(
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
