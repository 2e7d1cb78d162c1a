"""One's own answers as a table for a spreadsheet."""

from collections.abc import Iterator, Sequence
from datetime import datetime
from typing import Any

from app.exchange.tables import Cell, csv_text
from app.packs.library import Library
from app.services.actor import Actor
from app.services.messages import say
from app.services.reveal import held_items
from app.services.today import misconception_words
from app.storage.queries import attempts
from app.storage.queries.attempts import AttemptRow
from app.storage.unit_of_work import UnitOfWork

COLUMNS = ("answered", "kind", "question", "answer", "right", "misconceptions", "seconds", "set-aside")


def own_csv(uow: UnitOfWork, actor: Actor, library: Library, now: datetime) -> str:
    """Return the actor's answers as CSV, the earliest first, without those held back; NotFound for a guest."""
    with uow.reader() as connection:
        held = held_items(connection, actor, now)
        kept = attempts.list_attempts(connection, actor.school_id, actor.own_visit)
    header = [say(f"own-{name}", actor.language).removesuffix(".") for name in COLUMNS]
    return csv_text(header, _rows(library, actor, [each for each in kept if each.drill_item_id not in held]))


def _rows(library: Library, actor: Actor, kept: Sequence[AttemptRow]) -> Iterator[list[Cell]]:
    for each in kept:
        family = library.families.get(each.family)
        yield [
            f"{each.answered_at:%Y-%m-%d %H:%M:%S}",
            family.title.of(actor.language) if family else each.family,
            str(each.shown["question"]),
            each.answer["text"] or _plain(each.answer["value"]),
            int(each.correct),
            ", ".join(misconception_words(library, each.family, name, actor) or name for name in each.misconceptions),
            None if each.took_ms is None else round(each.took_ms / 1000),
            int(each.set_aside_at is not None),
        ]


def _plain(value: Any) -> str:
    """Return an answer's value as text: several values one after another, each with its place where it has one."""
    if isinstance(value, dict):
        return "; ".join(f"{name}: {each}" for name, each in value.items())
    return "; ".join(str(each) for each in value) if isinstance(value, list) else str(value)
