"""Right and wrong answers to any item, as the fields of its form."""

from typing import Any

from app.grader.made_up import fields_of
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
    """Return the fields of a form filled in with a value of the item; what is sent once as plain text."""
    fields = fields_of(library(), item, value)
    return {name: sent[0] if len(sent) == 1 and name != "chosen" else sent for name, sent in fields.items()}
