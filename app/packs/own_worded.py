"""A question of a school's own that is words alone; it becomes a hand-written one."""

from typing import Annotated

from pydantic import Field

from app.packs.fixed import FixedQuestion, FixedWrong
from app.packs.own_body import Line, Mistake, OwnBody, OwnWords, both, wrong_id
from app.packs.spec import FORMAT, Family, Text

LEAST_WRONG, MOST_WRONG = 2, 4


class WordedWrong(Mistake):
    """A wrong answer with its text."""

    text: Line


class WordedWords(OwnWords):
    """The question in one language, with the right answer and the wrong ones."""

    key: Line
    wrong: Annotated[tuple[WordedWrong, ...], Field(min_length=LEAST_WRONG, max_length=MOST_WRONG)]


class WordedBody(OwnBody):
    """An own question whose answers are words."""

    en: WordedWords | None = None
    fr: WordedWords | None = None

    def as_family(self, family_id: str, version: int) -> Family:
        """Return the family whose only item is this question."""
        en, fr = both(self.en, self.fr)
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
                    id=wrong_id(version, number),
                    **{name: Text(en=getattr(a, name), fr=getattr(b, name)) for name in WordedWrong.model_fields},
                )
                for number, (a, b) in enumerate(zip(en.wrong, fr.wrong, strict=True), 1)
            ),
            explanation=tuple(Text(en=a, fr=b) for a, b in zip(en.why, fr.why, strict=True)),
            languages=self.languages,
        ).as_family()
