"""Hand the command line to the project's own environment, set up first where needed. Standard library only.

The second start goes through here too: nothing slow may be imported before the environment is known to be ready.
"""

import os
import sys
from pathlib import Path

from app.environment import DEVELOPER_LOCK, ROOT, RUNTIME_LOCK, SetupFailed, environment_python, is_ready

DEVELOPER_COMMANDS = frozenset({"test", "check", "bench"})
# How the C library of Linux keeps memory (docs/performance.md, "Memory"); elsewhere nothing reads it. One heap for all
# threads, of which Python runs one at a time: in a heap for each, what lay free grew for hours. From a megabyte on it
# comes from the system and goes back: else, after the first password (19 MiB), it would come from the heap, and stay.
HEAP = {"MALLOC_ARENA_MAX": "1", "MALLOC_MMAP_THRESHOLD_": "1048576", "MALLOC_TRIM_THRESHOLD_": "2097152"}


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
