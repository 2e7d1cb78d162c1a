"""Which stated lines of a syllabus the families serve, and which have none."""

from collections.abc import Sequence
from datetime import date
from typing import NamedTuple

from app.packs.library import Library
from app.packs.spec import Language, typeset
from app.packs.syllabus import Document, Seen, StatedLine, Syllabus
from app.services.errors import NotFound


class SyllabusChoice(NamedTuple):
    """A syllabus one can look at."""

    id: str
    title: str


class ServingFamily(NamedTuple):
    """A family that serves a line, and the topic to find it under."""

    id: str
    title: str
    topic: str


class LineView(NamedTuple):
    """One stated line: as the document numbers it, its subject, how it was seen, and who serves it."""

    name: str
    subject: str
    seen: Seen
    families: tuple[ServingFamily, ...]


class DocumentView(NamedTuple):
    """One document with its lines and the day on which they were checked."""

    title: str
    checked: date
    lines: tuple[LineView, ...]


class SyllabusView(NamedTuple):
    """A whole syllabus; `unserved` are its lines without a family."""

    id: str
    title: str
    note: str
    documents: tuple[DocumentView, ...]

    @property
    def lines(self) -> tuple[LineView, ...]:
        """All lines, document by document."""
        return tuple(line for document in self.documents for line in document.lines)

    @property
    def unserved(self) -> tuple[LineView, ...]:
        """The lines that no family serves."""
        return tuple(line for line in self.lines if not line.families)


def list_syllabuses(library: Library, language: Language) -> Sequence[SyllabusChoice]:
    """Return the syllabuses in the order of the file."""
    return tuple(SyllabusChoice(each.id, each.title.of(language)) for each in library.syllabuses.syllabuses)


def get_syllabus(library: Library, syllabus_id: str, language: Language) -> SyllabusView:
    """Return a syllabus with the families that serve each line; NotFound where there is none of this id."""
    for each in library.syllabuses.syllabuses:
        if each.id == syllabus_id:
            note = each.note.of(language) if each.note else ""
            documents = library.syllabuses.documents_of(each)
            views = tuple(_document(library, each, document, language) for document in documents)
            return SyllabusView(each.id, each.title.of(language), note, views)
    raise NotFound(syllabus_id)


def _document(library: Library, syllabus: Syllabus, document: Document, language: Language) -> DocumentView:
    lines = tuple(
        LineView(
            typeset(line.name),
            line.text.of(language),
            line.seen or document.seen,
            _serving(library, syllabus, line, language),
        )
        for line in document.lines
    )
    return DocumentView(document.title.of(language), document.checked, lines)


def _serving(library: Library, syllabus: Syllabus, line: StatedLine, language: Language) -> tuple[ServingFamily, ...]:
    return tuple(
        ServingFamily(family.id, family.title.of(language), family.topic)
        for pack in library.packs
        for family in library.families_of(pack)
        if line.name in family.syllabus.get(syllabus.served_as or syllabus.id, ())
    )
