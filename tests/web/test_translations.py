"""Every text of the pages has its French, with the same blanks to fill in."""

import ast
import re
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

import pytest
from babel.messages import Catalog, Message
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import read_po

WEB = Path(__file__).parents[2] / "app" / "web"
FRENCH = sorted((WEB / "translations" / "fr" / "LC_MESSAGES").glob("*.po"))
FUNCTIONS = {"_": None, "gettext": None, "lazy_gettext": None, "ngettext": (1, 2)}
METHODS = [("**.py", "python"), ("templates/**.html", "jinja2")]
OPTIONS = {"templates/**.html": {"trim_blocks": "true", "lstrip_blocks": "true", "silent": "false"}}
BLANK = re.compile(r"%\(\w+\)[sd]")
# Spaces and marks of French as written in Canada (Office québécois de la langue française: no space before ? ! ;).
WRONG_FRENCH = re.compile(r" :|« | »|[ \u00a0][?!;]|[\"“”']")


def french() -> Iterator[Catalog]:
    for file in FRENCH:
        with file.open("rb") as stream:
            yield read_po(stream, "fr")


@lru_cache(maxsize=1)
def wanted() -> set[str | tuple[str, ...]]:
    found = extract_from_dir(WEB, METHODS, OPTIONS, FUNCTIONS)
    return {text if isinstance(text, str) else tuple(text[:2]) for _, _, text, _, _ in found}


@lru_cache(maxsize=1)
def messages() -> list[Message]:
    return [message for catalogue in french() for message in catalogue if message.id]


def strings(message: Message) -> Iterator[tuple[str, str]]:
    ids = [message.id] if isinstance(message.id, str) else list(message.id)
    texts = [message.string] if isinstance(message.string, str) else list(message.string or ())
    yield from zip(ids, texts, strict=True)


def test_every_text_has_its_french() -> None:
    missing = wanted() - {message.id for message in messages() if all(text for _, text in strings(message))}
    assert not missing


def test_no_text_stands_in_two_files() -> None:
    assert len({message.id for message in messages()}) == len(messages())


def test_nothing_is_left_over() -> None:
    assert not {message.id for message in messages()} - wanted()
    assert not [catalogue.obsolete for catalogue in french() if catalogue.obsolete]
    assert not [message.id for message in messages() if message.fuzzy]


@pytest.mark.parametrize("message", messages(), ids=lambda message: str(message.id)[:40])
def test_french_is_well_set(message: Message) -> None:
    for english, text in strings(message):
        assert sorted(BLANK.findall(english)) == sorted(BLANK.findall(text))
        assert not WRONG_FRENCH.findall(text)


def test_english_is_well_set() -> None:
    assert not [text for message in messages() for text, _ in strings(message) if re.search(r"[\"']|  | $", text)]


def test_every_text_in_the_code_is_found_by_extraction() -> None:
    """Inside an f-string, or put together from pieces, a text would stay English without anybody noticing."""
    known = {message.id for message in messages()}
    for file in WEB.rglob("*.py"):
        for node in ast.walk(ast.parse(file.read_text("utf-8"))):
            name = getattr(getattr(node, "func", None), "id", "")
            if isinstance(node, ast.Call) and name in FUNCTIONS:
                text = node.args[0]
                assert isinstance(text, ast.Constant), f"{file.name}:{node.lineno}"
                assert text.value in known, f"{file.name}:{node.lineno}"
