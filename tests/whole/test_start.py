"""What a start loads: every server waits for it, and every worker keeps it in memory."""

import subprocess
import sys

from app.bootstrap import ROOT

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
