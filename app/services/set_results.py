"""The results of an assignment as a table: a row a student, times in UTC and by the clocks of the due time."""

from collections.abc import Iterator
from datetime import datetime
from uuid import UUID
from zoneinfo import ZoneInfo

from app.exchange.tables import Cell, csv_text
from app.packs.library import Library
from app.packs.spec import Language
from app.services import audit
from app.services.actor import Actor
from app.services.following import Following, StudentLine, follow
from app.services.messages import say
from app.storage.unit_of_work import UnitOfWork

COLUMNS = (
    "name", "login", "stage", "late", "joined-late", "attempts", "answered", "questions", "percent", "pass-then",
    "pass-now", "due-utc", "due-local", "done-utc", "done-local", "seen-utc", "seen-local",
)  # fmt: skip


def results_csv(uow: UnitOfWork, actor: Actor, library: Library, assignment_id: UUID, now: datetime) -> str:
    """Return the table as CSV and note in the audit log that it went out; refuses as `follow` does."""
    view = follow(uow, actor, library, assignment_id, now)
    with uow.writer() as connection:
        audit.note(connection, actor, "results-exported", view.topic_set.title, now, students=len(view.students))
    zone = view.assignment.time_zone
    header = [say(f"column-{name}", actor.language, zone=zone).removesuffix(".") for name in COLUMNS]
    return csv_text(header, _rows(view, ZoneInfo(zone), actor.language))


def _rows(view: Following, zone: ZoneInfo, language: Language) -> Iterator[list[Cell]]:
    for line in view.students:
        stands = line.standing
        percent = None if stands.percent is None else round(stands.percent, 1)
        yield [
            line.member.name,
            line.member.login,
            _word(stands.stage, language),
            _word("yes" if stands.late else "no", language),
            _word("yes" if stands.joined_late else "no", language),
            line.attempts,
            line.answered,
            line.length,
            percent,
            line.marks.then,
            line.marks.now,
            *_times(line, zone),
        ]


def _times(line: StudentLine, zone: ZoneInfo) -> Iterator[str]:
    for moment in (line.standing.due_at, line.standing.done_at, line.member.seen_at):
        yield f"{moment:%Y-%m-%d %H:%M}" if moment else ""
        yield f"{moment.astimezone(zone):%Y-%m-%d %H:%M}" if moment else ""


def _word(code: str, language: Language) -> str:
    return say(f"cell-{code}", language).removesuffix(".")
