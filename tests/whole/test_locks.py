"""The locks agree with pyproject.toml and with each other, and name no host."""

import re
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).resolve().parents[2]
RUNTIME, DEVELOPER, INSTALLER = "requirements.txt", "requirements-dev.txt", "requirements-installer.txt"
PIN = re.compile(r"^(?P<name>[\w.-]+)==(?P<version>[^\s;\\]+)(?:\s*;\s*(?P<marker>[^\\]+?))?\s*\\$")


def pins(lock: str) -> dict[tuple[str, str], str]:
    """Map (name, marker) to version; a universal lock may pin one name twice, under different markers."""
    lines = (ROOT / lock).read_text("utf-8").splitlines()
    found = [match for line in lines if (match := PIN.match(line))]
    return {(canonicalize_name(m["name"]), m["marker"] or ""): m["version"] for m in found}


def asked_for() -> dict[str, list[Requirement]]:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    runtime = [Requirement(line) for line in project["project"]["dependencies"]]
    developer = [Requirement(line) for line in project["dependency-groups"]["dev"]]
    return {RUNTIME: runtime, DEVELOPER: runtime + developer, INSTALLER: [Requirement("uv")]}


@pytest.mark.parametrize("lock", [RUNTIME, DEVELOPER, INSTALLER])
def test_lock_answers_what_the_project_asks_for(lock: str) -> None:
    pinned = pins(lock)
    for requirement in asked_for()[lock]:
        versions = [v for (name, _), v in pinned.items() if name == canonicalize_name(requirement.name)]
        assert versions, requirement
        assert all(requirement.specifier.contains(version) for version in versions), requirement


def test_developer_lock_contains_the_runtime_lock() -> None:
    assert pins(RUNTIME).items() <= pins(DEVELOPER).items()


@pytest.mark.parametrize("lock", [RUNTIME, DEVELOPER, INSTALLER])
def test_every_pin_has_a_hash_and_no_line_names_a_host(lock: str) -> None:
    text = (ROOT / lock).read_text("utf-8")
    entries = re.split(r"(?m)^(?=[\w])", text)[1:]
    assert entries
    assert all("--hash=sha256:" in entry for entry in entries)
    assert "://" not in text
