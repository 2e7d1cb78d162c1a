"""Classes side by side as a table: a row for each class in each topic or family."""

from collections.abc import Iterator
from datetime import datetime

from app.exchange.tables import Cell, csv_text
from app.insight.weak_spots import FEW_STUDENTS
from app.packs.library import Library
from app.packs.spec import Language
from app.services import audit
from app.services.actor import Actor
from app.services.cohorts import Comparison, Figure, Wish, compare
from app.services.messages import say
from app.storage.unit_of_work import UnitOfWork

COLUMNS = ("class", "title", "students", "answers", "estimate", "low", "high", "spread", "care")
REASONS = {"families": "families", "answers": "amount"}


def cohorts_csv(uow: UnitOfWork, actor: Actor, library: Library, wish: Wish, now: datetime) -> str:
    """Return the table as CSV and note in the audit log that it went out; refuses as `compare` does."""
    view = compare(uow, actor, library, wish, now)
    names = ", ".join(cohort.row.name for cohort in view.cohorts)
    with uow.writer() as connection:
        audit.note(connection, actor, "cohorts-exported", names, now, classes=len(view.cohorts))
    return csv_text([_word(column, actor.language) for column in COLUMNS], _rows(view, actor.language))


def _rows(view: Comparison, language: Language) -> Iterator[list[Cell]]:
    for line in view.lines:
        care = "; ".join(_word(REASONS[reason], language) for reason in line.unlike)
        for cohort, figure in zip(view.cohorts, line.figures, strict=True):
            cells = _cells(figure) if figure else [None] * 6
            told = care if figure else _word("hidden", language)
            yield [cohort.row.name, line.title, *cells, told]


def _cells(figure: Figure) -> list[Cell]:
    spot = figure.spot
    shares = (spot.estimate, spot.low, spot.high, figure.spread)
    return [spot.students, spot.answers, *(None if share is None else round(100 * share, 1) for share in shares)]


def _word(code: str, language: Language) -> str:
    return say(f"cohorts-{code}", language, least=FEW_STUDENTS).removesuffix(".")
