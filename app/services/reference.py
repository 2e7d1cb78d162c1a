"""The reference page: rules, formulas and worked examples, in one language, its numbers from the models."""

import tomllib
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

from app.packs.spec import Language, typeset
from app.questions.wording import tidy
from app.services.reference_examples import EXAMPLES

TEXTS = Path(__file__).with_name("reference.toml")


class ReferenceRule(NamedTuple):
    """One rule with its formulas, a worked example and where it comes from."""

    text: str
    formulas: tuple[str, ...]
    example: str
    source: str


class ReferenceSection(NamedTuple):
    """Rules that belong together."""

    title: str
    rules: tuple[ReferenceRule, ...]


@cache
def get_reference(language: Language) -> Sequence[ReferenceSection]:
    """Return every section; what the models give does not change while the program runs."""
    sections = tomllib.loads(typeset(TEXTS.read_text("utf-8")))["section"]
    return tuple(
        ReferenceSection(section["title"][language], tuple(_rule(entry, language) for entry in section["rule"]))
        for section in sections
    )


def _rule(entry: dict[str, Any], language: Language) -> ReferenceRule:
    example = entry["example"][language].format(**EXAMPLES[entry["values"]](language))
    formulas = tuple(entry["formula"][language].split("     "))
    return ReferenceRule(
        tidy(entry["text"][language], language), formulas, tidy(example, language), entry["source"][language]
    )
