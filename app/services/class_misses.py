"""Behind a row of a class's weak spots: its wrong answers, and which mistakes they are, how often, of how many."""

from collections import Counter, defaultdict
from collections.abc import Sequence
from datetime import datetime
from typing import NamedTuple
from uuid import UUID

from app.grader.explain import key_in_words, reply_in_words
from app.grader.reply import Reply
from app.packs.library import Library
from app.packs.spec import Language
from app.services.actor import Actor
from app.services.class_access import taught_class
from app.services.errors import NotFound
from app.services.items import find_item, stamp_of
from app.services.today import misconception_words
from app.storage.models import SchoolClass
from app.storage.queries import class_figures
from app.storage.queries.class_figures import MissedRow
from app.storage.unit_of_work import UnitOfWork

MOST_SHOWN = 50


class Miss(NamedTuple):
    """A wrong answer: who gave it and when, the question as shown, the answer, what was right, what is behind it.

    `right` is empty where today's packs draw another question.
    """

    name: str
    answered_at: datetime
    question: str
    language: Language
    given: str
    right: str
    misconceptions: Sequence[str]


class Mistake(NamedTuple):
    """A misconception behind wrong answers, or none (empty) that is known: how often, and of how many students."""

    misconception: str
    name: str
    times: int
    students: int


class FamilyMisses(NamedTuple):
    """The latest wrong answers of a class to a family, or those of one misconception; `mistakes` counts all of them."""

    row: SchoolClass
    family: str
    family_title: str
    misconception: str
    mistakes: Sequence[Mistake]
    missed: Sequence[Miss]


def family_misses(
    uow: UnitOfWork, actor: Actor, library: Library, class_id: UUID, family: str, misconception: str = ""
) -> FamilyMisses:
    """Return the wrong answers of a class to a family, as they were shown; NotFound for what the packs do not have."""
    named = misconception_words(library, family, misconception, actor) if misconception else ""
    if family not in library.families or named is None:
        raise NotFound(family)
    with uow.reader() as connection:
        row = taught_class(connection, actor, class_id)
        missed = class_figures.list_missed(connection, actor.school_id, class_id, family)
    chosen = [each for each in missed if not misconception or misconception in each.misconceptions]
    title = library.family(family).title.of(actor.language)
    shown = tuple(_miss(library, each, actor) for each in chosen[:MOST_SHOWN])
    return FamilyMisses(row, family, title, named, _mistakes(library, family, chosen, actor), shown)


def _mistakes(library: Library, family: str, missed: Sequence[MissedRow], actor: Actor) -> tuple[Mistake, ...]:
    """Return the mistakes behind wrong answers, the commonest first; an answer may show several."""
    times, students = Counter[str](), defaultdict[str, set[UUID]](set)
    for each in missed:
        for name in each.misconceptions or ("",):
            times[name] += 1
            students[name].add(each.visit_id)
    return tuple(
        Mistake(name, (name and misconception_words(library, family, name, actor)) or "", count, len(students[name]))
        for name, count in times.most_common()
    )


def _miss(library: Library, row: MissedRow, actor: Actor) -> Miss:
    reply, language = Reply.from_json(row.answer), actor.language
    item = find_item(library, row, row.conventions)
    same = item is not None and stamp_of(item) == row.shown["stamp"]
    given = reply_in_words(library, item, reply, language) if item and same else reply.text or str(reply.value)
    right = key_in_words(library, item, reply, language) if item and same else ""
    words = tuple(misconception_words(library, row.family, name, actor) or name for name in row.misconceptions)
    question = f"{row.shown['scene']} {row.shown['question']}"
    return Miss(row.name, row.answered_at, question, row.shown["language"], given, right, words)
