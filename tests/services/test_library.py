"""The shelf: a bad edit leaves the last good packs in use."""

import shutil
from pathlib import Path

import pytest

from app.packs.issues import PackProblems
from app.services.library import Shelf
from tests.questions.engine import PACKS

FAMILY = Path("datum/families/true-to-compass.toml")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return Path(shutil.copytree(PACKS, tmp_path / "packs"))


def break_family(folder: Path) -> str:
    file = folder / FAMILY
    good = file.read_text("utf-8")
    file.write_text(good.replace('grade = "easy"', 'grade = "trivial"'), "utf-8")
    return good


def test_good_edit_is_taken(folder: Path) -> None:
    shelf = Shelf(folder)
    before = shelf.library
    file = folder / FAMILY
    file.write_text(file.read_text("utf-8").replace("version = 1", "version = 2", 1), "utf-8")
    assert shelf.reload() == ()
    assert before.family("true-to-compass").version == 1
    assert shelf.library.family("true-to-compass").version == 2


def test_bad_edit_is_named_and_the_last_good_packs_stay(folder: Path) -> None:
    shelf = Shelf(folder)
    before = shelf.library
    good = break_family(folder)
    issues = shelf.reload()
    assert [(issue.file, issue.severity) for issue in issues] == [(FAMILY.as_posix(), "error")]
    assert shelf.library is before
    assert shelf.issues == issues
    (folder / FAMILY).write_text(good, "utf-8")
    assert shelf.reload() == ()
    assert shelf.issues == ()


def test_without_an_earlier_library_there_is_nothing_to_keep(folder: Path) -> None:
    break_family(folder)
    with pytest.raises(PackProblems, match=r"true-to-compass\.toml:\d+: error"):
        Shelf(folder)


def test_missing_folder_is_a_problem_of_the_packs(tmp_path: Path) -> None:
    with pytest.raises(PackProblems):
        Shelf(tmp_path / "nowhere")
