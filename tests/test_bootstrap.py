"""The fast path of the start: which lock a command needs, and what may be imported by then."""

import os
import subprocess
import sys
from ast import literal_eval

import pytest

from app import bootstrap
from app.environment import DEVELOPER_LOCK, ROOT, RUNTIME_LOCK


@pytest.mark.parametrize("arguments", [[], ["serve"], ["--port", "8001"], ["draw", "test"], ["--help"]])
def test_running_needs_the_runtime_lock(arguments: list[str]) -> None:
    assert bootstrap.lock_for(arguments) == RUNTIME_LOCK


@pytest.mark.parametrize("command", ["test", "check", "bench"])
def test_developing_needs_the_developer_lock(command: str) -> None:
    assert bootstrap.lock_for([command, "--help"]) == DEVELOPER_LOCK


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
