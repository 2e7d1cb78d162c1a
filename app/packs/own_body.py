"""What every question has that somebody at a school writes, in one language or both.

What is not written in one language is read in the other.
"""

from abc import abstractmethod
from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Annotated, Literal, NamedTuple, Self, TypeVar

from pydantic import Field, StringConstraints, field_validator, model_validator

from app.packs.spec import LANGUAGES, Family, Grade, Id, Language, Spec

MOST_STEPS = 8
# Braces are places to fill in: where anything is filled in, the question itself sets them.
PLAIN = r"^[^{}]*$"

Short = Annotated[str, StringConstraints(min_length=1, max_length=80, pattern=PLAIN)]
Line = Annotated[str, StringConstraints(min_length=1, max_length=200, pattern=PLAIN)]
Paragraph = Annotated[str, StringConstraints(min_length=1, max_length=600, pattern=PLAIN)]


class Typed(Spec):
    """Texts typed by a person: each on one line, without gaps at its ends."""

    @field_validator("*", mode="before")
    @classmethod
    def _on_one_line(cls, value: object) -> object:
        return " ".join(value.split()) if isinstance(value, str) else value


class Mistake(Typed):
    """The mistake behind a wrong answer: a short name, what it did, and the line to remember."""

    name: Short
    did: Paragraph
    remedy: Line


class OwnWords(Typed):
    """A question in one language; `why` holds the steps to the right answer."""

    title: Short
    situation: Paragraph
    question: Line
    why: Annotated[tuple[Line, ...], Field(min_length=1, max_length=MOST_STEPS)]
    wrong: tuple[Mistake, ...]

    @field_validator("why", mode="before")
    @classmethod
    def _tidy_steps(cls, value: object) -> object:
        return tuple(" ".join(str(step).split()) for step in value) if isinstance(value, list | tuple) else value


Written = TypeVar("Written", bound=OwnWords)


class Remark(NamedTuple):
    """What is wrong in a question: the field ("numbers.0.name"; empty: all of it), a code and what its words name."""

    field: str
    code: str
    named: Mapping[str, str | int] = MappingProxyType({})


class OwnBody(Typed):
    """An own question as it is kept, and as it is saved to a file and read from one."""

    format: Literal[1] = 1
    topic: Id
    grade: Grade
    source: Line
    en: OwnWords | None = None
    fr: OwnWords | None = None

    @model_validator(mode="after")
    def _written_alike(self) -> Self:
        if self.en is None and self.fr is None:
            raise ValueError("unwritten")
        if self.en and self.fr and (len(self.en.wrong), len(self.en.why)) != (len(self.fr.wrong), len(self.fr.why)):
            raise ValueError("unlike")
        return self

    @property
    def languages(self) -> tuple[Language, ...]:
        """The languages it is written in."""
        return tuple(each for each in LANGUAGES if self.words(each) is not None)

    def words(self, language: Language) -> OwnWords | None:
        """Return what is written in a language."""
        return self.en if language == "en" else self.fr

    def title(self, language: Language) -> str:
        """Return the title in a language, or as it is written."""
        words = self.words(language) or self.en or self.fr
        return words.title if words else ""

    def faults(self) -> Iterator[Remark]:
        """Yield what does not fit together, so that the question cannot be kept."""
        return iter(())

    def doubts(self) -> Iterator[tuple[bool, Remark]]:
        """Yield what is odd, and whether that keeps it from being asked."""
        return iter(())

    @abstractmethod
    def as_family(self, family_id: str, version: int) -> Family:
        """Return the question as a family.

        A wrong answer is named by version and place: what was shown and answered before is then known to be another.
        """


def both(en: Written | None, fr: Written | None) -> tuple[Written, Written]:
    """Return what is written in English and in French, one for the other where one is missing."""
    first, second = en or fr, fr or en
    if first is None or second is None:
        raise ValueError("unwritten")
    return first, second


def wrong_id(version: int, number: int) -> str:
    """Return what a wrong answer, counted from 1, is called among the misconceptions."""
    return f"v{version}-{number}"
