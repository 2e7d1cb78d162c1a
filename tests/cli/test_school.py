from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from app.cli import root


def school(*arguments: str, instance: Path) -> Result:
    environment = {"LUBBERLINE_INSTANCE": str(instance), "LUBBERLINE_DATABASE": ""}
    return CliRunner().invoke(root, ["school", *arguments], env=environment)


def test_school_is_made_and_listed(tmp_path: Path) -> None:
    made = school("add", "north-bay", "North Bay Flying Club", "--administrator", "Selma Roy", instance=tmp_path)
    assert made.exit_code == 0, made.output
    assert "/first-sign-in?school=north-bay" in made.output
    assert "login name    selma.roy" in made.output
    listed = school("list", instance=tmp_path)
    assert listed.output == "north-bay\ten\tUTC\tNorth Bay Flying Club\n"


@pytest.mark.parametrize(
    ("arguments", "reason"),
    [
        (["North Bay!", "Club", "--administrator", "Selma"], "“North Bay!” cannot be a school’s code"),
        (["north-bay", " ", "--administrator", "Selma"], "cannot be a name"),
        (["north-bay", "Club", "--administrator", "Selma", "--time-zone", "Mars/Base"], "“Mars/Base” is not a time"),
        (["taken", "Club", "--administrator", "Selma"], "Another school has the code “taken”"),
    ],
)
def test_what_cannot_be_made_is_said_and_nothing_is_kept(tmp_path: Path, arguments: list[str], reason: str) -> None:
    school("add", "taken", "Club", "--administrator", "Selma", instance=tmp_path)
    refused = school("add", *arguments, instance=tmp_path)
    assert refused.exit_code == 2
    assert reason in refused.output
    assert school("list", instance=tmp_path).output == "taken\ten\tUTC\tClub\n"
