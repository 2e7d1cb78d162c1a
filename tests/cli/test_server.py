"""The production server for real: it starts, answers on the address it prints, and stops without a trace."""

import signal
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from urllib.request import urlopen

import pytest
from gunicorn.arbiter import Arbiter

from app.cli.apart import STOPS
from app.cli.server import Overseer
from app.environment import ROOT


def start(instance: Path) -> subprocess.Popen[str]:
    command = [sys.executable, "-m", "app.cli", "serve", "--port", "0", "--instance", str(instance)]
    return subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)


@pytest.fixture
def server(tmp_path: Path) -> Iterator[subprocess.Popen[str]]:
    with start(tmp_path) as process:
        yield process
        process.kill()


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_answers_then_stops_cleanly(server: subprocess.Popen[str], number: signal.Signals) -> None:
    assert server.stdout is not None
    line = server.stdout.readline()
    assert line.startswith("Lubberline answers on http://127.0.0.1:")
    with urlopen(line.split()[3]) as page:
        assert page.status == 200
    server.send_signal(number)
    out, err = server.communicate()
    assert (server.returncode, out, err) == (0, "Lubberline has stopped.\n", "")


def test_signal_to_stop_waits_while_a_worker_is_made(monkeypatch: pytest.MonkeyPatch) -> None:
    waiting: list[set[int | signal.Signals]] = []
    monkeypatch.setattr(Arbiter, "spawn_worker", lambda _: waiting.append(signal.pthread_sigmask(signal.SIG_BLOCK, ())))
    Overseer.spawn_worker(Overseer.__new__(Overseer))
    waiting.append(signal.pthread_sigmask(signal.SIG_BLOCK, ()))
    assert [set(STOPS) & each for each in waiting] == [set(STOPS), set()]


def test_newer_database_is_refused_and_left_alone(tmp_path: Path) -> None:
    with start(tmp_path) as first:
        assert first.stdout is not None
        first.stdout.readline()
        first.terminate()
    (database,) = tmp_path.glob("*.sqlite3")
    with sqlite3.connect(database) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999_tomorrow'")
    connection.close()
    with start(tmp_path) as second:
        _, err = second.communicate()
    assert second.returncode == 2
    assert "9999_tomorrow" in err
    assert "newer" in err
    assert "Traceback" not in err


def test_file_that_is_no_database_is_refused_and_left_alone(tmp_path: Path) -> None:
    (tmp_path / "lubberline.sqlite3").write_text("not a database, and long enough to be read as one" * 100, "utf-8")
    with start(tmp_path) as process:
        _, err = process.communicate()
    assert process.returncode == 2
    assert "Traceback" not in err
    assert (tmp_path / "lubberline.sqlite3").read_text("utf-8").startswith("not a database")
