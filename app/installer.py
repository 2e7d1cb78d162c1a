"""Make .venv and install a hashed lock into it. Standard library only; slow, so loaded on the first start alone."""

import importlib.util
import os
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

from app.environment import (
    DEVELOPER_LOCK,
    RUNTIME_LOCK,
    SetupFailed,
    environment_python,
    fingerprint,
    python_tag,
    stamp_file,
)

INSTALLER_LOCK = "requirements-installer.txt"
NO_NETWORK_SIGNS = (
    "NewConnectionError",
    "NameResolutionError",
    "ConnectTimeoutError",
    "name resolution",
    "Name or service not known",
    "nodename nor servname",
    "getaddrinfo failed",
    "Network is unreachable",
    "No route to host",
    "Connection refused",
    "dns error",
    "tcp connect error",
    "error sending request",
    "Read timed out",
)
NO_VENV = """Python's venv module is missing, and with it ensurepip.
On Debian or Ubuntu: apt install python3-venv; elsewhere install Python from its own installer. Then run this again."""
NO_NETWORK = """the packages could not be fetched: there is no network, or the package index cannot be reached.
Connect this machine (the first start needs it, later ones do not) and run this again."""

Runner = Callable[[list[str]], subprocess.CompletedProcess[str]]
Say = Callable[[str], None]


def install(root: Path, lock: str, run: Runner | None = None, say: Say | None = None) -> None:
    """Bring .venv to the lock and stamp it.

    Raises SetupFailed with what to do: no venv module, read-only folder, no network, a package that fails.
    """
    run, say = run or run_quietly, say or print_now
    started = time.monotonic()
    check_venv_module()
    check_writable(root)
    say("Setting up in .venv (done once; later starts skip it).")
    make_environment(root, run, say)
    has_uv = install_uv(root, run, say)
    install_lock(root, lock, run, say, has_uv=has_uv)
    run([str(environment_python(root)), "-m", "compileall", "-q", str(root / "app")])  # helps the start; may fail
    write_stamp(root, lock)
    say(f"  ready after {time.monotonic() - started:.0f} s")


def run_quietly(command: list[str]) -> subprocess.CompletedProcess[str]:
    """Run a command with its output kept, to be shown only when it fails."""
    quiet = {"PIP_DISABLE_PIP_VERSION_CHECK": "1", "PIP_NO_INPUT": "1", "PIP_USER": "0", "VIRTUAL_ENV": ""}
    return subprocess.run(
        command,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        errors="replace",
        env=os.environ | quiet,
        check=False,
    )


def print_now(line: str) -> None:
    """Show a line of progress at once, also through a pipe."""
    print(line, flush=True)


def check_venv_module() -> None:
    """Refuse a Python that came without venv or ensurepip, as Debian's own does."""
    if not (importlib.util.find_spec("venv") and importlib.util.find_spec("ensurepip")):
        raise SetupFailed(NO_VENV)


def check_writable(root: Path) -> None:
    """Refuse a folder in which .venv cannot be made."""
    folder = root / ".venv"
    probe = folder / "write-probe"
    try:
        folder.mkdir(exist_ok=True)
        probe.touch()
        probe.unlink()
    except OSError as error:
        raise SetupFailed(
            f"the folder {root} cannot be written ({error.strerror}), and the packages go into .venv there.\n"
            "Make it writable, or copy the project to a folder of your own."
        ) from error


def make_environment(root: Path, run: Runner, say: Say) -> None:
    """Make .venv, again from nothing when another kind of Python made it or its making was interrupted."""
    folder = root / ".venv"
    say("  1 of 3: a Python environment")
    if is_sound(root, run):
        return
    if any(folder.iterdir()) and not (folder / "pyvenv.cfg").is_file():
        raise SetupFailed(f"{folder} exists and is no Python environment. Move it away, then run this again.")
    result = run([sys.executable, "-m", "venv", "--clear", str(folder)])
    if result.returncode:
        raise SetupFailed(NO_VENV if "ensurepip" in result.stdout else told("the environment", result.stdout))


def is_sound(root: Path, run: Runner) -> bool:
    """Tell whether .venv runs, has pip and is of this kind of Python."""
    python = environment_python(root)
    question = "import pip, sys; print(f'{sys.implementation.cache_tag}-{sys.platform}')"
    return python.exists() and run([str(python), "-c", question]).stdout.strip() == python_tag()


def install_uv(root: Path, run: Runner, say: Say) -> bool:
    """Install the fast installer; False where there is none for this machine, since pip can do its work."""
    say("  2 of 3: the installer")
    result = run(pip(root, INSTALLER_LOCK))
    if result.returncode and is_network_missing(result.stdout):
        raise SetupFailed(NO_NETWORK)
    return result.returncode == 0


def install_lock(root: Path, lock: str, run: Runner, say: Say, *, has_uv: bool) -> None:
    """Install the lock, every file checked against its hash, with uv or else with pip."""
    say(f"  3 of 3: {count_packages(root / lock)} packages, each checked against its hash")
    commands = [uv(root, lock), pip(root, lock)] if has_uv else [pip(root, lock)]
    output = ""
    for command in commands:
        result = run(command)
        if result.returncode == 0:
            return
        output = result.stdout
    raise SetupFailed(NO_NETWORK if is_network_missing(output) else told(lock, output))


def pip(root: Path, lock: str) -> list[str]:
    """Build pip's command for a lock."""
    python = str(environment_python(root))
    return [python, "-m", "pip", "install", "--quiet", "--retries", "2", "--require-hashes", "-r", str(root / lock)]


def uv(root: Path, lock: str) -> list[str]:
    """Build uv's command for a lock. Compiled files make the second start four times as fast."""
    python = str(environment_python(root))
    target = ["--python", python, "--compile-bytecode", "--require-hashes", "-r", str(root / lock)]
    return [python, "-m", "uv", "pip", "install", "--quiet", *target]


def count_packages(lock: Path) -> int:
    """Count the packages that a lock names."""
    return sum("==" in line and not line.startswith(("#", " ")) for line in lock.read_text("utf-8").splitlines())


def is_network_missing(output: str) -> bool:
    """Tell from an installer's words whether the network was the reason."""
    return any(sign in output for sign in NO_NETWORK_SIGNS)


def told(what: str, output: str) -> str:
    """Word a failure that is none of the known ones: what failed and the installer's last lines."""
    last = "\n".join(f"  {line}" for line in output.strip().splitlines()[-6:])
    return f"{what} could not be installed. The installer said:\n{last}"


def write_stamp(root: Path, lock: str) -> None:
    """Note what .venv now holds. The developers' lock contains the other, so it stands for both."""
    locks = (RUNTIME_LOCK, DEVELOPER_LOCK) if lock == DEVELOPER_LOCK else (lock,)
    lines = [fingerprint(root, name) for name in locks]
    stamp_file(root).write_text("\n".join(lines) + "\n", "utf-8")
