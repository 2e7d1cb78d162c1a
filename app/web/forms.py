"""Form fields that read numbers as people write them and say, in their language, what they take."""

import re
from collections.abc import Sequence
from typing import Any

from flask_babel import gettext
from wtforms import Field, Form
from wtforms.widgets import TextInput

from app.services.errors import Invalid

LONGEST_QUOTE = 40
BARE = re.compile(r"\d{1,3}(?:\.\d{0,8})?|\.\d{1,8}", re.ASCII)
SIGNED = re.compile(rf"[+-]?(?:{BARE.pattern})", re.ASCII)
PLAIN = str.maketrans({"\u2212": "-", ",": ".", "°": None, " ": None, "\u00a0": None})


def cut(text: str) -> str:
    """Return a text short enough to be quoted in a message."""
    return text if len(text) <= LONGEST_QUOTE else f"{text[:LONGEST_QUOTE]}…"


def mark_refused(form: Form, refusal: Invalid) -> None:
    """Say at each field what a use case cannot accept in it; what could not even be read keeps saying so."""
    for each in (refusal, *refusal.others):
        form[each.field].errors = form[each.field].errors or [each.message]


class CoordinateField(Field):  # type: ignore[misc] # the library has no types
    """Decimal degrees with a point or a comma, and a sign or a letter; `letters` are those of plus and of minus."""

    widget = TextInput()

    def __init__(self, label: object = None, letters: tuple[str, str] = ("", ""), **options: Any) -> None:
        super().__init__(label, **options)
        self.letters = letters
        self.text: str | None = None

    def _value(self) -> str:
        if self.text is not None:
            return self.text
        return "" if self.data is None else str(self.data)

    def process_formdata(self, valuelist: Sequence[str]) -> None:
        """Read what was typed; nothing stays None."""
        self.text = valuelist[0].strip() if valuelist else ""
        self.data = self._read(self.text) if self.text else None

    def _read(self, text: str) -> float:
        plain = text.translate(PLAIN).upper() if len(text) <= LONGEST_QUOTE else ""
        letter = plain[-1:] if plain[-1:].isalpha() else ""
        number = plain.removesuffix(letter)
        if letter not in "".join(self.letters) or not (BARE if letter else SIGNED).fullmatch(number):
            message = gettext(
                "“%(value)s” is not a number of degrees. Accepted: decimal degrees, such as 45.32 or -75.67.",
                value=cut(text),
            )
            raise ValueError(message)
        return -float(number) if letter and letter in self.letters[1] else float(number)


class WholeNumberField(Field):  # type: ignore[misc] # the library has no types
    """A whole number of at most six digits; nothing stays None."""

    widget = TextInput()

    def __init__(self, label: object = None, **options: Any) -> None:
        super().__init__(label, **options)
        self.text: str | None = None

    def _value(self) -> str:
        if self.text is not None:
            return self.text
        return "" if self.data is None else str(self.data)

    def process_formdata(self, valuelist: Sequence[str]) -> None:
        """Read what was typed."""
        self.text = valuelist[0].strip() if valuelist else ""
        if not self.text:
            self.data = None
        elif re.fullmatch(r"-?[0-9]{1,6}", self.text.translate(PLAIN)):
            self.data = int(self.text.translate(PLAIN))
        else:
            message = gettext("“%(value)s” is not a whole number. Accepted: digits, such as 10.", value=cut(self.text))
            raise ValueError(message)
