"""What real questions of the families look like to the learner model: drawn once, under one set of house rules."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from app.learner.difficulty import GRADES
from app.learner.evidence import Posed
from app.packs.library import Library
from app.packs.spec import Family
from app.questions.conventions import Conventions
from app.questions.draw import NoDraw, draw, offered_forms
from app.questions.model import LIST_FORMS, OPTION_FORMS, Item, NotOffered
from app.questions.values import agrees

DRAWS = 12  # of each answer form


@dataclass(frozen=True, slots=True)
class Shape:
    """A drawn item without its numbers: options (0: none are shown), and what its telling wrong answers show."""

    options: int
    listed: bool
    tells: tuple[tuple[str, ...], ...]

    @property
    def offered(self) -> tuple[str, ...]:
        """Every misconception that some answer would show."""
        return tuple(dict.fromkeys(name for names in self.tells for name in names))

    def posed(self, difficulty: float) -> Posed:
        """Return what the learner model has to know of the item."""
        return Posed(difficulty, self.options, self.offered, self.listed)


@dataclass(frozen=True, slots=True)
class Kin:
    """What the simulation takes of a family: how hard it is, its misconceptions, and items without and with options."""

    id: str
    difficulty: float
    misconceptions: tuple[str, ...]
    open: tuple[Shape, ...]
    closed: tuple[Shape, ...]

    @property
    def shapes(self) -> tuple[Shape, ...]:
        """All of its items."""
        return (*self.open, *self.closed)

    @property
    def showable(self) -> tuple[str, ...]:
        """The misconceptions that some of these items could show."""
        return tuple(dict.fromkeys(name for shape in self.shapes for name in shape.offered))

    def share_showing(self, misconception: str | None) -> float:
        """Return how many of the items an exam would ask, which have options where some have, could show it."""
        items = self.closed or self.open
        return sum(misconception in each.offered for each in items) / len(items)


def all_kin(library: Library, conventions: Conventions) -> tuple[Kin, ...]:
    """Return every real family that is offered under these house rules, as the simulation sees it."""
    found = (_kin(library, library.family(name), conventions) for name in sorted(library.families))
    return tuple(each for each in found if each.open or each.closed)


def _kin(library: Library, family: Family, conventions: Conventions) -> Kin:
    shapes = list(_shapes(library, family, conventions))
    open_ones, closed = (
        [each for each in shapes if bool(each.options) is with_options] for with_options in (False, True)
    )
    names = tuple(each.id for each in family.misconceptions)
    return Kin(family.id, GRADES[family.grade], names, tuple(open_ones), tuple(closed))


def _shapes(library: Library, family: Family, conventions: Conventions) -> Iterator[Shape]:
    for form in offered_forms(family):
        for seed in range(1, DRAWS + 1):
            try:
                yield shape_of(draw(library, family.id, seed, conventions, form))
            except NotOffered:
                return
            except NoDraw:
                continue


def shape_of(item: Item) -> Shape:
    """Return what an item looks like to the learner model."""
    options = len(item.options) if item.form in OPTION_FORMS else 0
    return Shape(options, item.form in LIST_FORMS, telling_answers(item))


def telling_answers(item: Item) -> tuple[tuple[str, ...], ...]:
    """Return the misconceptions behind each wrong answer; several where they lead to the same one.

    A choice has an entry for every wrong option, empty where no misconception leads to it; the other forms only for
    answers that tell something.
    """
    if item.form in OPTION_FORMS:
        return tuple(option.misconceptions for option in item.options if not option.correct)
    if item.form in LIST_FORMS:
        return tuple((name,) for name in dict.fromkeys(item.solution.slips.values()))
    return _by_value(item)


def _by_value(item: Item) -> tuple[tuple[str, ...], ...]:
    together: list[tuple[Any, list[str]]] = []
    for name, wrong in item.wrong_values():
        same = next((names for value, names in together if agrees(wrong.value, value, item.value)), None)
        if same is None:
            together.append((wrong.value, [name]))
        else:
            same.append(name)
    return tuple(tuple(names) for _, names in together)
