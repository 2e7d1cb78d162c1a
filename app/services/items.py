"""Drawing an item of a drill again, and showing it with the titles around it."""

import hashlib
import json
from functools import lru_cache
from typing import Any, NamedTuple, Protocol

from app.packs.library import Library
from app.packs.spec import Language
from app.questions.conventions import Conventions
from app.questions.draw import NoDraw, draw, offered_forms
from app.questions.model import Item, NotOffered
from app.questions.present import plain
from app.questions.wording import WordedItem, word_item
from app.services.errors import Conflict
from app.services.messages import say

STAMP_LENGTH = 16

# A question, its answer and its verdict show the same item; it never changes, so a worker keeps the latest.
KEPT = 512
_drawn = lru_cache(maxsize=KEPT)(draw)


class _Itself:
    """An item as a key: it equals itself alone, whatever it holds."""

    __slots__ = ("item",)

    def __init__(self, item: Item) -> None:
        self.item = item

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Itself) and self.item is other.item

    def __hash__(self) -> int:
        return id(self.item)


class Drawn(Protocol):
    """What an item is drawn from, however it is kept."""

    @property
    def family(self) -> str:
        """The family's id."""

    @property
    def seed(self) -> int:
        """The item's seed."""

    @property
    def form(self) -> str:
        """The answer form."""


class ItemView(NamedTuple):
    """An item in words with the titles around it.

    `stamp` goes with the form and comes back in the field of the same name: it says which numbers were shown.
    """

    topic: str
    topic_title: str
    family: str
    family_title: str
    place: str
    worded: WordedItem
    stamp: str


def find_item(library: Library, drawn: Drawn, conventions: dict[str, Any]) -> Item | None:
    """Return the item as today's packs draw it, None when they no longer do."""
    family = library.families.get(drawn.family)
    if family is None or drawn.form not in offered_forms(family):
        return None
    try:
        return _drawn(library, drawn.family, drawn.seed, Conventions.from_json(conventions), drawn.form)
    except (NotOffered, NoDraw):
        return None


def get_item(library: Library, drawn: Drawn, conventions: dict[str, Any], language: Language) -> Item:
    """Return the item as today's packs draw it; Conflict when they no longer do."""
    item = find_item(library, drawn, conventions)
    if item is None:
        raise Conflict(say("withdrawn", language))
    return item


def view_item(library: Library, item: Item, language: Language) -> ItemView:
    """Put an item into words for a page."""
    pack = library.pack_of(item.family)
    return ItemView(
        topic=pack.id,
        topic_title=pack.title.of(language),
        family=item.family,
        family_title=library.family(item.family).title.of(language),
        place=item.conventions.place,
        worded=words_of(library, item, language),
        stamp=stamp_of(item),
    )


def words_of(library: Library, item: Item, language: Language) -> WordedItem:
    """Return the item in words; they are written once, however often it is shown."""
    return _worded(library, _Itself(item), language)


def stamp_of(item: Item) -> str:
    """Return a short print of all numbers that are shown, the same in every language; it does not tell the key."""
    return _stamp(_Itself(item))


@lru_cache(maxsize=KEPT)
def _worded(library: Library, itself: _Itself, language: Language) -> WordedItem:
    return word_item(library, itself.item, language)


@lru_cache(maxsize=KEPT)
def _stamp(itself: _Itself) -> str:
    item = itself.item
    shown = [item.family, item.ask, item.form, plain(item.parameters), [plain(option.value) for option in item.options]]
    text = json.dumps(shown, sort_keys=True, default=str)
    return hashlib.sha256(text.encode()).hexdigest()[:STAMP_LENGTH]
