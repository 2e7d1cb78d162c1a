"""What no committed file may hold: paths of somebody's machine, and hosts that packages came from."""

import re
import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
LARGEST_TEXT_BYTES = 2_000_000
# Written in two parts, so that this file does not hold what it looks for.
MACHINE_PATHS = re.compile(r"(?<![\w.])/(?:" + r"work|root|home|Users|tmp" + r")/[\w.-]")
REGISTRY_HOSTS = re.compile(
    r"py" + r"pi\.(?:org|python)|python" + r"hosted\.org|npm" + r"js\.(?:org|com)|deb\.deb" + r"ian"
)


def committed_files() -> list[Path]:
    git = shutil.which("git")
    if git is None or not (ROOT / ".git").exists():
        pytest.skip("only a git checkout knows which files are committed")
    listed = subprocess.run([git, "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True, check=True)
    return [file for name in listed.stdout.split("\0") if name and (file := ROOT / name).is_file()]


def lines_of(file: Path) -> list[str]:
    if file.stat().st_size > LARGEST_TEXT_BYTES:
        return []
    data = file.read_bytes()
    return [] if b"\0" in data else data.decode("utf-8", "replace").splitlines()


def find(pattern: re.Pattern[str]) -> list[str]:
    return [
        f"{file.relative_to(ROOT).as_posix()}:{number}: {found.group()}"
        for file in committed_files()
        for number, line in enumerate(lines_of(file), 1)
        if (found := pattern.search(line))
    ]


def test_no_machine_path() -> None:
    assert not find(MACHINE_PATHS)


def test_no_registry_host() -> None:
    assert not find(REGISTRY_HOSTS)


@pytest.mark.parametrize("line", ["/work" + "/x", "see /root" + "/.cache", '"/tmp' + '/a"', "C /Users" + "/me"])
def test_machine_paths_are_seen(line: str) -> None:
    assert MACHINE_PATHS.search(line)


@pytest.mark.parametrize(
    "line", ["https://py" + "pi.org/simple", "files.python" + "hosted.org", "registry.npm" + "js.org"]
)
def test_registry_hosts_are_seen(line: str) -> None:
    assert REGISTRY_HOSTS.search(line)
