"""The fast path of the start: which lock a command needs, whether it is in place, and what may be imported by then."""

import os
import subprocess
import sys
from ast import literal_eval
from pathlib import Path

import pytest

from app import bootstrap

ROOT = Path(__file__).resolve().parents[1]


@pytest.fixture
def project(tmp_path: Path) -> Path:
    """Make a folder with locks and what looks like an environment."""
    for lock in (bootstrap.RUNTIME_LOCK, bootstrap.DEVELOPER_LOCK):
        (tmp_path / lock).write_text(f"# {lock}\n", "utf-8")
    python = bootstrap.environment_python(tmp_path)
    python.parent.mkdir(parents=True)
    python.touch()
    return tmp_path


def stamp(project: Path, *locks: str) -> None:
    lines = [bootstrap.fingerprint(project, lock) for lock in locks]
    bootstrap.stamp_file(project).write_text("\n".join(lines), "utf-8")


@pytest.mark.parametrize("arguments", [[], ["serve"], ["--port", "8001"], ["draw", "test"], ["--help"]])
def test_running_needs_the_runtime_lock(arguments: list[str]) -> None:
    assert bootstrap.lock_for(arguments) == bootstrap.RUNTIME_LOCK


@pytest.mark.parametrize("command", ["test", "check", "bench"])
def test_developing_needs_the_developer_lock(command: str) -> None:
    assert bootstrap.lock_for([command, "--help"]) == bootstrap.DEVELOPER_LOCK


def test_not_ready_before_set_up(project: Path) -> None:
    assert not bootstrap.is_ready(project, bootstrap.RUNTIME_LOCK)


def test_ready_for_what_is_stamped_only(project: Path) -> None:
    stamp(project, bootstrap.RUNTIME_LOCK)
    assert bootstrap.is_ready(project, bootstrap.RUNTIME_LOCK)
    assert not bootstrap.is_ready(project, bootstrap.DEVELOPER_LOCK)


def test_not_ready_after_the_lock_changed(project: Path) -> None:
    stamp(project, bootstrap.RUNTIME_LOCK)
    (project / bootstrap.RUNTIME_LOCK).write_text("# newer\n", "utf-8")
    assert not bootstrap.is_ready(project, bootstrap.RUNTIME_LOCK)


def test_not_ready_when_the_python_is_gone(project: Path) -> None:
    stamp(project, bootstrap.RUNTIME_LOCK)
    bootstrap.environment_python(project).unlink()
    assert not bootstrap.is_ready(project, bootstrap.RUNTIME_LOCK)


def test_not_ready_for_another_kind_of_python(project: Path) -> None:
    line = bootstrap.fingerprint(project, bootstrap.RUNTIME_LOCK)
    bootstrap.stamp_file(project).write_text(line.replace(bootstrap.python_tag(), "cpython-399-linux"), "utf-8")
    assert not bootstrap.is_ready(project, bootstrap.RUNTIME_LOCK)


def test_start_imports_nothing_slow() -> None:
    """A bare interpreter, as a machine without anything has it, must be able to load the start."""
    program = (
        f"import sys; sys.path.insert(0, {os.fspath(ROOT)!r}); import app.bootstrap; loaded = set(sys.modules);"
        "import app.installer; print(*sorted(loaded & {'subprocess', 'typing', 'click', 'venv', 'app.installer'}))"
    )
    result = subprocess.run([sys.executable, "-I", "-S", "-c", program], capture_output=True, text=True, check=True)
    assert result.stdout.strip() == ""


@pytest.mark.parametrize("told", [{}, {"MALLOC_ARENA_MAX": "8"}])
def test_memory_is_kept_as_set_unless_told_otherwise(told: dict[str, str]) -> None:
    inside = ["-c", "import os; print({name: value for name, value in os.environ.items() if 'MALLOC' in name})"]
    program = f"import sys; from app.bootstrap import *; run_inside(Path(sys.executable), {inside})"
    command = [sys.executable, "-c", program]
    found = subprocess.run(command, cwd=ROOT, env=told, capture_output=True, text=True, check=True)
    assert literal_eval(found.stdout) == bootstrap.HEAP | told


def test_entry_is_readable_by_any_python() -> None:
    """An old Python must reach the message: no syntax of today in the file it reads first."""
    source = (ROOT / "app" / "__main__.py").read_text("ascii")
    assert 'f"' not in source
    assert ":=" not in source
    assert source.index("sys.version_info < (3, 11)") < source.index("from app.bootstrap")
