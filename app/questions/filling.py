"""Fills in the texts of packs: `{{ name | filter }}`, which is all that they may hold, each text taken apart once."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from app.packs.spec import Language
from app.packs.templates import PLACE
from app.questions.numbers import NUMBER_FILTERS, point

Word = Callable[[object], str]
Filter = Callable[[Any, Language, Word], Any]


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a value goes, with the filters that it passes in turn."""

    name: str
    filters: tuple[Filter, ...]


def fill(source: str, language: Language, values: Mapping[str, Any], word: Word) -> str:
    """Return a text filled in; `word` writes a code. KeyError for a name that has no value."""
    written = []
    for piece in _pieces(source):
        if isinstance(piece, str):
            written.append(piece)
            continue
        value = values[piece.name]
        for each in piece.filters:
            value = each(value, language, word)
        written.append(str(value))
    return "".join(written)


@lru_cache(maxsize=20_000)
def _pieces(source: str) -> tuple[str | _Place, ...]:
    pieces: list[str | _Place] = []
    end = 0
    for found in PLACE.finditer(source):
        name, chain = found.groups()
        filters = tuple(FILTERS[each.strip()] for each in chain.split("|")[1:])
        pieces += [source[end : found.start()], _Place(name, filters)]
        end = found.end()
    return (*pieces, source[end:])


def _of_number(write: Callable[[float, Language], str]) -> Filter:
    return lambda value, language, _word: write(value, language)


FILTERS: Mapping[str, Filter] = {name: _of_number(write) for name, write in NUMBER_FILTERS.items()} | {
    "word": lambda value, _language, word: word(value),
    "point": lambda value, _language, word: word(point(value)),
    "lr": lambda value, _language, word: word("right" if value >= 0 else "left"),
}
