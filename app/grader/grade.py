"""Marks a reply against the item's key and names the misconception whose value it equals."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from app.grader.reply import Reply
from app.packs.library import Library
from app.packs.spec import Part
from app.questions.model import OPTION_FORMS, Item, Wrong
from app.questions.values import agrees, distance


@dataclass(frozen=True, slots=True)
class PartGrade:
    """One box, or one thing ticked, sorted or matched; `followed`: right, but on an earlier wrong value."""

    id: str
    correct: bool
    followed: bool = False


@dataclass(frozen=True, slots=True)
class Grade:
    """The marks for one reply.

    share: from 0 to 1, the part of the marks earned. misconceptions: every one whose value the reply equals (several
    may share a value); empty when the reply is right or matches nothing.
    """

    correct: bool
    share: float
    misconceptions: tuple[str, ...] = ()
    parts: tuple[PartGrade, ...] = ()

    @property
    def matched(self) -> bool:
        """Whether a wrong reply is explained by a known misconception."""
        return bool(self.misconceptions)


def grade(library: Library, item: Item, reply: Reply) -> Grade:
    """Return the marks of a reply to an item."""
    if item.form == "several":
        return _grade_ticks(item, set(reply.value))
    if item.form in {"groups", "match"}:
        return _grade_places(item, reply.value)
    if item.form == "order":
        correct = tuple(reply.value) == tuple(item.key)
        names = tuple(name for name, wrong in item.wrong_values() if tuple(wrong.value) == tuple(reply.value))
        return Grade(correct, float(correct), () if correct else names)
    if item.form == "boxes":
        return _grade_boxes(library.family(item.family).ask(item.ask).parts, item, reply.value)
    if item.form in OPTION_FORMS:
        option = next(option for option in item.options if option.value == reply.value)
        return Grade(option.correct, float(option.correct), () if option.correct else option.misconceptions)
    correct = agrees(reply.value, item.key, item.value)
    return Grade(correct, float(correct), () if correct else diagnose(item, reply.value))


def diagnose(item: Item, value: Any) -> tuple[str, ...]:
    """Return the misconceptions whose wrong value a typed reply equals, within the tolerance: the nearest ones."""
    near = [
        (distance(value, wrong.value, item.value), name)
        for name, wrong in item.wrong_values()
        if agrees(value, wrong.value, item.value)
    ]
    return tuple(name for gap, name in near if gap <= min(near)[0] + 1e-9)


def _grade_ticks(item: Item, chosen: set[Any]) -> Grade:
    key = set(item.key)
    parts, slips = [], []
    for option in item.options:
        ticked = option.value in chosen
        right = ticked == (option.value in key)
        parts.append(PartGrade(str(option.value), right))
        if not right:
            slips.append(item.solution.slips.get((str(option.value), "chosen" if ticked else "left-out")))
    return _graded(parts, slips)


def _grade_places(item: Item, placed: Mapping[str, str]) -> Grade:
    parts, slips = [], []
    for code, group in placed.items():
        right = item.key[code] == group
        parts.append(PartGrade(code, right))
        if not right:
            slips.append(item.solution.slips.get((code, group)))
    return _graded(parts, slips)


def _grade_boxes(formats: tuple[Part, ...], item: Item, values: Mapping[str, Any]) -> Grade:
    follow = item.solution.follow(values) if item.solution.follow else {}
    parts: list[PartGrade] = []
    for form in formats:
        right = agrees(values[form.id], item.key[form.id], form)
        followed = not right and form.id in follow and agrees(values[form.id], follow[form.id], form)
        parts.append(PartGrade(form.id, right or followed, followed))
    wrong = next((part.id for part in parts if not part.correct), None)
    names = _box_misconceptions(formats, item, values, wrong) if wrong else ()
    return _graded(parts, list(names), all_right=all(part.correct and not part.followed for part in parts))


def _box_misconceptions(
    formats: tuple[Part, ...], item: Item, values: Mapping[str, Any], first_wrong: str
) -> tuple[str, ...]:
    """Return the misconceptions that give the value in the first wrong box."""
    form = next(part for part in formats if part.id == first_wrong)
    found: list[tuple[str, Wrong]] = [(n, w) for n, w in item.wrong_values() if first_wrong in w.value]
    return tuple(name for name, wrong in found if agrees(values[first_wrong], wrong.value[first_wrong], form))


def _graded(parts: list[PartGrade], slips: list[str | None], *, all_right: bool | None = None) -> Grade:
    share = sum(part.correct for part in parts) / len(parts)
    names = tuple(dict.fromkeys(slip for slip in slips if slip))
    correct = all(part.correct for part in parts) if all_right is None else all_right
    return Grade(correct, share, () if correct else names, tuple(parts))
