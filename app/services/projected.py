"""One question of a set for the whole class to see: with its answer and what explains it once it is told."""

from typing import NamedTuple
from uuid import UUID

from app.grader.explain import Explanation, explain
from app.grader.grade import grade
from app.grader.reply import Reply
from app.packs.library import Library
from app.packs.spec import Language
from app.services.actor import Actor
from app.services.errors import NotFound
from app.services.keyed_items import KeyedItem, keyed_item
from app.services.topic_sets import get_set
from app.storage.unit_of_work import UnitOfWork


class Projected(NamedTuple):
    """A place of a set, of `length`; keyed and explained are None when the packs no longer draw its question."""

    set_id: UUID
    title: str
    position: int
    length: int
    language: Language
    keyed: KeyedItem | None
    explained: Explanation | None


def get_projected(
    uow: UnitOfWork, actor: Actor, library: Library, place: tuple[UUID, int], language: Language
) -> Projected:
    """Return what stands at a place (set, position), in the set's language or this one; NotFound where nothing does."""
    set_id, position = place
    view = get_set(uow, actor, library, set_id)
    if not 1 <= position <= len(view.places):
        raise NotFound(position)
    spoken: Language = language if view.row.language is None else "fr" if view.row.language == "fr" else "en"
    _, item = view.places[position - 1]
    keyed = explained = None
    if item is not None:
        right = Reply(item.key)
        keyed = keyed_item(library, item, position, spoken)
        explained = explain(library, item, right, grade(library, item, right), spoken)
    return Projected(set_id, view.row.title, position, len(view.places), spoken, keyed, explained)
