"""Puts an item into words: its question, scene, options and figures, in either language, the same numbers in both."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from app.figures import draw_figure
from app.figures.model import Drawing, FigureCall
from app.packs.library import Library
from app.packs.spec import Form, Language, Text
from app.questions.filling import fill
from app.questions.model import Item, Step
from app.questions.numbers import NBSP, NUMBER_FILTERS
from app.questions.sums import write_sum
from app.questions.values import show_value

UNITS = r"kt|ft|pi|NM|M|s|min|h|hPa|inHg|po|nT|°C|°|%|L|gal|US"
BEFORE_UNIT = re.compile(rf" (?<=\d )(?=(?:{UNITS})(?![\w]))")  # begins with the space: few places to look at
NUMBER = re.compile(r"\d+(?:[.,]\d+)?")
ELISION = re.compile(r"\b([Dd])e (?=[AEIOUÉÈÎÔ][a-zà-ÿ])")  # before the name of a place: d'Osier
FRENCH_SPACES = ((" :", f"{NBSP}:"), ("« ", f"«{NBSP}"), (" »", f"{NBSP}»"))


@dataclass(frozen=True, slots=True)
class WordedOption:
    """One option as shown; `position` counts from 0 and is what a reply names."""

    position: int
    text: str


@dataclass(frozen=True, slots=True)
class WordedPart:
    """One box to fill in: its name in the reply, label, unit in words and the sides to choose from (code, word).

    tolerance: how near counts; empty where the value must be met, where the item's rounding says it already, and where
    it is reckoned from the key, which it would tell.
    """

    id: str
    label: str
    unit: str
    kind: str
    tolerance: str
    sides: tuple[tuple[str, str], ...]

    def as_json(self) -> dict[str, Any]:
        """Return plain values for storing."""
        return {name: getattr(self, name) for name in self.__slots__}


@dataclass(frozen=True)
class WordedItem:
    """An item in words; nothing here tells the key.

    untranslated: another language than `language` was wished for, in which the family is not written.
    """

    family: str
    language: Language
    form: Form
    question: str
    scene: str
    rounding: str
    options: tuple[WordedOption, ...]
    groups: tuple[tuple[str, str], ...]
    box: WordedPart
    parts: tuple[WordedPart, ...]
    figure_calls: tuple[FigureCall, ...]
    untranslated: bool

    @cached_property
    def figures(self) -> tuple[Drawing, ...]:
        """The figures, drawn when first asked for: keeping what was shown needs only their names and parameters."""
        return tuple(draw_figure(call, self.language) for call in self.figure_calls)

    @property
    def stem(self) -> str:
        """The whole text a student reads before answering."""
        return " ".join(part for part in (self.scene, self.question, self.rounding) if part)

    def snapshot(self) -> dict[str, Any]:
        """Return what was shown as plain values, without markup; figures by name and parameters."""
        return {
            **{name: getattr(self, name) for name in ("family", "language", "form", "question", "scene", "rounding")},
            "options": [{"position": option.position, "text": option.text} for option in self.options],
            "groups": self.groups,
            "box": self.box.as_json(),
            "parts": [part.as_json() for part in self.parts],
            "figures": [{"name": f.name, "parameters": dict(f.parameters)} for f in self.figure_calls],
        }


class Writer:
    """Renders a family's texts in the language wished for, or as they are written, with an item's numbers."""

    def __init__(self, library: Library, item: Item, wished: Language) -> None:
        self.library, self.item = library, item
        self.family = library.family(item.family)
        self.language = self.family.written_in(wished)
        self.ask = self.family.ask(item.ask)
        solution = item.solution
        self._values = {**item.scenery, "place": item.conventions.place, **solution.given, **solution.quantities}

    def write(self, text: Text | str, more: Mapping[str, Any] | None = None) -> str:
        """Return a text filled in; KeyError for a name the item does not have."""
        source = text if isinstance(text, str) else text.of(self.language)
        values = {**self._values, **more} if more else self._values
        return tidy(fill(source, self.language, values, self.word), self.language)

    def working(self, step: Step | str) -> tuple[str, str]:
        """Return a line of the working and its arithmetic, empty where it has none."""
        line, more = (step.line, step.more) if isinstance(step, Step) else (step, {})
        spec = self.family.working[line]
        return self.write(spec.text, more), write_sum(self.write(spec.sum, more), self.language) if spec.sum else ""

    def word(self, code: object) -> str:
        """Return the text of a code, itself filled in."""
        text = self.library.word(str(code), self.language, self.family)
        return fill(text, self.language, self._values, self.word)

    def value(self, value: Any) -> str:
        """Write a value of the item's answer as a verdict or an option shows it."""
        if self.item.value.kind == "code" and isinstance(value, str):
            return tidy(self.word(value), self.language)
        if isinstance(value, tuple | list) and self.item.value.kind != "pair":
            return ", ".join(tidy(self.word(each), self.language) for each in value)
        return show_value(value, self.item.value, self.ask, self.family, self.library, self.language)


def word_item(library: Library, item: Item, wished: Language) -> WordedItem:
    """Return the item in words: in the language wished for where its family is written in it."""
    writer = Writer(library, item, wished)
    ask, language = writer.ask, writer.language
    rounding = writer.write(ask.rounding) if ask.rounding and item.form != "choice" else ""
    of_key = item.solution.tolerance is not None
    return WordedItem(
        family=item.family,
        language=language,
        form=item.form,
        question=writer.write(ask.question),
        scene=writer.write(writer.family.scenes[item.scene].text),
        rounding=rounding,
        options=tuple(WordedOption(i, writer.value(option.value)) for i, option in enumerate(item.options)),
        groups=tuple((group, writer.word(group)) for group in ask.groups),
        box=_box("value", ask.label, item.value, writer, "" if of_key else _near(item.value, rounding, language)),
        parts=tuple(_box(part.id, part.label, part, writer, _near(part, rounding, language)) for part in ask.parts),
        figure_calls=item.solution.figures,
        untranslated=language != wished,
    )


def _box(box_id: str, label: Text | None, form: Any, writer: Writer, tolerance: str) -> WordedPart:
    unit = writer.library.word(f"unit-{form.unit}", writer.language) if form.unit else ""
    sides = tuple((side, writer.library.word(side, writer.language)) for side in form.sides)
    return WordedPart(box_id, writer.write(label) if label else "", unit, form.kind, tolerance, sides)


def _near(form: Any, rounding: str, language: Language) -> str:
    """Return how near counts, where there is something to say and `rounding` does not say it in figures."""
    tolerance = NUMBER_FILTERS["exact"](form.tolerance, language)
    return tolerance if form.tolerance and tolerance not in NUMBER.findall(rounding) else ""


def tidy(text: str, language: Language) -> str:
    """Set no-break spaces between number and unit; in French also at colons and guillemets, and elide before names."""
    text = BEFORE_UNIT.sub(NBSP, text)
    if language == "fr":
        text = ELISION.sub(r"\1’", text)
        for plain, bound in FRENCH_SPACES:
            text = text.replace(plain, bound)
    return text
