"""Check the project: format, lint, types, arrows, packs, migrations. One line each, with its time."""

import subprocess
import sys
import time

import click

from app.environment import ROOT

DEFAULT_DRAWS = 500
LINT_IMPORTS = "import sys; from importlinter.cli import lint_imports; sys.exit(lint_imports(is_debug_mode=False))"

# Each check is a command of this same Python, so that a crash in one is a failed check and no more.
CHECKS = {
    "format": ["-m", "ruff", "format", "--check", "--output-format", "concise", "."],
    "lint": ["-m", "ruff", "check", "--output-format", "concise", "."],
    "types": ["-m", "mypy"],
    "arrows": ["-c", LINT_IMPORTS],
    "packs": ["-m", "app.cli.check_packs"],
    "migrations": ["-m", "app.cli.check_migrations"],
}


@click.command()
@click.argument("checks", nargs=-1, metavar="[CHECK]...", type=click.Choice(list(CHECKS)))
@click.option(
    "--draws",
    type=click.IntRange(min=1),
    default=DEFAULT_DRAWS,
    show_default=True,
    help="How many items the packs check draws of each family.",
)
@click.option("--accept", multiple=True, metavar="FAMILY", help="Freeze a family's golden draws anew, then check.")
def command(checks: tuple[str, ...], draws: int, accept: tuple[str, ...]) -> None:
    """Check the project: all of it in order, or only each CHECK named. Exit code 1 when any fails.

    CHECK is one of format, lint, types, arrows, packs, migrations.
    """
    commands = CHECKS | {"packs": [*CHECKS["packs"], "--draws", str(draws), *(f"--accept={each}" for each in accept)]}
    if "packs" in checks:
        commands["packs"] += ["--table"]
    chosen = [name for name in CHECKS if name in checks or not checks]
    if accept and "packs" not in chosen:
        raise click.UsageError("--accept belongs to the packs check: check packs --accept FAMILY.")
    passed = [check(name, commands[name]) for name in chosen]
    raise SystemExit(0 if all(passed) else 1)


def check(name: str, arguments: list[str]) -> bool:
    """Run one check, print its line, and what it has to say when it objects; the packs check always may."""
    started = time.monotonic()
    result = subprocess.run(
        [sys.executable, *arguments],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        check=False,
    )
    passed = result.returncode == 0
    click.echo(f"{name:<11}{'passed' if passed else 'FAILED'}  {time.monotonic() - started:6.1f} s")
    report = result.stdout.strip()
    if report and (name == "packs" or not passed):
        click.echo(report)
    return passed
