"""What solvers return and what an item is. Values are plain numbers and codes; words come later, in either language."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from app.figures.model import FigureCall
from app.packs.spec import Form, ValueFormat
from app.questions.conventions import Conventions

# A number, a code, a pair (tuple), a set or order of codes (tuple), or a mapping for groups, match and boxes.
Value = Any
OPTION_FORMS: frozenset[Form] = frozenset({"choice", "pick"})  # one of the options that are shown is chosen
LIST_FORMS: frozenset[Form] = frozenset({"several", "groups", "match"})  # things are ticked, sorted or matched


class Redraw(Exception):
    """These parameters make no fair question (the reason says why): draw others."""


class NotOffered(Exception):
    """The family makes no question under these conventions; `reason` is a code with a text in shared words."""

    def __init__(self, family: str, reason: str) -> None:
        super().__init__(f"{family} is not offered here: {reason}")
        self.family = family
        self.reason = reason


@dataclass(frozen=True, slots=True)
class Wrong:
    """The exact value a misconception leads to.

    `more`: further quantities for its sentence. `figure`: parameters that show its path in the verdict's figures.
    `option` is False where it is diagnosed when typed, never offered, such as a value no pilot could enter or read.
    """

    value: Value
    more: Mapping[str, Any] = field(default_factory=dict)
    figure: Mapping[str, Any] = field(default_factory=dict)
    option: bool = True


@dataclass(frozen=True, slots=True)
class Step:
    """One line of the working, by the id of its text; `more` holds numbers of this line alone."""

    line: str
    more: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Solution:
    """What a solver works out from parameters and conventions.

    given: every number that stem or figure shows, under the project's one vocabulary of names; enough to recompute.
    quantities: further numbers for texts, never shown before the answer.
    options: the whole set offered, where a form always offers the same set; `wrong` then names what is behind it.
    slips: for several, groups and match: (item code, wrong place or "chosen" / "left-out") -> misconception id.
        What is true and left out has one only where a belief leaves it out; else the verdict says that it is true.
    follow: for boxes: the student's earlier values -> the values later boxes then should hold.
    """

    key: Value
    given: Mapping[str, Any]
    steps: tuple[Step | str, ...]
    wrong: Mapping[str, Value | Wrong] = field(default_factory=dict)
    quantities: Mapping[str, Any] = field(default_factory=dict)
    options: tuple[Value, ...] = ()
    slips: Mapping[tuple[str, str], str] = field(default_factory=dict)
    follow: Callable[[Mapping[str, Any]], Mapping[str, Any]] | None = None
    figures: tuple[FigureCall, ...] = ()
    verdict_figures: tuple[FigureCall, ...] = ()
    model_notes: tuple[str, ...] = ()
    model_value: Value | None = None
    by_rule: bool = False
    tolerance: float | None = None
    forms: tuple[Form, ...] = ()
    scene: str = ""
    features: Mapping[str, float] = field(default_factory=dict)


Solver = Callable[[Mapping[str, Any], Conventions], Solution]


@dataclass(frozen=True, slots=True)
class Option:
    """One offered value; several misconceptions may lead to the same one."""

    value: Value
    misconceptions: tuple[str, ...] = ()
    correct: bool = False


@dataclass(frozen=True, slots=True)
class Item:
    """One drawn question, without words: family, version, seed, conventions and form decide all of it, for ever."""

    family: str
    pack: str
    pack_version: int
    version: int
    seed: int
    conventions: Conventions
    ask: str
    form: Form
    value: ValueFormat
    solution: Solution
    options: tuple[Option, ...]
    scene: int
    scenery: Mapping[str, str]
    attempts: int = 1
    lost: int = 0

    @property
    def parameters(self) -> Mapping[str, Any]:
        """Every number that stem or figure shows."""
        return self.solution.given

    @property
    def key(self) -> Value:
        """The right value; it never leaves the server before grading."""
        return self.solution.key

    @property
    def tolerance(self) -> float:
        """How far from the key a typed number still counts."""
        return self.value.tolerance

    @property
    def misconceptions(self) -> frozenset[str]:
        """Every misconception that some answer to this item shows."""
        if self.form in OPTION_FORMS:
            return frozenset(name for option in self.options for name in option.misconceptions)
        if self.form in LIST_FORMS:
            return frozenset(self.solution.slips.values())
        return frozenset(self.solution.wrong)

    def wrong_values(self) -> list[tuple[str, Wrong]]:
        """Return every misconception with the value it leads to."""
        return [(k, w if isinstance(w, Wrong) else Wrong(w)) for k, w in self.solution.wrong.items()]
