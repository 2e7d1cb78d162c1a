"""The typed shape of a pack: families of questions as data, with texts in both languages.

A family's TOML holds wording, parameters, misconceptions and sources; its solver is a name. Nothing here is code.
"""

from typing import Annotated, Any, Literal, Self

from pydantic import BaseModel, ConfigDict, Field, StringConstraints, model_validator

FORMAT = 1
LANGUAGES: tuple[Literal["en"], Literal["fr"]] = ("en", "fr")

Language = Literal["en", "fr"]
Form = Literal["choice", "typed", "several", "order", "match", "groups", "pick", "boxes"]
Kind = Literal["heading", "number", "sided", "arc-minutes", "clock", "runway", "code", "pair"]
Grade = Literal["easy", "medium", "hard"]
Id = Annotated[str, StringConstraints(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", max_length=60)]
Name = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9_]*$", max_length=40)]
Filled = Annotated[str, StringConstraints(min_length=1, max_length=2000)]


def typeset(text: str) -> str:
    """Set printed apostrophes for typed ones, which is how packs and messages are written."""
    return text.replace("'", "’")


class Spec(BaseModel):
    """Frozen, and closed: a key that is not in the format is an error, never ignored."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)


class Text(Spec):
    """One text in both languages; may hold `{{ name | filter }}`, nothing more."""

    en: Filled
    fr: Filled

    def of(self, language: Language) -> str:
        """Return the text in one language, as it is printed."""
        return typeset(self.en if language == "en" else self.fr)


class Parameter(Spec):
    """How one parameter is drawn: from `choices`, or from `low` to `high` by `step` (with `signs`, either sign).

    With `card`, a correction card is drawn: entries every 30 degrees whose deviations stay within `largest` and change
    by no more than `largest_step` between neighbours.
    """

    choices: tuple[Any, ...] = ()
    weights: tuple[float, ...] = ()
    low: float | None = None
    high: float | None = None
    step: float = 1
    signs: bool = False
    card: bool = False
    largest: int = 8
    largest_step: int = 5

    @model_validator(mode="after")
    def _one_way_to_draw(self) -> Self:
        ranged = self.low is not None and self.high is not None
        if [bool(self.choices), ranged, self.card].count(True) != 1:
            raise ValueError("give either choices, or low and high, or card = true")
        if self.weights and len(self.weights) != len(self.choices):
            raise ValueError(f"{len(self.weights)} weights for {len(self.choices)} choices: give one each")
        if self.low is not None and self.high is not None and (self.step <= 0 or self.high < self.low):
            raise ValueError(f"low {self.low}, high {self.high}, step {self.step} holds no value")
        return self


class ValueFormat(Spec):
    """How a value is shown, typed and compared.

    heading: degrees on the circle, three digits, 360 for north. number: `decimals` and `unit`. sided: a signed number
    whose sign is said by a side, `sides` = [word for plus, word for minus]. arc-minutes: signed minutes of arc with
    `sides`. clock: minutes after midnight. runway: 1 to 36. code: a key of the family's `texts`, in a
    box one of `sides`. pair: several values.
    """

    kind: Kind
    unit: str = ""
    decimals: Annotated[int, Field(ge=0, le=3)] = 0
    tolerance: Annotated[float, Field(ge=0)] = 0
    sides: tuple[str, ...] = ()

    @model_validator(mode="after")
    def _sides_where_signed(self) -> Self:
        if self.kind != "code" and (self.kind in {"sided", "arc-minutes"}) != (len(self.sides) == 2):
            raise ValueError("sides takes two words, for plus and for minus, with kind sided or arc-minutes only")
        return self


class Part(ValueFormat):
    """One part of a pair, or one box of several; later boxes may be marked on the student's earlier values."""

    id: Name
    label: Text


class Ask(Spec):
    """One thing a family can ask: the question line, the answer forms it may take and how its value is written."""

    id: Id
    forms: Annotated[tuple[Form, ...], Field(min_length=1)]
    question: Text
    value: ValueFormat = ValueFormat(kind="code")
    parts: tuple[Part, ...] = ()
    groups: tuple[Id, ...] = ()
    label: Text | None = None
    rounding: Text | None = None
    need: Annotated[int, Field(ge=0, le=4)] = 3
    ordered: bool = False

    @model_validator(mode="after")
    def _parts_where_needed(self) -> Self:
        wants_parts = self.value.kind == "pair" or "boxes" in self.forms
        if wants_parts and not self.parts:
            raise ValueError("kind pair and form boxes need parts")
        if bool({"groups", "match"} & set(self.forms)) != bool(self.groups):
            raise ValueError("forms groups and match need groups, and only they")
        return self


class Scene(Spec):
    """One way to tell the story of the question; `asks` and `tag` say where it fits (empty: everywhere)."""

    text: Text
    asks: tuple[Id, ...] = ()
    tag: str = ""


class Misconception(Spec):
    """A named wrong line of reasoning: its short name, what it did in this item, and the one line to remember."""

    id: Id
    name: Text
    did: Text
    remedy: Text


class WorkingLine(Spec):
    """One line of the working; `sum` is its arithmetic, the same in both languages but for the number format."""

    text: Text
    sum: str = ""


class Family(Spec):
    """One kind of question. `few`: why it cannot hold many different questions, where it cannot.

    languages: those its texts are written in; in another they are read as they are written.
    """

    format: Literal[1]
    id: Id
    version: Annotated[int, Field(ge=1)]
    topic: Id
    title: Text
    skill: Text
    solver: Id
    grade: Grade
    sources: Annotated[tuple[Filled, ...], Field(min_length=1)]
    syllabus: dict[str, tuple[str, ...]]
    parameters: dict[Name, Parameter]
    asks: Annotated[tuple[Ask, ...], Field(min_length=1)]
    scenes: Annotated[tuple[Scene, ...], Field(min_length=1)]
    misconceptions: tuple[Misconception, ...]
    working: dict[Id, WorkingLine]
    model: dict[Id, Text] = {}
    texts: dict[Id, Text] = {}
    figures: tuple[Id, ...] = ()
    features: tuple[Id, ...] = ()
    few: Filled | None = None
    languages: Annotated[tuple[Language, ...], Field(min_length=1)] = LANGUAGES

    def written_in(self, wished: Language) -> Language:
        """Return the language in which whoever wishes for this one reads it."""
        return wished if wished in self.languages else self.languages[0]

    def ask(self, ask_id: str) -> Ask:
        """Return the ask by id; KeyError names what exists."""
        for ask in self.asks:
            if ask.id == ask_id:
                return ask
        raise KeyError(f"{self.id} has no ask {ask_id!r}; it has {', '.join(a.id for a in self.asks)}")

    def misconception(self, misconception_id: str) -> Misconception:
        """Return the misconception by id; KeyError names what exists."""
        for entry in self.misconceptions:
            if entry.id == misconception_id:
                return entry
        raise KeyError(f"{self.id} has no misconception {misconception_id!r}")


class Pack(Spec):
    """One topic's folder: its title and the order in which its families are shown."""

    format: Literal[1]
    id: Id
    version: Annotated[int, Field(ge=1)]
    title: Text
    summary: Text
    families: Annotated[tuple[Id, ...], Field(min_length=1)]


class Shared(Spec):
    """Words every pack may use: units, sides and points of the compass; invented airfields, aircraft and callers."""

    format: Literal[1]
    words: dict[Id, Text]
    airfields: Annotated[tuple[str, ...], Field(min_length=8)]
    aircraft: Annotated[tuple[str, ...], Field(min_length=8)]
