"""The project's own environment: ready for exactly the locks that it was stamped with."""

from pathlib import Path

import pytest

from app import environment


@pytest.fixture
def project(tmp_path: Path) -> Path:
    """Make a folder with locks and what looks like an environment."""
    for lock in (environment.RUNTIME_LOCK, environment.DEVELOPER_LOCK):
        (tmp_path / lock).write_text(f"# {lock}\n", "utf-8")
    python = environment.environment_python(tmp_path)
    python.parent.mkdir(parents=True)
    python.touch()
    return tmp_path


def stamp(project: Path, *locks: str) -> None:
    lines = [environment.fingerprint(project, lock) for lock in locks]
    environment.stamp_file(project).write_text("\n".join(lines), "utf-8")


def test_not_ready_before_set_up(project: Path) -> None:
    assert not environment.is_ready(project, environment.RUNTIME_LOCK)


def test_ready_for_what_is_stamped_only(project: Path) -> None:
    stamp(project, environment.RUNTIME_LOCK)
    assert environment.is_ready(project, environment.RUNTIME_LOCK)
    assert not environment.is_ready(project, environment.DEVELOPER_LOCK)


def test_not_ready_after_the_lock_changed(project: Path) -> None:
    stamp(project, environment.RUNTIME_LOCK)
    (project / environment.RUNTIME_LOCK).write_text("# newer\n", "utf-8")
    assert not environment.is_ready(project, environment.RUNTIME_LOCK)


def test_not_ready_when_the_python_is_gone(project: Path) -> None:
    stamp(project, environment.RUNTIME_LOCK)
    environment.environment_python(project).unlink()
    assert not environment.is_ready(project, environment.RUNTIME_LOCK)


def test_not_ready_for_another_kind_of_python(project: Path) -> None:
    line = environment.fingerprint(project, environment.RUNTIME_LOCK)
    environment.stamp_file(project).write_text(line.replace(environment.python_tag(), "cpython-399-linux"), "utf-8")
    assert not environment.is_ready(project, environment.RUNTIME_LOCK)
