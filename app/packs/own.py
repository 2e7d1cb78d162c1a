"""A question that somebody at a school writes: words alone, in one language or both; it becomes a hand-written one.

What is not written in one language is read in the other.
"""

from typing import Annotated, Literal, Self

from pydantic import Field, StringConstraints, field_validator, model_validator

from app.packs.fixed import FixedQuestion, FixedWrong
from app.packs.spec import FORMAT, LANGUAGES, Family, Grade, Id, Language, Spec, Text

LEAST_WRONG, MOST_WRONG = 2, 4
MOST_STEPS = 8
# Braces would be places to fill in: nothing is filled into a question that draws nothing.
PLAIN = r"^[^{}]*$"


Short = Annotated[str, StringConstraints(min_length=1, max_length=80, pattern=PLAIN)]
Line = Annotated[str, StringConstraints(min_length=1, max_length=200, pattern=PLAIN)]
Paragraph = Annotated[str, StringConstraints(min_length=1, max_length=600, pattern=PLAIN)]


class _Words(Spec):
    """Texts typed by a person: each on one line, without gaps at its ends."""

    @field_validator("*", mode="before")
    @classmethod
    def _on_one_line(cls, value: object) -> object:
        return " ".join(value.split()) if isinstance(value, str) else value


class OwnWrong(_Words):
    """A wrong answer: its text, a short name for the mistake, what choosing it meant, and the line to remember."""

    text: Line
    name: Short
    did: Paragraph
    remedy: Line


class OwnWords(_Words):
    """A question in one language; `why` holds the steps to the right answer."""

    title: Short
    situation: Paragraph
    question: Line
    key: Line
    why: Annotated[tuple[Line, ...], Field(min_length=1, max_length=MOST_STEPS)]
    wrong: Annotated[tuple[OwnWrong, ...], Field(min_length=LEAST_WRONG, max_length=MOST_WRONG)]

    @field_validator("why", mode="before")
    @classmethod
    def _tidy_steps(cls, value: object) -> object:
        return tuple(" ".join(str(step).split()) for step in value) if isinstance(value, list | tuple) else value


class OwnBody(_Words):
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

    def as_family(self, family_id: str, version: int) -> Family:
        """Return the family whose only item is this question.

        A wrong answer is named by version and place: what was shown and answered before is then known to be another.
        """
        en, fr = self.en or self.fr, self.fr or self.en
        if en is None or fr is None:
            raise ValueError("unwritten")
        return FixedQuestion(
            format=FORMAT,
            id=family_id,
            version=version,
            topic=self.topic,
            title=Text(en=en.title, fr=fr.title),
            skill=Text(en=en.question, fr=fr.question),
            grade=self.grade,
            sources=(self.source,),
            syllabus={},
            stem=Text(en=en.situation, fr=fr.situation),
            question=Text(en=en.question, fr=fr.question),
            key=Text(en=en.key, fr=fr.key),
            wrong=tuple(
                FixedWrong(
                    id=f"v{version}-{number}",
                    **{name: Text(en=getattr(a, name), fr=getattr(b, name)) for name in OwnWrong.model_fields},
                )
                for number, (a, b) in enumerate(zip(en.wrong, fr.wrong, strict=True), 1)
            ),
            explanation=tuple(Text(en=a, fr=b) for a, b in zip(en.why, fr.why, strict=True)),
            languages=self.languages,
        ).as_family()
