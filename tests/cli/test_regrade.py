from contextlib import closing
from pathlib import Path

from click.testing import CliRunner, Result

from app.cli import root
from app.services.own_library import family_id
from app.storage.engine import create_engine_for
from app.storage.unit_of_work import UnitOfWork
from tests.services.people import cast_of
from tests.services.test_own_questions import released


def run(*arguments: str, instance: Path) -> Result:
    environment = {"LUBBERLINE_INSTANCE": str(instance), "LUBBERLINE_DATABASE": ""}
    return CliRunner().invoke(root, list(arguments), env=environment)


def test_dry_run_says_what_would_change_and_unknown_names_are_refused(tmp_path: Path) -> None:
    run("school", "add", "north-bay", "North Bay", "--administrator", "Selma Roy", instance=tmp_path)
    dry = run("regrade", "true-to-compass", "--school", "north-bay", "--dry-run", instance=tmp_path)
    assert dry.exit_code == 0, dry.output
    assert "north-bay: 0 answers, 0 wrong -> right" in dry.output
    assert "Nothing was changed." in dry.output
    unknown = run("regrade", "true-to-compas", instance=tmp_path)
    assert (unknown.exit_code, "Did you mean true-to-compass" in unknown.output) == (2, True)
    assert run("regrade", "true-to-compass", "--school", "nowhere", instance=tmp_path).exit_code == 2
    assert run("nightly", instance=tmp_path).output == "Counted 0 new answers.\nMeasured 0 difficulties.\n"


def test_set_aside_needs_a_withdrawal_and_names_what_it_did(tmp_path: Path) -> None:
    run("school", "add", "north-bay", "North Bay", "--administrator", "Selma Roy", instance=tmp_path)
    refused = run("set-aside", "true-to-compass", "--school", "north-bay", instance=tmp_path)
    assert (refused.exit_code, "has not withdrawn true-to-compass" in refused.output) == (2, True)
    back = run("set-aside", "true-to-compass", "--take-back", "--school", "north-bay", instance=tmp_path)
    assert back.output == "north-bay: 0 answers count again, 0 of them right; 0 people touched\n"
    days = ("--since", "2026-09-01", "--until", "2026-09-30", "--version", "1")
    dry = run("set-aside", "true-to-compass", "--dry-run", *days, instance=tmp_path)
    assert dry.output == "Nothing was changed.\n"
    assert run("set-aside", "true-to-compas", instance=tmp_path).exit_code == 2


def test_a_school_s_own_question_is_known_where_it_is_asked(tmp_path: Path) -> None:
    run("school", "add", "north-bay", "North Bay", "--administrator", "Selma Roy", instance=tmp_path)
    with closing(UnitOfWork(create_engine_for(tmp_path / "lubberline.sqlite3"))) as uow:
        own = family_id(released(uow, cast_of(uow)))
    dry = run("regrade", own, "--dry-run", instance=tmp_path)
    assert [line.partition(":")[0] for line in dry.output.splitlines()] == ["one", "Nothing was changed."]
    assert run("regrade", own, "--school", "north-bay", instance=tmp_path).exit_code == 2
    back = run("set-aside", own, "--take-back", instance=tmp_path)
    assert back.output == "one: 0 answers count again, 0 of them right; 0 people touched\n"
