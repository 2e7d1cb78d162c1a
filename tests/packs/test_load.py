"""Bad packs: every error at once, with its file and line; nothing is loaded by halves."""

from pathlib import Path

import pytest

from app.packs.issues import PackProblems
from app.packs.load import LARGEST_FILE_BYTES, load_library, read_library
from app.packs.locate import line_of
from app.packs.templates import read_template

REAL = Path(__file__).parents[2] / "question_packs"
FAMILY = "datum/families/true-to-compass.toml"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Copy the shared words and one family, as a pack of its own."""
    (tmp_path / "datum/families").mkdir(parents=True)
    (tmp_path / "shared.toml").write_text((REAL / "shared.toml").read_text())
    (tmp_path / FAMILY).write_text((REAL / FAMILY).read_text())
    (tmp_path / "datum/pack.toml").write_text(
        'format = 1\nid = "datum"\nversion = 1\nfamilies = ["true-to-compass"]\n'
        'title = {en = "T", fr = "T"}\nsummary = {en = "S", fr = "S"}\n'
    )
    return tmp_path


def change(folder: Path, old: str, new: str, file: str = FAMILY) -> None:
    text = (folder / file).read_text()
    assert old in text
    (folder / file).write_text(text.replace(old, new, 1))


def findings(folder: Path) -> list[tuple[str, int, str]]:
    with pytest.raises(PackProblems) as caught:
        load_library(folder)
    return [(issue.rule, issue.line, issue.file) for issue in caught.value.issues]


def line_with(folder: Path, text: str, file: str = FAMILY) -> int:
    lines = (folder / file).read_text().splitlines()
    return next(number for number, line in enumerate(lines, 1) if text in line)


def test_real_packs_load() -> None:
    library = load_library(REAL)
    assert library.pack_of("true-to-compass").id == "datum"


def test_good_folder_loads(folder: Path) -> None:
    assert list(load_library(folder).families) == ["true-to-compass"]


def test_missing_french_names_its_line(folder: Path) -> None:
    change(
        folder,
        'title = {en = "True to magnetic to compass", fr = ',
        'title = {en = "True to magnetic to compass", de = ',
    )
    rules = findings(folder)
    line = line_with(folder, ", de = ")
    assert ("missing-language", line, FAMILY) in rules
    assert ("schema", line, FAMILY) in rules


def test_unknown_key_is_an_error_with_advice(folder: Path) -> None:
    change(folder, "solver = ", "solvers = ")
    _, issues = read_library(folder)
    assert any("Did you mean 'solver'?" in str(issue) for issue in issues)


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("{{ aircraft }} is to fly a magnetic", "{% for x in y %}{% endfor %}", "for block is not allowed"),
        ("{{ aircraft }} is to fly a magnetic", "{{ aircraft.__class__ }}", "getattr is not allowed"),
        ("{{ aircraft }} is to fly a magnetic", "{{ 1 + 1 }}", "add is not allowed"),
        ("{{ magnetic_deg | heading }}", "{{ magnetic_deg | upper }}", "filter 'upper' does not exist"),
        ("{{ magnetic_deg | heading }}", "{{ magnetic_deg | heading", "cannot be read"),
        ("{{ magnetic_deg | heading }}", "{{- magnetic_deg -}}", "holds braces"),
        ("{{ magnetic_deg | heading }}", "{# heading #}", "holds braces"),
    ],
)
def test_template_may_only_name_and_filter(folder: Path, old: str, new: str, words: str) -> None:
    change(folder, old, new)
    with pytest.raises(PackProblems, match=words):
        load_library(folder)


def test_newer_format_is_said_first(folder: Path) -> None:
    change(folder, "format = 1", "format = 2")
    assert ("format", 1, FAMILY) in findings(folder)


def test_huge_file_is_not_read(folder: Path) -> None:
    (folder / FAMILY).write_text("#" * 5_000_000)
    assert findings(folder) == [("file-size", 1, FAMILY)]
    assert LARGEST_FILE_BYTES < 5_000_000


def test_duplicate_id_names_the_other_file(folder: Path) -> None:
    (folder / "datum/families/again.toml").write_text((folder / FAMILY).read_text())
    assert ("duplicate-id", 1, FAMILY) in findings(folder)


def test_broken_toml_says_where(folder: Path) -> None:
    change(folder, 'id = "true-to-compass"', "id = ")
    assert ("toml", 2, FAMILY) in findings(folder)


def test_not_text_is_said(folder: Path) -> None:
    (folder / FAMILY).write_bytes(b"\xff\xfe\x00")
    assert ("unreadable", 1, FAMILY) in findings(folder)


def test_listing_must_match_the_files(folder: Path) -> None:
    change(folder, '["true-to-compass"]', '["no-such-family", "no-such-family"]', "datum/pack.toml")
    assert [rule for rule, _, _ in findings(folder)].count("listing") == 4


def test_pack_and_topic_must_match_the_folder(folder: Path) -> None:
    change(folder, 'id = "datum"', 'id = "other"', "datum/pack.toml")
    change(folder, 'topic = "datum"', 'topic = "wind"')
    assert {"pack-id", "topic"} <= {rule for rule, _, _ in findings(folder)}


def test_all_errors_at_once(folder: Path) -> None:
    change(folder, "grade = ", "level = ")
    change(folder, "{{ magnetic_deg | heading }}", "{{ magnetic_deg() }}")
    (folder / "shared.toml").unlink()
    assert {"schema", "missing-file"} <= {rule for rule, _, _ in findings(folder)}


def test_empty_folder_says_so(tmp_path: Path) -> None:
    (tmp_path / "shared.toml").write_text((REAL / "shared.toml").read_text())
    assert findings(tmp_path) == [("no-packs", 1, ".")]


@pytest.mark.parametrize(
    "parameter",
    ["{choices = [1], low = 1, high = 2}", "{choices = [1, 2], weights = [1]}", "{low = 3, high = 1}", "{}"],
)
def test_parameter_must_be_drawable(folder: Path, parameter: str) -> None:
    change(folder, "true_deg = {low = 1, high = 360}", f"true_deg = {parameter}")
    assert ("schema", line_with(folder, "true_deg = {"), FAMILY) in findings(folder)


def test_line_of_finds_nested_tables() -> None:
    source = 'id = "x"\n[[asks]]\nid = "a"\n[[asks]]\nid = "b"\n[asks.question]\nen = "e"\nfr = "f"\n'
    assert line_of(source, ("asks", 1, "question", "fr")) == 8
    assert line_of(source, ("asks", 0, "id")) == 3
    assert line_of(source, ("nowhere",)) == 1


def test_template_names_are_found() -> None:
    assert read_template("{{ a | heading }} and {{ b }}") == (frozenset({"a", "b"}), ())
