"""The environment of the project, `.venv`: where it is, and whether it holds a lock. Standard library only, quick."""

import hashlib
import os
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
RUNTIME_LOCK = "requirements.txt"
DEVELOPER_LOCK = "requirements-dev.txt"


class SetupFailed(Exception):
    """The environment cannot be made; the text says why and what to do."""


def environment_python(root: Path) -> Path:
    """Say where the environment's interpreter is, present or not."""
    return root / ".venv" / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def stamp_file(root: Path) -> Path:
    """Say where the set-up notes which locks the environment holds."""
    return root / ".venv" / "lubberline.stamp"


def python_tag() -> str:
    """Name the kind of Python that an environment is made for, such as cpython-311-linux."""
    return f"{sys.implementation.cache_tag}-{sys.platform}"


def fingerprint(root: Path, lock: str) -> str:
    """Sum up what an installed lock depends on: this kind of Python and the lock file's bytes."""
    digest = hashlib.sha256((root / lock).read_bytes()).hexdigest()
    return f"{python_tag()} {lock} {digest}"


def is_ready(root: Path, lock: str) -> bool:
    """Tell whether the environment holds exactly this lock."""
    stamp = stamp_file(root)
    if not (stamp.is_file() and environment_python(root).exists()):
        return False
    return fingerprint(root, lock) in stamp.read_text("utf-8").splitlines()
