"""The list of families: one JSON line each, by syllabus and pack, and what is refused."""

import json

import pytest
from click.testing import CliRunner, Result

from app.bootstrap import ROOT
from app.cli import root


def families(*arguments: str) -> Result:
    return CliRunner().invoke(root, ["families", *arguments])


def test_lists_every_family_once() -> None:
    files = [file.stem for file in (ROOT / "question_packs").glob("*/families/*.toml")]
    result = families()
    assert result.exit_code == 0, result.output
    assert sorted(json.loads(line)["family"] for line in result.output.splitlines()) == sorted(files)


def test_syllabus_limits_the_list() -> None:
    listed = [json.loads(line) for line in families("--syllabus", "nz-ppl").output.splitlines()]
    assert listed
    assert all("nz-ppl" in family["syllabus"] for family in listed)


def test_pack_and_language() -> None:
    listed = [json.loads(line) for line in families("--pack", "datum", "--language", "fr").output.splitlines()]
    assert {family["pack"] for family in listed} == {"datum"}


@pytest.mark.parametrize(("option", "value", "told"), [("--syllabus", "ca-pl", "ca-ppl"), ("--pack", "datun", "datum")])
def test_unknown_name_is_refused(option: str, value: str, told: str) -> None:
    result = families(option, value)
    assert result.exit_code == 2
    assert told in result.output
