"""A question of a school's own whose numbers are drawn anew: its answer and its wrong answers are formulas.

In its texts a number is named by its word in capitals and printed in that place; KEY is the right answer and YOURS, in
what a mistake did, the value that the mistake leads to. A number that is reckoned is taken as it is printed.
"""

import re
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from difflib import get_close_matches
from typing import Annotated

from pydantic import Field, field_validator

from app.packs.formulas import FUNCTIONS, NAME, read_formula
from app.packs.own_body import Mistake, OwnBody, OwnWords, Remark, Typed, both, wrong_id
from app.packs.own_numbers import FILTERS, FormulaText, OwnAnswer, OwnNumber
from app.packs.spec import FORMAT, Ask, Family, Misconception, Parameter, Scene, Text, ValueFormat, WorkingLine

SOLVER = "reckoned"
PREFIX = "own_"  # before the names of a school's own numbers, so that none is taken for a name of the packs
KEY, YOURS = "KEY", "YOURS"
TAKEN = frozenset({KEY, YOURS, *(name.upper() for name in FUNCTIONS)})
MOST_NUMBERS = 6
LEAST_WRONG, MOST_WRONG = 2, 6
MANY_WRONG = 5  # from so many on a choice offers three of them, else two, so that the key's place is free

CAPITALS = re.compile(rf"\b{NAME}\b")
STATED = re.compile(r"\d+(?:[.,]\d+)?")


class ReckonedWords(OwnWords):
    """The question in one language."""

    wrong: Annotated[tuple[Mistake, ...], Field(min_length=LEAST_WRONG, max_length=MOST_WRONG)]


