"""The real server in a process of its own, on a free port of this machine and an instance folder of its own."""

import subprocess
import sys
from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass
from pathlib import Path

from app.environment import ROOT

LONGEST_STOP_S = 30


@dataclass(frozen=True)
class Served:
    """A server that answers at an address."""

    process: int
    address: str

    def worker_mb(self) -> float | None:
        """Return the memory of the largest worker, its share of what is shared included; None where Linux is not."""
        children = Path(f"/proc/{self.process}/task/{self.process}/children")
        if not children.exists():
            return None
        return max(_pss_mb(int(worker)) for worker in children.read_text("ascii").split())


def serving(instance: Path) -> AbstractContextManager[Served]:
    """Serve from an instance folder, and stop."""
    return _serving("app", "serve", "--port", "0", "--instance", str(instance))


def serving_floor(folder: Path) -> AbstractContextManager[Served]:
    """Serve the floor in the same way, its database in a folder, and stop."""
    return _serving("app.cli.measures.floor_server", str(folder))


@contextmanager
def _serving(*module: str) -> Iterator[Served]:
    command = [sys.executable, "-m", *module]
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True) as server:
        try:
            assert server.stdout is not None  # noqa: S101 - asked for above
            address = next(word for line in server.stdout for word in line.split() if word.startswith("http://"))
            yield Served(server.pid, address)
        finally:
            server.terminate()
            server.wait(LONGEST_STOP_S)


def _pss_mb(process: int) -> float:
    lines = Path(f"/proc/{process}/smaps_rollup").read_text("ascii").splitlines()
    return next(int(line.split()[1]) for line in lines if line.startswith("Pss:")) / 1024
