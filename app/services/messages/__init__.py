"""What use cases say to people, in both languages: what is wrong with this value, what is accepted, an example.

Each subject has its module here; its MESSAGES map a code to its English and its French.
"""

from collections.abc import Mapping

from app.packs.spec import Language, typeset
from app.questions.wording import tidy
from app.services.messages import (
    bench,
    classes,
    cohorts,
    deviation,
    exams,
    homes,
    members,
    own_questions,
    past_answers,
    people,
    practice,
    record,
    reports,
    sets,
    training,
)

Messages = Mapping[str, tuple[str, str]]


def _joined(*subjects: Messages) -> Messages:
    codes = [code for subject in subjects for code in subject]
    twice = {code for code in codes if codes.count(code) > 1}
    if twice:
        raise RuntimeError(f"said twice: {', '.join(sorted(twice))}")
    return {code: texts for subject in subjects for code, texts in subject.items()}


SUBJECTS = (
    bench,
    classes,
    cohorts,
    deviation,
    exams,
    homes,
    members,
    own_questions,
    past_answers,
    people,
    practice,
    record,
    reports,
    sets,
    training,
)
MESSAGES = _joined(*(subject.MESSAGES for subject in SUBJECTS))

LONGEST_QUOTE = 40


def say(code: str, language: Language, **values: object) -> str:
    """Return a message with its values filled in; a long value is cut, so that a page stays a page."""
    short = {name: _cut(str(value)) if name == "value" else value for name, value in values.items()}
    return tidy(typeset(MESSAGES[code][0 if language == "en" else 1]).format(**short), language)


def say_number(value: float, language: Language) -> str:
    """Write a number as the language does."""
    return f"{value:g}" if language == "en" else f"{value:g}".replace(".", ",")


def _cut(text: str) -> str:
    return text if len(text) <= LONGEST_QUOTE else text[:LONGEST_QUOTE] + "…"
