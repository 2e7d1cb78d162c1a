"""Hand-written questions: read like families, checked like families, with the same findings when they are wrong."""

from pathlib import Path

import pytest

from app.grader.explain import explain
from app.grader.grade import grade
from app.grader.reply import parse_reply
from app.packs.issues import PackProblems
from app.packs.library import Library
from app.packs.load import load_library
from app.questions.checks.run import check_family
from app.questions.draw import draw
from tests.questions.engine import PACKS, home, library

QUESTION = "why-deviation-changes"
LONG_KEY = "The aircraft's own magnetism, that of its steel and of whatever lies in the cabin, always turns"
FILE = f"principle/fixed/{QUESTION}.toml"


def changed(folder: Path, old: str, new: str) -> Path:
    """Copy the shared words, syllabuses and one hand-written question with a change."""
    for name in ("shared.toml", "syllabus.toml"):
        (folder / name).write_bytes((PACKS / name).read_bytes())
    (folder / FILE).parent.mkdir(parents=True)
    text = (PACKS / FILE).read_text("utf-8")
    assert old in text
    (folder / FILE).write_text(text.replace(old, new), "utf-8")
    (folder / "principle/pack.toml").write_text(
        f'format = 1\nid = "principle"\nversion = 1\nfamilies = ["{QUESTION}"]\n'
        'title = {en = "T", fr = "T"}\nsummary = {en = "S", fr = "S"}\n'
    )
    return folder


def findings(packs: Library) -> set[str]:
    return {issue.rule for issue in check_family(packs, QUESTION, [home()], 120).issues}


def test_is_checked_like_a_family() -> None:
    assert findings(library()) == set()


def test_every_option_explains_itself() -> None:
    item = draw(library(), QUESTION, 3, home())
    for position, option in enumerate(item.options):
        reply = parse_reply(library(), item, {"choice": [str(position)]}, "fr")
        told = explain(library(), item, reply, grade(library(), item, reply), "fr")
        assert len(told.working) == 3
        assert [finding.id for finding in told.findings] == list(option.misconceptions)


def test_options_are_shuffled_by_the_seed() -> None:
    places = {
        next(i for i, option in enumerate(draw(library(), QUESTION, seed, home()).options) if option.correct)
        for seed in range(40)
    }
    assert places == {0, 1, 2, 3}


@pytest.mark.parametrize(
    ("old", "new", "rule"),
    [
        ('id = "liquid-drag"', 'id = "field-per-heading"', "duplicate-id"),
        ("TP 12880 Definitions 10", "TP 12880 Definitions 99", "unknown-syllabus-line"),
        ("The aircraft's own magnetism turns", LONG_KEY, "test-wise"),
        ("{{ aircraft }}", "{{ nobody }}", "cannot-write"),
    ],
)  # fmt: skip
def test_wrong_ones_are_found_by_the_checks(tmp_path: Path, old: str, new: str, rule: str) -> None:
    assert rule in findings(load_library(changed(tmp_path, old, new)))


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("[[wrong]]", "[[wrongs]]", "wrong"),
        ('topic = "principle"', 'topic = "datum"', "the pack is 'principle'"),
        ('grade = "medium"', 'grade = "middling"', "grade"),
        ("{{ aircraft }}", "{{ aircraft.upper() }}", "is not allowed"),
    ],
)  # fmt: skip
def test_wrong_ones_do_not_load(tmp_path: Path, old: str, new: str, told: str) -> None:
    with pytest.raises(PackProblems, match=rf"{FILE}:\d+: error") as caught:
        load_library(changed(tmp_path, old, new))
    assert told in str(caught.value)
