"""The file of syllabuses: found wrong as a whole, with what is wrong; every line a family serves is stated in it."""

from pathlib import Path

import pytest

from app.packs.issues import PackProblems
from app.packs.load import load_library
from app.packs.syllabus import Syllabuses
from tests.questions.engine import PACKS, library

LINES = '[{name = "Paper 1", text = {en = "Drift", fr = "Dérive"}}]'
TITLE = '{en = "Paper", fr = "Papier"}'
DOCUMENT = f'[[documents]]\nid = "paper"\ntitle = {TITLE}\nseen = "memory"\nchecked = 2026-11-25\nlines = {LINES}\n'
SYLLABUS = '[[syllabuses]]\nid = "ours"\ntitle = {en = "Ours", fr = "Le nôtre"}\ndocuments = ["paper"]\n'


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (f"format = 1\n{DOCUMENT}{DOCUMENT}", "'paper' stands twice"),
        ("format = 1\n" + SYLLABUS, "names the document 'paper'"),
        (f'format = 1\n{DOCUMENT}{SYLLABUS}served_as = "theirs"\n', "served as 'theirs'"),
        (f"format = 2\n{DOCUMENT}", "this version reads format 1"),
        (f"format = 1\n{DOCUMENT}".replace(', fr = "Dérive"', ""), "both languages"),
        (f"format = 1\n{DOCUMENT}".replace("memory", "hearsay"), "seen"),
    ],
)
def test_a_wrong_file_is_refused_with_its_name(tmp_path: Path, text: str, told: str) -> None:
    (tmp_path / "shared.toml").write_bytes((PACKS / "shared.toml").read_bytes())
    (tmp_path / "syllabus.toml").write_text(text, "utf-8")
    with pytest.raises(PackProblems, match=r"syllabus\.toml:\d+: error") as caught:
        load_library(tmp_path)
    assert told in str(caught.value)


def test_lines_must_be_stated_for_their_syllabus() -> None:
    file = Syllabuses.model_validate({
        "format": 1,
        "documents": [
            {"id": "paper", "title": {"en": "P", "fr": "Q"}, "seen": "memory", "checked": "2026-11-25",
             "lines": [{"name": "Paper 1", "text": {"en": "a", "fr": "b"}}]},
        ],
        "syllabuses": [{"id": "ours", "title": {"en": "a", "fr": "b"}, "documents": ["paper"]}],
    })  # fmt: skip
    assert list(file.problems({"ours": ("Paper 1",), "extension": ("Paper 1",)})) == []
    found = [rule for rule, _ in file.problems({"ours": ("Paper 2",), "theirs": ()})]
    assert found == ["unknown-syllabus-line", "unknown-syllabus-tag"]


@pytest.mark.parametrize("family_id", sorted(library().families))
def test_every_family_serves_stated_lines(family_id: str) -> None:
    served = library().family(family_id).syllabus
    assert served
    assert list(library().syllabuses.problems(served)) == []
