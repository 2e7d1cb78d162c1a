"""Right and wrong answers to any item, as the fields of its form."""

from collections.abc import Mapping
from typing import Any

from app.packs.spec import ValueFormat
from app.physics.angles import shown
from app.questions.model import Item
from tests.questions.engine import library

Fields = dict[str, Any]


def right_answer(item: Item) -> Fields:
    return answer_with(item, item.key)


def wrong_answer(item: Item) -> Fields:
    """The value of a misconception, as far as there is one; else anything that is not the key."""
    if item.form in {"choice", "pick"}:
        return {"choice": str(next(i for i, option in enumerate(item.options) if not option.correct))}
    if item.form == "several":
        return answer_with(item, tuple(option.value for option in item.options if option.value not in item.key))
    if item.form == "order":
        return answer_with(item, tuple(reversed(item.key)))
    if item.form in {"groups", "match"}:
        groups = library().family(item.family).ask(item.ask).groups
        return answer_with(item, {code: next(g for g in groups if g != group) for code, group in item.key.items()})
    if item.form == "boxes":
        return answer_with(item, {name: other_than(value) for name, value in item.key.items()})
    return answer_with(item, next((wrong.value for _, wrong in item.wrong_values()), 45))


def other_than(value: Any) -> Any:
    return value if isinstance(value, str) else value + 7


def unlike_answer(item: Item) -> Fields:
    """A typed heading that is neither right nor what any misconception gives."""
    taken = {round(float(item.key))} | {round(float(wrong.value)) for _, wrong in item.wrong_values()}
    free = next(n for n in range(1, 361) if all(min((n - t) % 360, (t - n) % 360) > 5 for t in taken))
    return {"value": f"{free:03d}"}


def answer_with(item: Item, value: Any) -> Fields:
    """Return the fields of a form filled in with a value of the item."""
    values = [option.value for option in item.options]
    if item.form in {"choice", "pick"}:
        return {"choice": str(values.index(value))}
    if item.form == "several":
        return {"chosen": [str(values.index(each)) for each in value]}
    if item.form == "order":
        return {f"place_{i}": str(value.index(each) + 1) for i, each in enumerate(values)}
    if item.form in {"groups", "match"}:
        return {f"group_{i}": value[each] for i, each in enumerate(values)}
    if item.form == "boxes":
        return _boxes(library().family(item.family).ask(item.ask).parts, value)
    return {"value": typed(value, item.value), "side": side_of(value, item.value)}


def typed(value: Any, form: ValueFormat) -> str:
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


def side_of(value: Any, form: ValueFormat) -> str:
    if form.kind not in {"sided", "arc-minutes"}:
        return ""
    return form.sides[0] if value >= 0 else form.sides[1]


def _boxes(parts: Any, values: Mapping[str, Any]) -> Fields:
    fields = {part.id: typed(values[part.id], part) for part in parts}
    return fields | {f"{part.id}_side": side_of(values[part.id], part) for part in parts}
