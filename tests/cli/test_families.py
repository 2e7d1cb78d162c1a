"""The list of families: one JSON line each, by pack; the lines of a syllabus; and what is refused."""

import json

import pytest
from click.testing import CliRunner, Result

from app.cli import root
from app.environment import ROOT


def families(*arguments: str) -> Result:
    return CliRunner().invoke(root, ["families", *arguments])


def test_lists_every_family_once() -> None:
    files = [file.stem for file in (ROOT / "question_packs").glob("*/f*/*.toml")]
    result = families()
    assert result.exit_code == 0, result.output
    assert sorted(json.loads(line)["family"] for line in result.output.splitlines()) == sorted(files)


def test_syllabus_lists_its_lines_and_those_without_a_family() -> None:
    listed = {each["line"]: each for each in map(json.loads, families("--syllabus", "ca-ppl").output.splitlines())}
    assert "true-to-compass" in listed["TP 12880 Pilot Navigation 20"]["families"]
    assert listed["TP 12880 Pilot Navigation 20"]["seen"] == "official"
    assert all(each["families"] for each in listed.values())
    permit = map(json.loads, families("--syllabus", "ca-rpp").output.splitlines())
    assert all(each["families"] == listed[each["line"]]["families"] for each in permit)
    of_wind = families("--syllabus", "ca-ppl", "--pack", "wind").output.splitlines()
    assert len(of_wind) == len(listed)
    assert "true-to-compass" not in "".join(of_wind)


def test_pack_and_language() -> None:
    listed = [json.loads(line) for line in families("--pack", "datum", "--language", "fr").output.splitlines()]
    assert {family["pack"] for family in listed} == {"datum"}


@pytest.mark.parametrize(("option", "value", "told"), [("--syllabus", "ca-pl", "ca-ppl"), ("--pack", "datun", "datum")])
def test_unknown_name_is_refused(option: str, value: str, told: str) -> None:
    result = families(option, value)
    assert result.exit_code == 2
    assert told in result.output
