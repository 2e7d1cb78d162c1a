"""Reads what a student sent. A value that cannot be read gets a sentence naming it and what is accepted."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from app.grader.phrases import phrase
from app.packs.library import Library
from app.packs.spec import Ask, Language, ValueFormat
from app.physics.angles import difference
from app.questions.model import OPTION_FORMS, Item

LONGEST = 60
LARGEST = 1_000_000
Fields = Mapping[str, Sequence[str]]


class BadReply(ValueError):
    """The reply cannot be read; the message, in the student's language, names the value and what is accepted."""

    def __init__(self, message: str, field: str) -> None:
        super().__init__(message)
        self.message = message
        self.field = field


@dataclass(frozen=True, slots=True)
class Reply:
    """A reply that can be graded: its value in the item's own terms, and the text as it was typed."""

    value: Any
    text: str = ""

    def as_json(self) -> dict[str, Any]:
        """Return plain values for storing; `from_json` takes them back."""
        return {"value": self.value, "text": self.text}

    @classmethod
    def from_json(cls, stored: Mapping[str, Any]) -> "Reply":
        """Take back what `as_json` gave; lists become tuples again."""
        value = stored["value"]
        return cls(tuple(value) if isinstance(value, list) else value, stored["text"])


@dataclass(frozen=True, slots=True)
class _Reader:
    """Holds what every reading needs: the item, its ask, the fields and the language of messages."""

    library: Library
    item: Item
    ask: Ask
    fields: Fields
    language: Language

    def first(self, name: str) -> str:
        text = (self.fields.get(name) or [""])[0].strip()
        if len(text) > LONGEST:
            raise BadReply(phrase("too-long", self.language, value=len(text)), name)
        return text

    def fail(self, code: str, field: str, **values: object) -> BadReply:
        return BadReply(phrase(code, self.language, **values), field)


def parse_reply(library: Library, item: Item, fields: Fields, language: Language) -> Reply:
    """Return the reply; raises BadReply.

    Fields by form: choice, pick: `choice` (a position). typed: `value` and `side`. several: `chosen`, repeated. order:
    `place_0` ... groups, match: `group_0` ... boxes: each part's id, and `<id>_side`.
    """
    ask = library.family(item.family).ask(item.ask)
    reader = _Reader(library, item, ask, fields, language)
    if item.form in OPTION_FORMS:
        position = _position(reader, reader.first("choice"), "choice")
        return Reply(item.options[position].value)
    if item.form == "typed":
        value = read_number(reader, item.value, "value", item.key)
        return Reply(value, reader.first("value"))
    if item.form == "several":
        chosen = fields.get("chosen") or []
        if not chosen:
            raise reader.fail("nothing", "chosen")
        positions = {_position(reader, each.strip()[:LONGEST], "chosen") for each in chosen}
        return Reply(tuple(item.options[position].value for position in sorted(positions)))
    if item.form == "order":
        return _read_order(reader)
    if item.form == "boxes":
        values = {part.id: read_number(reader, part, part.id, item.key[part.id]) for part in ask.parts}
        return Reply(values)
    return _read_groups(reader)


def _position(reader: _Reader, text: str, field: str) -> int:
    if not text:
        raise reader.fail("nothing", field)
    if not re.fullmatch(r"\d{1,2}", text, re.ASCII) or int(text) >= len(reader.item.options):
        raise reader.fail("choice", field, value=text, count=len(reader.item.options))
    return int(text)


def _read_order(reader: _Reader) -> Reply:
    count = len(reader.item.options)
    places = [reader.first(f"place_{i}") for i in range(count)]
    if sorted(places) != sorted(str(n) for n in range(1, count + 1)):
        given = ", ".join(place or "–" for place in places)
        raise reader.fail("order", "place_0", count=count, value=given)
    by_place = sorted(zip(places, reader.item.options, strict=True), key=lambda pair: int(pair[0]))
    return Reply(tuple(option.value for _, option in by_place))


def _read_groups(reader: _Reader) -> Reply:
    family = reader.library.family(reader.item.family)
    groups = {}
    for i, option in enumerate(reader.item.options):
        group = reader.first(f"group_{i}")
        if group not in reader.ask.groups:
            word = reader.library.word(str(option.value), reader.language, family)
            raise reader.fail("group", f"group_{i}", value=word)
        groups[str(option.value)] = group
    return Reply(groups)


