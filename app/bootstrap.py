"""Hand the command line to the project's own environment, set up first where needed. Standard library only.

The second start goes through here too: nothing slow may be imported before the environment is known to be ready.
"""

import hashlib
import os
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
RUNTIME_LOCK = "requirements.txt"
DEVELOPER_LOCK = "requirements-dev.txt"
DEVELOPER_COMMANDS = frozenset({"test", "check", "bench"})
# How the C library of Linux keeps memory (docs/performance.md, "Memory"); elsewhere nothing reads it. One heap for all
# threads, of which Python runs one at a time: in a heap for each, what lay free grew for hours. From a megabyte on it
# comes from the system and goes back: else, after the first password (19 MiB), it would come from the heap, and stay.
HEAP = {"MALLOC_ARENA_MAX": "1", "MALLOC_MMAP_THRESHOLD_": "1048576", "MALLOC_TRIM_THRESHOLD_": "2097152"}


class SetupFailed(Exception):
    """The environment cannot be made; the text says why and what to do."""


def main(arguments: list[str]) -> int:
    """Set up if needed, then run the command. Returns the exit code where the process is not replaced."""
    lock = lock_for(arguments)
    try:
        if not is_ready(ROOT, lock):
            from app.installer import install  # noqa: PLC0415 - only the first start pays for it

            install(ROOT, lock)
    except SetupFailed as error:
        print(f"lubberline: {error}", file=sys.stderr)
        return 2
    except KeyboardInterrupt:
        print("\nSet-up stopped. The same command takes it up again.", file=sys.stderr)
        return 130
    return run_inside(environment_python(ROOT), ["-m", "app.cli", *arguments])


def lock_for(arguments: list[str]) -> str:
    """Name the lock file that the command needs."""
    return DEVELOPER_LOCK if arguments and arguments[0] in DEVELOPER_COMMANDS else RUNTIME_LOCK


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


def run_inside(python: Path, arguments: list[str]) -> int:
    """Replace this process by the environment's Python, or wait for it where a process cannot be replaced."""
    for name, value in HEAP.items():
        os.environ.setdefault(name, value)
    command = [str(python), *arguments]
    if os.name != "nt":
        os.execv(command[0], command)  # never returns
    import subprocess  # noqa: PLC0415 - slow to import, and Windows alone needs it

    try:
        return subprocess.call(command)
    except KeyboardInterrupt:
        return 130
