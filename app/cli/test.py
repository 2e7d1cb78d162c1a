"""Run the test suite, on two workers unless told otherwise."""

import shutil
import subprocess
import sys

import click

from app.environment import ROOT

PARALLEL = ["-n", "2", "--dist", "worksteal"]  # the browser's tests stand together: who is done takes of them


@click.command(context_settings={"ignore_unknown_options": True})
@click.argument("arguments", nargs=-1, type=click.UNPROCESSED)
def command(arguments: tuple[str, ...]) -> None:
    """Run the whole test suite; ARGUMENTS go to pytest (for example: tests/physics -x, or -n 0 for one process).

    Browser tests need Chromium and the accessibility test needs npm; where one is missing they are left out with a
    line that says how to get it.
    """
    fetch_axe()
    raise SystemExit(subprocess.call([sys.executable, "-m", "pytest", *PARALLEL, *arguments], cwd=ROOT))


def fetch_axe() -> None:
    """Install the accessibility rules that package-lock.json names, where npm is there and they are not."""
    npm = shutil.which("npm")
    if npm is None or (ROOT / "node_modules" / "axe-core" / "axe.min.js").is_file():
        return
    result = subprocess.run(
        [npm, "ci", "--no-audit", "--no-fund"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    if result.returncode:
        click.echo(f"npm could not install axe-core; the accessibility test will be left out.\n{result.stderr.strip()}")
