"""The shelf: a bad edit leaves the last good packs in use."""

import shutil
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from app.packs.issues import PackProblems
from app.services.library import LOOK_AGAIN_AFTER, Shelf
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


def test_a_fault_in_a_text_is_named_at_every_start(folder: Path, tmp_path: Path) -> None:
    kept = tmp_path / "packs.json"
    Shelf(folder, kept)
    file = folder / FAMILY
    file.write_text(file.read_text("utf-8").replace("{{ ", "{{ 2 * ", 1), "utf-8")
    for _ in range(2):
        with pytest.raises(PackProblems, match=r"true-to-compass\.toml:\d+: error"):
            Shelf(folder, kept)


def test_missing_folder_is_a_problem_of_the_packs(tmp_path: Path) -> None:
    with pytest.raises(PackProblems):
        Shelf(tmp_path / "nowhere")


def test_a_running_server_takes_a_good_edit_at_its_next_look(folder: Path, now: datetime) -> None:
    shelf = Shelf(folder)
    before = shelf.library_at(now)
    file = folder / FAMILY
    file.write_text(file.read_text("utf-8").replace("version = 1", "version = 22", 1), "utf-8")
    assert shelf.library_at(now + LOOK_AGAIN_AFTER - timedelta(microseconds=1)) is before
    after = shelf.library_at(now + LOOK_AGAIN_AFTER)
    assert after.family("true-to-compass").version == 22
    assert shelf.library_at(now + 3 * LOOK_AGAIN_AFTER) is after, "nothing has changed: nothing is read"


def test_a_running_server_keeps_the_last_good_packs_until_they_are_mended(
    folder: Path, now: datetime, caplog: pytest.LogCaptureFixture
) -> None:
    shelf = Shelf(folder)
    before = shelf.library
    good = break_family(folder)
    (folder / "wind/pack.toml").write_text("x" * 5_000_000, "utf-8")
    assert shelf.library_at(now) is before
    assert {issue.rule for issue in shelf.issues} >= {"schema", "file-size"}
    assert "true-to-compass.toml" in caplog.text
    assert "wind/pack.toml" in caplog.text
    (folder / FAMILY).write_text(good, "utf-8")
    (folder / "wind/pack.toml").write_bytes((PACKS / "wind/pack.toml").read_bytes())
    assert shelf.library_at(now + LOOK_AGAIN_AFTER) is not before
    assert shelf.issues == ()
