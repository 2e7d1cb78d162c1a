"""The form of an own question: what was typed as plain data, and data as what stands in its fields."""

from collections.abc import Iterator, Mapping
from typing import Any

from app.packs.own_numbers import OwnAnswer, OwnNumber
from app.packs.own_reckoned import MOST_NUMBERS
from app.packs.own_reckoned import MOST_WRONG as MOST_FORMULAS
from app.packs.own_worded import MOST_WRONG
from app.packs.spec import LANGUAGES, Language
from app.questions.numbers import exact

ONCE = ("topic", "grade", "source")
IN_EACH_LANGUAGE = ("title", "situation", "question")
OF_MISTAKE = ("name", "did", "remedy")
OF_NUMBER, OF_ANSWER = tuple(OwnNumber.model_fields), tuple(OwnAnswer.model_fields)
EMPTY_NUMBER: Mapping[str, Any] = {"numbers": [], "answer": {"nearest": "1", "tolerance": "0"}, "wrong": []}


def read_sent(form: Mapping[str, str], language: Language) -> dict[str, Any]:
    """Return what was typed, without a language that nothing is written in; one of them, `language`, there must be."""
    typed = {name: value.strip() for name, value in form.items()}
    reckoned = "answer.formula" in typed
    data: dict[str, Any] = {name: typed.get(name, "") for name in ONCE}
    words = {each: _words(typed, each, reckoned=reckoned) for each in LANGUAGES}
    written = {each: found for each, found in words.items() if any(_used(found))} or {language: words[language]}
    formulas = [typed.get(f"wrong.{n}", "") for n in range(MOST_FORMULAS)] if reckoned else [""] * MOST_WRONG
    behind = [
        n
        for n, formula in enumerate(formulas)
        if formula or any(any(found["wrong"][n].values()) for found in written.values())
    ]
    if reckoned:
        data |= _reckoned(typed) | {"wrong": [formulas[n] for n in behind]}
    for each, found in written.items():
        own = [found["wrong"][n] for n in behind]
        data[each] = found | {"wrong": own if reckoned else [wrong for wrong in own if any(wrong.values())]}
    return data


def fill_fields(data: Mapping[str, Any], language: Language) -> Iterator[tuple[str, str]]:
    """Yield the form's fields with what stands in them, numbers as the language writes them."""
    yield from ((name, str(data.get(name) or "")) for name in ONCE)
    for n, number in enumerate(data.get("numbers", ())):
        yield from ((f"numbers.{n}.{name}", _written(number.get(name), language)) for name in OF_NUMBER)
    answer = data.get("answer", {})
    yield from ((f"answer.{name}", _written(answer.get(name), language)) for name in OF_ANSWER)
    yield from ((f"wrong.{n}", formula) for n, formula in enumerate(data.get("wrong", ())))
    yield "typed_only", "1" if data.get("typed_only") else ""
    for each in LANGUAGES:
        words = data.get(each) or {}
        yield from ((f"{each}.{name}", words.get(name, "")) for name in (*IN_EACH_LANGUAGE, "key"))
        yield f"{each}.why", "\n".join(words.get("why", ()))
        for n, one in enumerate(words.get("wrong", ())):
            yield from ((f"{each}.wrong.{n}.{name}", text) for name, text in one.items())


def _words(typed: Mapping[str, str], each: Language, *, reckoned: bool) -> dict[str, Any]:
    """Return what was typed in one language, with every wrong answer that the form has room for."""
    of_wrong, most = (OF_MISTAKE, MOST_FORMULAS) if reckoned else (("text", *OF_MISTAKE), MOST_WRONG)
    return {
        **{name: typed.get(f"{each}.{name}", "") for name in (*IN_EACH_LANGUAGE, *(() if reckoned else ("key",)))},
        "why": [line for line in typed.get(f"{each}.why", "").splitlines() if line.strip()],
        "wrong": [{name: typed.get(f"{each}.wrong.{n}.{name}", "") for name in of_wrong} for n in range(most)],
    }


def _used(words: Mapping[str, Any]) -> Iterator[object]:
    """Yield what is written in one language."""
    yield from (text for name, text in words.items() if name != "wrong")
    yield from (text for wrong in words["wrong"] for text in wrong.values())


def _reckoned(typed: Mapping[str, str]) -> dict[str, Any]:
    """Return the numbers that anything was typed of, and the answer; what is empty is left out."""
    rows = [{name: typed.get(f"numbers.{n}.{name}", "") for name in OF_NUMBER} for n in range(MOST_NUMBERS)]
    return {
        "numbers": [_filled(row) for row in rows if any(text for name, text in row.items() if name != "shown")],
        "answer": {"formula": ""} | _filled({name: typed.get(f"answer.{name}", "") for name in OF_ANSWER}),
        "typed_only": bool(typed.get("typed_only")),
    }


def _filled(row: Mapping[str, str]) -> dict[str, str]:
    return {name: text for name, text in row.items() if text}


def _written(value: object, language: Language) -> str:
    return exact(value, language) if isinstance(value, int | float) else str(value or "")