class ReckonedBody(OwnBody):
    """An own question whose numbers are drawn; `wrong` holds the formula of each wrong answer."""

    numbers: Annotated[tuple[OwnNumber, ...], Field(min_length=1, max_length=MOST_NUMBERS)]
    answer: OwnAnswer
    wrong: Annotated[tuple[FormulaText, ...], Field(min_length=LEAST_WRONG, max_length=MOST_WRONG)]
    typed_only: bool = False
    en: ReckonedWords | None = None
    fr: ReckonedWords | None = None

    @field_validator("wrong", mode="before")
    @classmethod
    def _tidy_formulas(cls, value: object) -> object:
        return tuple(" ".join(str(each).split()) for each in value) if isinstance(value, list | tuple) else value

    @property
    def names(self) -> tuple[str, ...]:
        """The names of its numbers, in order."""
        return tuple(each.name for each in self.numbers)

    def faults(self) -> Iterator[Remark]:
        """Yield names that are taken or unknown, and those that stand where no number can."""
        for n, number in enumerate(self.numbers):
            if number.name in TAKEN or number.name in self.names[:n]:
                code = "own-name-taken" if number.name in TAKEN else "own-name-twice"
                yield Remark(f"numbers.{n}.name", code, {"value": number.name})
            yield from _unknown(f"numbers.{n}.formula", number.formula, self.names[:n])
        yield from _unknown("answer.formula", self.answer.formula, self.names)
        for n, formula in enumerate(self.wrong):
            yield from _unknown(f"wrong.{n}", formula, (*self.names, KEY))
        for language in self.languages:
            words = self.words(language)
            if words is not None:
                yield from self._faults_of(language, words)

    def _faults_of(self, language: str, words: OwnWords) -> Iterator[Remark]:
        if len(words.wrong) != len(self.wrong):
            counts = {"value": len(words.wrong), "wanted": len(self.wrong)}
            yield Remark(f"{language}.wrong", "own-wrong-unlike", counts)
        everything = {*self.names, KEY, YOURS}
        banned = {"title": everything, "situation": {KEY, YOURS}, "question": {KEY, YOURS}}
        yield from _misplaced(words, f"{language}.", banned)
        for n, each in enumerate(words.wrong):
            yield from _misplaced(each, f"{language}.wrong.{n}.", {"name": everything, "remedy": {YOURS}})
        if any(YOURS in _capitals(step) for step in words.why):
            yield Remark(f"{language}.why", "own-name-here", {"value": YOURS})

    def doubts(self) -> Iterator[tuple[bool, Remark]]:
        """Yield what the answer needs and the question does not tell, what is used nowhere, and what looks mistyped."""
        stems = [_stem_names(words, self.names) for words in (self.en, self.fr) if words is not None]
        if len(stems) == 2 and stems[0] != stems[1]:
            yield True, Remark("", "own-stems-unlike", {"value": ", ".join(sorted(stems[0] ^ stems[1]))})
        told = self._told(stems[0])
        for name in read_formula(self.answer.formula).names:
            if name not in told:
                yield True, Remark("", "own-hidden", {"value": name})
        formulas = [self.answer.formula, *self.wrong, *(each.formula for each in self.numbers if each.formula)]
        used = stems[0].union(*(read_formula(each).names for each in formulas))
        for name in self.names:
            if name not in used:
                yield False, Remark("", "own-unused", {"value": name})
        for word in sorted(set().union(*(_capitals(text) for text in self._texts())) - {*self.names, *TAKEN}):
            near = get_close_matches(word, self.names, n=1, cutoff=0.8)
            if near:
                yield False, Remark("", "own-mistyped", {"value": word, "near": near[0]})

    def _told(self, stem: Collection[str]) -> set[str]:
        """Return the names whose numbers the question tells, or that can be reckoned from those."""
        told = set(stem)
        for each in self.numbers:
            if each.formula and told.issuperset(read_formula(each.formula).names):
                told.add(each.name)
        return told

    def _texts(self) -> Iterator[str]:
        for words in (self.en, self.fr):
            if words is not None:
                yield from (words.situation, words.question, *words.why)
                yield from (text for each in words.wrong for text in (each.did, each.remedy))

    def as_family(self, family_id: str, version: int) -> Family:
        """Return the family that draws this question's numbers."""
        en, fr = both(self.en, self.fr)
        fill = self._filler()
        steps = {
            f"why-{n}": WorkingLine(text=Text(en=fill(a), fr=fill(b)))
            for n, (a, b) in enumerate(zip(en.why, fr.why, strict=True), 1)
        }
        plain = not _capitals(en.question + " " + fr.question) & set(self.names)
        skills = (en.question, fr.question) if plain else (en.title, fr.title)
        drawn = {parameter_name(each.name): each.drawn for each in self.numbers if each.drawn}
        return Family(
            format=FORMAT,
            id=family_id,
            version=version,
            topic=self.topic,
            title=Text(en=en.title, fr=fr.title),
            skill=Text(en=skills[0], fr=skills[1]),
            solver=SOLVER,
            grade=self.grade,
            sources=(self.source,),
            syllabus={},
            parameters={**drawn, "formulas": Parameter(choices=(self._formulas(version, tuple(steps)),))},
            asks=(self._ask(Text(en=fill(en.question), fr=fill(fr.question))),),
            scenes=(Scene(text=Text(en=fill(en.situation), fr=fill(fr.situation))),),
            misconceptions=tuple(
                Misconception(
                    id=wrong_id(version, n),
                    name=Text(en=a.name, fr=b.name),
                    did=Text(en=fill(a.did), fr=fill(b.did)),
                    remedy=Text(en=fill(a.remedy), fr=fill(b.remedy)),
                )
                for n, (a, b) in enumerate(zip(en.wrong, fr.wrong, strict=True), 1)
            ),
            working=steps,
            languages=self.languages,
        )

    def _ask(self, question: Text) -> Ask:
        answer = self.answer
        return Ask(
            id="which",
            forms=("typed",) if self.typed_only else ("choice", "typed"),
            question=question,
            value=ValueFormat(
                kind="heading" if answer.nearest == "heading" else "number",
                unit=answer.unit,
                decimals=answer.decimals,
                tolerance=answer.tolerance,
            ),
            rounding=answer.rounding(),
            need=3 if len(self.wrong) >= MANY_WRONG else 2,
        )

    def _formulas(self, version: int, steps: Sequence[str]) -> dict[str, object]:
        """Return what the solver needs besides the numbers that are drawn."""
        en, fr = both(self.en, self.fr)
        stem = f"{en.situation} {en.question} {fr.situation} {fr.question}"
        return {
            "numbers": [{"name": each.name, "formula": each.formula, "shown": each.shown} for each in self.numbers],
            "key": self.answer.formula,
            "nearest": self.answer.nearest,
            "wrong": {wrong_id(version, n): formula for n, formula in enumerate(self.wrong, 1)},
            "stem": sorted(_stem_names(en, self.names) | _stem_names(fr, self.names)),
            "stated": [float(each.replace(",", ".")) for each in STATED.findall(CAPITALS.sub("", stem))],
            "steps": list(steps),
        }

    def _filler(self) -> Callable[[str], str]:
        """Return what sets the place of a number for each of its names in a text."""
        filters = {each.name: FILTERS[each.shown] for each in self.numbers}
        filters |= {KEY: self.answer.filter, YOURS: self.answer.filter}
        places = {name: f"{{{{ {parameter_name(name)} | {each} }}}}" for name, each in filters.items()}
        return lambda text: CAPITALS.sub(lambda found: places.get(found[0], found[0]), text)


def parameter_name(name: str) -> str:
    """Return what a number is called among the parameters of a draw."""
    return PREFIX + name.lower()


def _capitals(text: str) -> set[str]:
    return set(CAPITALS.findall(text))


def _stem_names(words: OwnWords, names: Collection[str]) -> set[str]:
    return _capitals(f"{words.situation} {words.question}") & set(names)


def _unknown(field: str, formula: str | None, known: Sequence[str]) -> Iterator[Remark]:
    """Yield the first name in a formula that no number has."""
    for name in read_formula(formula).names if formula else ():
        if name not in known:
            yield Remark(field, "own-formula-unknown", {"value": name, "accepted": ", ".join(known) or "–"})
            return


def _misplaced(texts: Typed, at: str, banned: Mapping[str, Collection[str]]) -> Iterator[Remark]:
    """Yield the texts that name what cannot be printed in them."""
    for field, names in banned.items():
        for name in sorted(_capitals(getattr(texts, field)) & set(names)):
            yield Remark(at + field, "own-name-here", {"value": name})
