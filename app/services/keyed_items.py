"""Items with their key and working, for instructors before a lesson and for the key page of a sheet."""

from collections.abc import Sequence
from typing import NamedTuple

from app.grader.explain import WorkingStep, working
from app.packs.library import Library
from app.packs.spec import Language
from app.questions.model import Item
from app.questions.values import show_value
from app.questions.wording import WordedItem, Writer, word_item


class KeyedOption(NamedTuple):
    """An offered option: its letter on a sheet, whether it is right, and what is behind a wrong one."""

    letter: str
    text: str
    correct: bool
    misconceptions: tuple[str, ...]


class KeyedItem(NamedTuple):
    """An item as whoever teaches sees it. `key` has one line for each thing to fill in, in the order of the sheet."""

    position: int
    family: str
    family_title: str
    worded: WordedItem
    options: tuple[KeyedOption, ...]
    key: tuple[str, ...]
    working: tuple[WorkingStep, ...]


def keyed_item(library: Library, item: Item, position: int, language: Language) -> KeyedItem:
    """Return an item with its key in words; nobody who is to answer it may see this."""
    writer = Writer(library, item, language)
    worded = word_item(library, item, language)
    options = tuple(
        KeyedOption(letter_of(shown.position), shown.text, option.correct, _names(writer, option.misconceptions))
        for shown, option in zip(worded.options, item.options, strict=True)
    )
    title = writer.family.title.of(language)
    return KeyedItem(position, item.family, title, worded, options, _key(writer, worded, options), working(writer))


def letter_of(position: int) -> str:
    """Return the letter of an option that counts from 0."""
    return chr(ord("a") + position)


def _names(writer: Writer, misconceptions: Sequence[str]) -> tuple[str, ...]:
    return tuple(writer.write(writer.family.misconception(each).name) for each in misconceptions)


def _key(writer: Writer, worded: WordedItem, options: Sequence[KeyedOption]) -> tuple[str, ...]:
    item = writer.item
    if item.form in {"choice", "pick", "several"}:
        return tuple(f"{option.letter}) {option.text}" for option in options if option.correct)
    if item.form == "order":
        return tuple(f"{place}. {writer.word(code)}" for place, code in enumerate(item.key, 1))
    if item.form in {"groups", "match"}:
        numbered = {code: f"{number} = {words}" for number, (code, words) in enumerate(worded.groups, 1)}
        lines = zip(worded.options, item.options, strict=True)
        return tuple(f"{shown.text} → {numbered[item.key[option.value]]}" for shown, option in lines)
    if item.form == "boxes":
        return tuple(
            f"{writer.write(part.label)} → "
            + show_value(item.key[part.id], part, writer.ask, writer.family, writer.library, writer.language)
            for part in writer.ask.parts
        )
    return (writer.value(item.key),)
