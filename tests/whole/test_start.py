"""What a start loads: every server waits for it, and every worker keeps it in memory."""

import subprocess
import sys
from pathlib import Path

from app.environment import ROOT

WANTED_LATER = (
    "numpy",
    "scipy",
    "alembic",
    "babel.messages.catalog",
    "sqlalchemy.orm",
    "sqlalchemy.dialects.postgresql",
    "app.cli.demonstration",
    "app.services.set_quality",
)


def test_start_loads_nothing_that_few_pages_want() -> None:
    code = f"import sys, app.cli.server; print([each for each in {WANTED_LATER} if each in sys.modules])"
    found = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    assert found.stdout.strip() == "[]"


def test_first_start_keeps_nothing_of_the_migrations(tmp_path: Path) -> None:
    code = (
        "import socket, sys; from pathlib import Path; from app.cli import server;"
        "server.Server.run = lambda self: print('alembic' in sys.modules, *Path(sys.argv[1]).glob('*.sqlite3'));"
        "server.serve(socket.create_server(('127.0.0.1', 0)), Path(sys.argv[1]))"
    )
    found = subprocess.run([sys.executable, "-c", code, tmp_path], cwd=ROOT, capture_output=True, text=True, check=True)
    assert found.stdout.split() == ["False", str(tmp_path / "lubberline.sqlite3")]
