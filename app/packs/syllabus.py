"""The typed shape of syllabus.toml: documents of authorities with their lines, and the syllabuses made of them.

A family names the lines it serves, word for word, under the syllabus it serves them for.
"""

from collections import Counter
from collections.abc import Iterator
from datetime import date
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from app.packs.spec import Filled, Id, Spec, Text

Seen = Literal["official", "secondary", "memory"]
EXTENSION = "extension"  # beyond every syllabus listed; its lines are of any document


class StatedLine(Spec):
    """One line of a document: the name families use, its subject in our words; `seen` where it differs."""

    name: Filled
    text: Text
    seen: Seen | None = None


class Document(Spec):
    """A document with those of its lines that are about this job, how it was seen and when that was checked."""

    id: Id
    title: Text
    seen: Seen
    checked: date
    lines: Annotated[tuple[StatedLine, ...], Field(min_length=1)]


class Syllabus(Spec):
    """What one licence asks: the documents that say so; `served_as`: another's lines stand in, and its families."""

    id: Id
    title: Text
    note: Text | None = None
    served_as: Id | None = None
    documents: Annotated[tuple[Id, ...], Field(min_length=1)]


class Syllabuses(Spec):
    """The whole file."""

    format: Literal[1]
    documents: tuple[Document, ...] = ()
    syllabuses: tuple[Syllabus, ...] = ()

    @model_validator(mode="after")
    def _named_once_and_found(self) -> Self:
        for what, names in (
            ("document", [document.id for document in self.documents]),
            ("line", [line.name for document in self.documents for line in document.lines]),
            ("syllabus", [syllabus.id for syllabus in self.syllabuses]),
        ):
            twice = [name for name, times in Counter(names).items() if times > 1]
            if twice:
                raise ValueError(f"{what} {twice[0]!r} stands twice: give each its own name")
        known = {document.id for document in self.documents}
        for syllabus in self.syllabuses:
            if missing := set(syllabus.documents) - known:
                raise ValueError(f"{syllabus.id} names the document {min(missing)!r}; there are {sorted(known)}")
        ids = {syllabus.id for syllabus in self.syllabuses}
        for syllabus in self.syllabuses:
            if syllabus.served_as is not None and syllabus.served_as not in ids:
                raise ValueError(f"{syllabus.id} is served as {syllabus.served_as!r}; there are {sorted(ids)}")
        return self

    def documents_of(self, syllabus: Syllabus) -> tuple[Document, ...]:
        """Return a syllabus's documents in its own order."""
        by_id = {document.id: document for document in self.documents}
        return tuple(by_id[each] for each in syllabus.documents)

    def problems(self, served: dict[str, tuple[str, ...]]) -> Iterator[tuple[str, str]]:
        """Return what is wrong with the lines a family serves, as (rule, what): unknown syllabus or line."""
        documents = {syllabus.id: self.documents_of(syllabus) for syllabus in self.syllabuses}
        documents[EXTENSION] = self.documents
        for tag, lines in served.items():
            if tag not in documents:
                yield "unknown-syllabus-tag", f"there is no syllabus {tag!r}; there are {', '.join(documents)}"
                continue
            known = {line.name for document in documents[tag] for line in document.lines}
            for line in lines:
                if line not in known:
                    yield "unknown-syllabus-line", f"{tag} states no line {line!r}"
