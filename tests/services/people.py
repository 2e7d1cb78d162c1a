"""People and answers for tests of use cases: Alice and Bob practise as visitors, Charlie in school Two."""

from dataclasses import replace
from datetime import UTC, datetime
from uuid import UUID

from app.packs.spec import Language
from app.questions.draw import draw
from app.questions.model import Item
from app.services.actor import Actor
from app.services.practice import Sent
from app.services.visits import guest, open_visit
from app.storage.base import table_of
from app.storage.models import School
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library

NOW = datetime(2026, 9, 1, 14, 30, tzinfo=UTC)
SCHOOL_TWO = UUID("00000000-0000-4000-8000-000000000002")
CONVERSIONS = ("true-to-compass", "compass-to-true")


def visitor(uow: UnitOfWork, language: Language = "en") -> Actor:
    return open_visit(uow, guest(language, NOW), NOW).actor


def charlie(uow: UnitOfWork) -> Actor:
    with uow.writer() as connection:
        connection.execute(table_of(School).insert(), {"id": SCHOOL_TWO, "name": "Two", "created_at": NOW})
    return open_visit(uow, replace(guest("en", NOW), school_id=SCHOOL_TWO), NOW).actor


def right(item: Item) -> Sent:
    """The right answer to a conversion."""
    if item.form == "choice":
        return Sent({"choice": [str(next(i for i, option in enumerate(item.options) if option.correct))]})
    return Sent({"value": [f"{item.key:03.0f}"]})


def wrong(item: Item) -> Sent:
    """An answer to a conversion that a misconception explains."""
    if item.form == "choice":
        return Sent({"choice": [str(next(i for i, option in enumerate(item.options) if option.misconceptions))]})
    return Sent({"value": [f"{item.wrong_values()[0][1].value:03.0f}"]})


def drawn(family: str, seed: int, form: str, actor: Actor) -> Item:
    """The item as the engine draws it, key included."""
    return draw(library(), family, seed, actor.conventions, form)  # type: ignore[arg-type] # one of the forms
