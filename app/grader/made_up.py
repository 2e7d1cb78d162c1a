"""Replies of nobody: what a made-up learner would send, for the demonstration, the simulator and tests."""

from collections.abc import Collection, Mapping, Sequence
from random import Random
from typing import Any

from app.packs.library import Library
from app.packs.spec import Part, ValueFormat
from app.physics.angles import shown
from app.questions.model import LIST_FORMS, OPTION_FORMS, Item
from app.questions.values import agrees

Fields = dict[str, list[str]]
STRAY = 7


def fields_of(library: Library, item: Item, value: Any) -> Fields:
    """Return the fields of the item's form, filled in with a value in the item's own terms."""
    values = [option.value for option in item.options]
    if item.form in OPTION_FORMS:
        return {"choice": [str(values.index(value))]}
    if item.form == "several":
        return {"chosen": [str(values.index(each)) for each in value]}
    if item.form == "order":
        return {f"place_{i}": [str(list(value).index(each) + 1)] for i, each in enumerate(values)}
    if item.form in {"groups", "match"}:
        return {f"group_{i}": [value[each]] for i, each in enumerate(values)}
    if item.form == "boxes":
        return _boxes(library.family(item.family).ask(item.ask).parts, value)
    return {"value": [_typed(value, item.value)], "side": [_side(value, item.value)]}


def wrong_value(library: Library, item: Item, rng: Random, held: Collection[str] = ()) -> Any:
    """Return a wrong value: of a misconception that is held where the item can show it, else any."""
    if item.form in OPTION_FORMS:
        wrong = [option for option in item.options if not option.correct]
        tempting = [option for option in wrong if set(option.misconceptions) & set(held)]
        return _pick(tempting or wrong, rng).value
    if item.form in LIST_FORMS:
        return _wrong_list(library, item, rng, held)
    known = {name: wrong.value for name, wrong in item.wrong_values() if not agrees(wrong.value, item.key, item.value)}
    mine = [value for name, value in known.items() if name in held]
    if item.form == "boxes":
        return _wrong_boxes(item, mine)
    if item.form == "order":
        return _pick(mine or [tuple(reversed(item.key))], rng)
    return _pick(mine or list(known.values()) or [45], rng)


def _wrong_list(library: Library, item: Item, rng: Random, held: Collection[str]) -> Any:
    """Return what is ticked, sorted or matched by somebody who slips where the misconceptions lead, else anywhere."""
    slips = {code: place for (code, place), name in item.solution.slips.items() if name in held}
    slips = slips or _any_slip(library, item, rng)
    if item.form == "several":
        ticked = tuple(each.value for each in item.options if (each.value in item.key) != (each.value in slips))
        return ticked or tuple(each.value for each in item.options if not each.correct)
    return {**item.key, **slips}


def _any_slip(library: Library, item: Item, rng: Random) -> dict[str, str]:
    code = str(_pick([option.value for option in item.options], rng))
    if item.form == "several":
        return {code: "left-out" if code in item.key else "chosen"}
    groups = library.family(item.family).ask(item.ask).groups
    return {code: _pick([each for each in groups if each != item.key[code]], rng)}


def _wrong_boxes(item: Item, mine: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    """Return boxes that are wrong from where a misconception sets in, and what follows from it; else all wrong."""
    if not mine:
        return {name: value if isinstance(value, str) else value + STRAY for name, value in item.key.items()}
    values = {**item.key, **mine[0]}
    follow = item.solution.follow
    return {**values, **follow(values), **mine[0]} if follow else values


def _pick(values: Sequence[Any], rng: Random) -> Any:
    return values[int(rng.random() * len(values))]


def _typed(value: Any, form: ValueFormat) -> str:
    """Write a value as a student types it."""
    if form.kind == "code":
        return str(value)
    if form.kind == "heading":
        return f"{shown(value):03d}"
    if form.kind == "arc-minutes":
        return "{} {:02d}".format(*divmod(round(abs(value)), 60))
    if form.kind == "clock":
        return "{:02d}{:02d}".format(*divmod(round(value), 60))
    if form.kind == "sided":
        value = abs(value)
    return f"{value:.{max(form.decimals, 1)}f}" if form.kind != "runway" else f"{value:02.0f}"


def _side(value: Any, form: ValueFormat) -> str:
    if form.kind not in {"sided", "arc-minutes"}:
        return ""
    return form.sides[0] if value >= 0 else form.sides[1]


def _boxes(parts: Sequence[Part], values: Mapping[str, Any]) -> Fields:
    fields = {part.id: [_typed(values[part.id], part)] for part in parts}
    return fields | {f"{part.id}_side": [_side(values[part.id], part)] for part in parts}
