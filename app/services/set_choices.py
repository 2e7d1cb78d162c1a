"""What a form for a topic set offers: topics with their families, syllabus lines and misconceptions."""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from app.packs.library import Library
from app.packs.spec import LANGUAGES, Language, typeset


class Offer(NamedTuple):
    """One thing to choose: what is sent, and its words."""

    value: str
    words: str


class OfferGroup(NamedTuple):
    """Things to choose under one heading."""

    id: str
    title: str
    offers: tuple[Offer, ...]


def families_by_topic(library: Library, language: Language) -> Sequence[OfferGroup]:
    """Return every family under its topic."""
    return tuple(
        OfferGroup(
            pack.id,
            pack.title.of(language),
            tuple(Offer(family.id, family.title.of(language)) for family in library.families_of(pack.id)),
        )
        for pack in library.packs.values()
    )


def read_list(library: Library, text: str) -> tuple[str, ...]:
    """Return the families of a list, one a line, by title in any language or by name; what is neither stays as typed.

    A line may hold several names, with spaces between them.
    """
    by_title, found = _by_title(library), list[str]()
    for line in filter(None, (" ".join(each.split()) for each in text.splitlines())):
        titled, words = by_title.get(typeset(line).casefold()), line.split()
        found += [titled] if titled else words if all(word in library.families for word in words) else [line]
    return tuple(found)


def write_list(library: Library, families: Sequence[str], language: Language) -> str:
    """Return a list of families that `read_list` reads: their titles, one a line."""
    by_title = _by_title(library)
    titles = {family.id: family.title.of(language) for family in library.families.values()}
    return "\n".join(
        titles[each] if each in titles and by_title[titles[each].casefold()] == each else each for each in families
    )


def lines_by_document(library: Library, language: Language) -> Sequence[OfferGroup]:
    """Return the syllabus lines that some family serves, under their document."""
    served = {line for family in library.families.values() for lines in family.syllabus.values() for line in lines}
    groups = (
        OfferGroup(
            document.id,
            document.title.of(language),
            tuple(
                Offer(line.name, f"{typeset(line.name)}: {line.text.of(language)}")
                for line in document.lines
                if line.name in served
            ),
        )
        for document in library.syllabuses.documents
    )
    return tuple(group for group in groups if group.offers)


def misconceptions_by_topic(library: Library, language: Language) -> Sequence[OfferGroup]:
    """Return the misconceptions under their topic, one that several families share once."""
    return tuple(
        OfferGroup(pack.id, pack.title.of(language), tuple(_misconceptions(library, pack.id, language)))
        for pack in library.packs.values()
    )


def misconception_words(library: Library, misconception: str, language: Language) -> str:
    """Return the name of a misconception given as family/id; the id itself where the packs no longer have it."""
    family_id, _, name = misconception.partition("/")
    family = library.families.get(family_id)
    found = [each for each in family.misconceptions if each.id == name] if family else []
    return found[0].name.of(language) if found else misconception


def _by_title(library: Library) -> Mapping[str, str]:
    """Return the families by title in any language; of two with one title, the first."""
    families = reversed(tuple(library.families.values()))
    return {family.title.of(each).casefold(): family.id for family in families for each in LANGUAGES}


def _misconceptions(library: Library, pack_id: str, language: Language) -> Iterator[Offer]:
    met = set()
    for family in library.families_of(pack_id):
        for each in family.misconceptions:
            if (each.id, each.name) not in met:
                met.add((each.id, each.name))
                yield Offer(f"{family.id}/{each.id}", each.name.of(language))
