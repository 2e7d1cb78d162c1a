"""A hand-written question: words alone, nothing to draw. It becomes a family like any other, under the same checks."""

from typing import Annotated, Literal

from pydantic import Field

from app.packs.spec import (
    LANGUAGES,
    Ask,
    Family,
    Filled,
    Grade,
    Id,
    Language,
    Misconception,
    Parameter,
    Scene,
    Spec,
    Text,
    WorkingLine,
)

SOLVER = "fixed"
KEY = "key"


class FixedWrong(Misconception):
    """A wrong option with the misconception it stands for: its name, what choosing it meant, and the remedy."""

    text: Text


class FixedQuestion(Spec):
    """One question as it stands in `<pack>/fixed/<id>.toml`."""

    format: Literal[1]
    id: Id
    version: Annotated[int, Field(ge=1)]
    topic: Id
    title: Text
    skill: Text
    grade: Grade
    sources: Annotated[tuple[Filled, ...], Field(min_length=1)]
    syllabus: dict[str, tuple[str, ...]]
    stem: Text
    question: Text
    key: Text
    wrong: Annotated[tuple[FixedWrong, ...], Field(min_length=2, max_length=4)]
    explanation: Annotated[tuple[Text, ...], Field(min_length=1)]
    languages: tuple[Language, ...] = LANGUAGES

    def as_family(self) -> Family:
        """Return the family whose only item is this question; its options are still shuffled by the seed."""
        ids = tuple(each.id for each in self.wrong)
        steps = {f"why-{number}": WorkingLine(text=text) for number, text in enumerate(self.explanation, start=1)}
        return Family(
            **{name: getattr(self, name) for name in ("format", "id", "version", "topic", "title", "skill", "grade")},
            solver=SOLVER,
            sources=self.sources,
            syllabus=self.syllabus,
            languages=self.languages,
            parameters={
                "wrong_options": Parameter(choices=(ids,)),
                "explanation": Parameter(choices=(tuple(steps),)),
            },
            asks=(Ask(id="which", forms=("choice",), question=self.question, need=len(ids)),),
            scenes=(Scene(text=self.stem),),
            misconceptions=tuple(Misconception(**each.model_dump(exclude={"text"})) for each in self.wrong),
            working=steps,
            texts={KEY: self.key} | {each.id: each.text for each in self.wrong},
        )
