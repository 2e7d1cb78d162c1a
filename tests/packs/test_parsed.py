"""Parsed files are found again by their text alone, and what was kept is never trusted further than it can be read."""

import json
import tomllib
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest

from app.packs import parsed
from app.packs.load import load_library
from app.packs.parsed import Parsed
from tests.packs.test_load import REAL

TEXT = 'format = 1\nlow_deg = 12.5\n[title]\nen = "Heading"\nfr = "Cap"\n'


def test_packs_are_the_same_from_what_was_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    kept = tmp_path / "packs.json"
    first = Parsed(kept)
    fresh = load_library(REAL, first)
    first.keep()
    again: list[str] = []
    parse = tomllib.loads

    def loads(text: str) -> dict[str, Any]:
        again.append(text)
        return parse(text)

    monkeypatch.setattr(tomllib, "loads", loads)
    found = load_library(REAL, Parsed(kept))
    assert (found.packs, found.families, found.shared) == (fresh.packs, fresh.families, fresh.shared)
    assert [text for text in again if "checked = 2" not in text] == []  # a date is no JSON


def test_edited_text_is_parsed_anew_and_the_old_one_forgotten(tmp_path: Path) -> None:
    kept = tmp_path / "packs.json"
    for text, low in ((TEXT, 12.5), (TEXT.replace("12.5", "13"), 13)):
        parser = Parsed(kept)
        assert parser.loads(text)[0]["low_deg"] == low
        parser.keep()
        assert len(json.loads(kept.read_text("utf-8"))) == 1


def test_kept_file_is_checked_again_only_where_the_rules_of_texts_have_changed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    kept = tmp_path / "packs.json"
    parser = Parsed(kept)
    assert parser.loads(TEXT) == (tomllib.loads(TEXT), False)
    parser.keep()
    assert Parsed(kept).loads(TEXT) == (tomllib.loads(TEXT), True)
    monkeypatch.setattr(parsed, "_RULES", sha256(b"other rules"))
    assert Parsed(kept).loads(TEXT) == (tomllib.loads(TEXT), False)


@pytest.mark.parametrize("held", ["", "{", "[1]", "\udcff"])
def test_what_cannot_be_read_is_parsed(tmp_path: Path, held: str) -> None:
    kept = tmp_path / "packs.json"
    kept.write_bytes(held.encode("utf-8", "surrogateescape"))
    assert Parsed(kept).loads(TEXT) == (tomllib.loads(TEXT), False)


def test_folder_that_cannot_be_written_does_not_matter(tmp_path: Path) -> None:
    parser = Parsed(tmp_path / "nowhere" / "packs.json")
    assert parser.loads(TEXT)[0]["format"] == 1
    parser.keep()
