"""One draw of an own question as whoever reads it sees it: with its key, and what each wrong answer is told."""

from collections.abc import Sequence
from typing import NamedTuple

from app.grader.explain import Finding
from app.packs.library import Library
from app.packs.spec import Family
from app.questions.draw import NoDraw, draw, offered_forms
from app.questions.wording import Writer
from app.services.actor import Actor
from app.services.keyed_items import KeyedItem, keyed_item

EXAMPLE_SEED = 1


class ToldWrong(NamedTuple):
    """A wrong answer as shown, and what whoever gives it is told."""

    text: str
    finding: Finding


class Example(NamedTuple):
    """One draw."""

    keyed: KeyedItem
    wrong: Sequence[ToldWrong]


def find_example(library: Library, family: Family, actor: Actor) -> Example | None:
    """Return a draw of a question, options shown where it has any; None where no draw makes a fair question."""
    try:
        item = draw(library, family.id, EXAMPLE_SEED, actor.conventions, offered_forms(family)[0])
    except NoDraw:
        return None
    writer = Writer(library, item, actor.language)
    wrong = []
    for name, made in item.wrong_values():
        spec = family.misconception(name)
        texts = (writer.write(each, made.more) for each in (spec.name, spec.did, spec.remedy))
        wrong.append(ToldWrong(writer.value(made.value), Finding(name, *texts)))
    return Example(keyed_item(library, item, 1, actor.language), wrong)
