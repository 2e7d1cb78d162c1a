"""Reports of problems as a table for whoever mends the questions: what was asked, exactly, and what was answered."""

import json
from collections.abc import Iterable, Iterator, Mapping
from datetime import datetime
from typing import Any
from uuid import UUID

from app.exchange.tables import Cell, csv_text
from app.packs.library import Library
from app.packs.spec import Language
from app.services import audit
from app.services.actor import Actor
from app.services.messages import say
from app.services.report_desk import ReportLine, list_desk
from app.storage.queries import reports
from app.storage.queries.reports import AnswerRow
from app.storage.unit_of_work import UnitOfWork

DRAWN = ("family", "version", "pack", "pack_version", "seed", "form", "ask")
NUMBERS = ("parameters", "conventions", "key", "options")
ASKED = ("when", "title", "text", *DRAWN, *NUMBERS)
COLUMNS = (*ASKED, "shown", "answered", "right", "state", "settled", "settled-by", "answer")


def reports_csv(uow: UnitOfWork, actor: Actor, library: Library, family: str, now: datetime) -> str:
    """Return the reports as CSV and note in the audit log that they went out; refuses as `list_desk` does.

    Who reported is left out: a question is mended without it.
    """
    lines = list_desk(uow, actor, library, family)
    with uow.writer() as connection:
        answers = reports.list_answers(connection, actor.school_id)
        audit.note(connection, actor, "reports-exported", family, now, reports=len(lines))
    return csv_text([_word(name, actor.language) for name in COLUMNS], _rows(lines, answers, actor.language))


def _rows(lines: Iterable[ReportLine], answers: Mapping[UUID, AnswerRow], language: Language) -> Iterator[list[Cell]]:
    for line in lines:
        row, given = line.row, answers.get(line.row.id)
        yield [
            f"{row.created_at:%Y-%m-%d %H:%M}",
            line.title,
            row.text,
            *(row.item.get(name) for name in DRAWN),
            *(_numbers(row.item[name]) if name in row.item else None for name in NUMBERS),
            *_given(given, language),
            _word("settled-state" if row.settled_at else "open-state", language),
            f"{row.settled_at:%Y-%m-%d %H:%M}" if row.settled_at else None,
            row.settled_by,
            row.answer,
        ]


def _given(row: AnswerRow | None, language: Language) -> list[Cell]:
    if row is None:
        return [None, None, None]
    question = f"{row.shown.get('scene', '')} {row.shown['question']}".strip()
    verdict = _word("aside-state" if row.set_aside_at else "yes-state" if row.correct else "no-state", language)
    return [question, row.answer["text"] or _numbers(row.answer["value"]), verdict]


def _numbers(value: Any) -> Cell:
    """Return a number as it is, anything else exactly, as JSON."""
    return value if isinstance(value, int | float) else json.dumps(value, ensure_ascii=False)


def _word(code: str, language: Language) -> str:
    return say(f"reports-{code}", language).removesuffix(".")
