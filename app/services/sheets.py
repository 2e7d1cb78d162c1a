"""Printed sheets: up to four versions of a set, with other numbers or in another order, and their keys."""

from collections.abc import Sequence
from random import Random
from typing import NamedTuple
from uuid import UUID

from app.packs.library import Library
from app.packs.spec import Language
from app.questions.model import Item
from app.services.actor import Actor
from app.services.errors import Invalid
from app.services.keyed_items import KeyedItem, keyed_item
from app.services.messages import say
from app.services.topic_sets import SetView, get_set
from app.services.variants import vary
from app.storage.unit_of_work import UnitOfWork

LETTERS = "ABCD"
DIFFER = ("numbers", "order")
CODE_LENGTH = 6


class SheetVersion(NamedTuple):
    """One version: its letter and its items in the order printed."""

    letter: str
    items: tuple[KeyedItem, ...]


class Sheet(NamedTuple):
    """A set to be printed; `code` says which set a paper is of, and which state of it."""

    set_id: UUID
    title: str
    note: str
    code: str
    place: str
    language: Language
    versions: tuple[SheetVersion, ...]


class SheetWish(NamedTuple):
    """How many versions, in what they differ, in which language; the set's own language goes before."""

    versions: int
    differ: str
    language: Language


def get_sheet(uow: UnitOfWork, actor: Actor, library: Library, set_id: UUID, wish: SheetWish) -> Sheet:
    """Return the versions of a set, the same every time; version A is the set as it stands.

    NotFound for another school's set, Invalid for a number of versions or a difference that is not offered.
    """
    if not 1 <= wish.versions <= len(LETTERS):
        raise Invalid(say("set-limit", actor.language, value=wish.versions, least=1, most=len(LETTERS)), "versions")
    if wish.differ not in DIFFER:
        raise Invalid(say("set-choice", actor.language, value=wish.differ, accepted=", ".join(DIFFER)), "differ")
    view = get_set(uow, actor, library, set_id)
    spoken: Language = wish.language if view.row.language is None else "fr" if view.row.language == "fr" else "en"
    first = tuple(item for _, item in view.places if item is not None)
    versions: list[tuple[Item, ...]] = [first]
    for letter in LETTERS[1 : wish.versions]:
        versions.append(_version(library, view, versions, letter, wish.differ))
    return Sheet(
        set_id=set_id,
        title=view.row.title,
        note=view.row.note,
        code=code_of(view),
        place=first[0].conventions.place if first else "",
        language=spoken,
        versions=tuple(
            SheetVersion(letter, tuple(keyed_item(library, item, place, spoken) for place, item in enumerate(items, 1)))
            for letter, items in zip(LETTERS, versions, strict=False)
        ),
    )


def code_of(view: SetView) -> str:
    """Return a short code of a set and its items: another one after a question was swapped."""
    rng = Random(f"{view.row.id} {[row.seed for row, _ in view.places]}")
    return "".join(rng.choice("ACDEFGHJKLMNPQRTUVWXY34679") for _ in range(CODE_LENGTH))


def _version(
    library: Library, view: SetView, versions: Sequence[tuple[Item, ...]], letter: str, differ: str
) -> tuple[Item, ...]:
    first = versions[0]
    if differ == "numbers":
        return tuple(
            vary(library, item, view.wish, letter, [version[place] for version in versions])
            for place, item in enumerate(first)
        )
    turn = LETTERS.index(letter) * max(1, len(first) // len(LETTERS)) % max(1, len(first))
    return first[turn:] + first[:turn]
