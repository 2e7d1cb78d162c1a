"""The set-up, with a recorder in place of venv, pip and uv: order, fall-back, and a clear word for each failure."""

import subprocess
from pathlib import Path

import pytest

from app import environment, installer
from app.environment import DEVELOPER_LOCK, RUNTIME_LOCK, SetupFailed

LOCK_TEXT = "click==8 \\\n    --hash=sha256:00\nflask==3 ; python_version > '3' \\\n    --hash=sha256:00\n"
OFFLINE = "WARNING: Retrying after connection broken by 'NewConnectionError: Temporary failure in name resolution'"


class Recorder:
    """Stands in for the commands: notes each and answers as told; the venv command makes an interpreter."""

    def __init__(self, root: Path, **failures: str) -> None:
        self.root, self.failures = root, failures
        self.kinds: list[str] = []

    def __call__(self, command: list[str]) -> subprocess.CompletedProcess[str]:
        kind = self.kind_of(command)
        self.kinds.append(kind)
        if kind in self.failures:
            return subprocess.CompletedProcess(command, 1, self.failures[kind])
        if kind == "venv":
            python = environment.environment_python(self.root)
            python.parent.mkdir(parents=True, exist_ok=True)
            python.touch()
        return subprocess.CompletedProcess(command, 0, environment.python_tag() if kind == "look" else "")

    def kind_of(self, command: list[str]) -> str:
        if command[1] == "-c":
            return "look"
        return "venv" if command[2] == "venv" else f"{command[2]} {Path(command[-1]).name}"


@pytest.fixture
def root(tmp_path: Path) -> Path:
    for lock in (RUNTIME_LOCK, DEVELOPER_LOCK, installer.INSTALLER_LOCK):
        (tmp_path / lock).write_text(LOCK_TEXT, "utf-8")
    return tmp_path


def test_first_set_up_goes_in_order(root: Path) -> None:
    run, said = Recorder(root), list[str]()
    installer.install(root, RUNTIME_LOCK, run, said.append)
    assert run.kinds == ["venv", "pip requirements-installer.txt", "uv requirements.txt", "compileall app"]
    assert len(said) == 5
    assert "2 packages" in said[3]
    assert environment.is_ready(root, RUNTIME_LOCK)
    assert not environment.is_ready(root, DEVELOPER_LOCK)


def test_developer_set_up_serves_too(root: Path) -> None:
    installer.install(root, DEVELOPER_LOCK, Recorder(root), list[str]().append)
    assert environment.is_ready(root, DEVELOPER_LOCK)
    assert environment.is_ready(root, RUNTIME_LOCK)


def test_a_sound_environment_is_kept(root: Path) -> None:
    installer.install(root, RUNTIME_LOCK, Recorder(root), list[str]().append)
    again = Recorder(root)
    installer.install(root, DEVELOPER_LOCK, again, list[str]().append)
    assert again.kinds == ["look", "pip requirements-installer.txt", "uv requirements-dev.txt", "compileall app"]


def test_pip_takes_over_where_uv_cannot_be_had(root: Path) -> None:
    run = Recorder(root, **{"pip requirements-installer.txt": "no matching distribution"})
    installer.install(root, RUNTIME_LOCK, run, list[str]().append)
    assert run.kinds[1:] == ["pip requirements-installer.txt", "pip requirements.txt", "compileall app"]
    assert environment.is_ready(root, RUNTIME_LOCK)


def test_pip_takes_over_where_uv_fails(root: Path) -> None:
    run = Recorder(root, **{"uv requirements.txt": "invalid peer certificate"})
    installer.install(root, RUNTIME_LOCK, run, list[str]().append)
    assert run.kinds[2:] == ["uv requirements.txt", "pip requirements.txt", "compileall app"]


def test_missing_network_is_named_and_nothing_is_stamped(root: Path) -> None:
    with pytest.raises(SetupFailed, match="no network"):
        installer.install(
            root, RUNTIME_LOCK, Recorder(root, **{"pip requirements-installer.txt": OFFLINE}), list[str]().append
        )
    assert not environment.is_ready(root, RUNTIME_LOCK)


def test_network_lost_on_the_way_is_named(root: Path) -> None:
    failures = {"uv requirements.txt": "error sending request", "pip requirements.txt": OFFLINE}
    with pytest.raises(SetupFailed, match="no network"):
        installer.install(root, RUNTIME_LOCK, Recorder(root, **failures), list[str]().append)


def test_missing_ensurepip_is_named(root: Path) -> None:
    run = Recorder(root, venv="The virtual environment was not created because ensurepip is not available.")
    with pytest.raises(SetupFailed, match="apt install python3-venv"):
        installer.install(root, RUNTIME_LOCK, run, list[str]().append)


def test_another_failure_shows_what_the_installer_said(root: Path) -> None:
    failures = {"uv requirements.txt": "x", "pip requirements.txt": "THESE PACKAGES DO NOT MATCH THE HASHES"}
    with pytest.raises(SetupFailed, match=r"requirements.txt could not be installed(?s:.*)DO NOT MATCH THE HASHES"):
        installer.install(root, RUNTIME_LOCK, Recorder(root, **failures), list[str]().append)


def test_folder_that_cannot_be_written_is_named(root: Path) -> None:
    (root / ".venv").write_text("in the way", "utf-8")
    with pytest.raises(SetupFailed, match=r"cannot be written(?s:.*)Make it writable"):
        installer.install(root, RUNTIME_LOCK, Recorder(root), list[str]().append)


def test_a_folder_that_is_no_environment_is_left_alone(root: Path) -> None:
    (root / ".venv").mkdir()
    (root / ".venv" / "mine.txt").write_text("keep", "utf-8")
    with pytest.raises(SetupFailed, match="Move it away"):
        installer.install(root, RUNTIME_LOCK, Recorder(root), list[str]().append)
    assert (root / ".venv" / "mine.txt").is_file()


def test_commands_are_run_with_their_output_kept() -> None:
    result = installer.run_quietly(["python3", "-c", "import sys; print('out'); sys.exit('err')"])
    assert result.returncode == 1
    assert "out" in result.stdout
    assert "err" in result.stdout