def read_number(reader: _Reader, form: ValueFormat, field: str, key: Any) -> Any:
    """Return a typed value by its format; raises BadReply. The example in a message is never near the key."""
    text = reader.first(field)
    if form.kind == "code":
        return _read_code(reader, form, field, text)
    accepted = _accepted(form, key, reader.language)
    if not text:
        raise reader.fail("nothing-typed", field, accepted=accepted)
    if form.kind in {"sided", "arc-minutes"}:
        return _read_sided(reader, form, field, accepted)
    value = _READERS[form.kind](text)
    if value is None:
        raise reader.fail("not-a", field, value=text, accepted=accepted)
    return value


def _read_code(reader: _Reader, form: ValueFormat, field: str, text: str) -> str:
    """Return a code picked from the format's `sides`, which list what may be picked."""
    if text not in form.sides:
        words = ", ".join(reader.library.word(side, reader.language) for side in form.sides)
        raise reader.fail("side", field, sides=words)
    return text


def _read_sided(reader: _Reader, form: ValueFormat, field: str, accepted: str) -> float:
    text, side = reader.first(field), reader.first(f"{field}_side") or reader.first("side")
    if not side and form.sides == ("east", "west") and (match := re.fullmatch(r"(.+?)\s*([EeWwOo])", text)):
        text, side = match[1], "east" if match[2] in "Ee" else "west"
    size = (_arc if form.kind == "arc-minutes" else _plain)(text)
    if size is None or size < 0:
        raise reader.fail("not-a", field, value=text, accepted=accepted)
    if size == 0:
        return 0.0
    if side not in form.sides:
        words = ", ".join(reader.library.word(each, reader.language) for each in form.sides)
        raise reader.fail("side", "side" if field == "value" else f"{field}_side", sides=words)
    return size if side == form.sides[0] else -size


def _heading(text: str) -> float | None:
    text = text.removesuffix("°")
    if not re.fullmatch(r"\d{1,3}", text, re.ASCII) or int(text) > 360:
        return None
    return float(int(text) or 360)


def _plain(text: str) -> float | None:
    text = re.sub(r"[\s\u00a0\u202f]|°$", "", text).replace("\u2212", "-").replace(",", ".")
    if not re.fullmatch(r"[+-]?(\d+\.?\d*|\.\d+)", text, re.ASCII):
        return None
    value = float(text)
    return value if abs(value) <= LARGEST else None


def _arc(text: str) -> float | None:
    match = re.fullmatch(r"(\d{1,3})(?:\s*[°\s:]\s*(\d{1,2})\s*['′]?)?\s*°?", text, re.ASCII)
    if not match or int(match[2] or 0) >= 60:
        return None
    return 60.0 * int(match[1]) + int(match[2] or 0)


def _clock(text: str) -> float | None:
    match = re.fullmatch(r"(\d{1,2})\s*[:hH]?\s*(\d{2})\s*[zZ]?", text, re.ASCII)
    if not match or int(match[1]) > 23 or int(match[2]) > 59:
        return None
    return 60.0 * int(match[1]) + int(match[2])


def _runway(text: str) -> float | None:
    if not re.fullmatch(r"\d{1,2}", text, re.ASCII) or not 1 <= int(text) <= 36:
        return None
    return float(int(text))


_READERS = {"heading": _heading, "number": _plain, "clock": _clock, "runway": _runway}


def _accepted(form: ValueFormat, key: Any, language: Language) -> str:
    """Say what the box takes, with an example far from the key."""
    if form.kind == "heading":
        far = next(each for each in (45, 225) if abs(difference(each, float(key))) > 30)
        return phrase("heading", language, example=f"{far:03d}")
    if form.kind == "arc-minutes":
        return phrase("arc", language, example="3° 20′" if abs(float(key)) > 480 else "31° 20′")
    if form.kind == "clock":
        return phrase("clock", language, example="0905" if float(key) > 780 else "1905")
    if form.kind == "runway":
        return phrase("runway", language, example="04" if 9 < float(key) < 32 else "22")
    half = {"en": ".5", "fr": ",5"}[language] if form.decimals else ""
    example = f"{12 if abs(float(key)) > 40 else 75}{half}"
    return phrase("size" if form.kind == "sided" else "number", language, example=example)
