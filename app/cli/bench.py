"""Measure the application against its goals; every goal is a multiple of a floor measured in the same run."""

import importlib

import click

from app.cli.measures import Reading

MEASURES = {
    name: f"app.cli.measures.{name.replace('-', '_')}"
    for name in ("floor", "item", "answer", "start", "load", "long-load", "regrade", "class-page", "frames")
}
LONG = frozenset({"load", "long-load", "regrade", "class-page", "frames"})  # minutes each: only where they are named


@click.command()
@click.argument("measures", nargs=-1, metavar="[MEASURE]...", type=click.Choice(list(MEASURES)))
def command(measures: tuple[str, ...]) -> None:
    """Measure the application: floor, item, answer and start, or each MEASURE named.

    load answers as 16 and 64 browsers at once, for a minute; long-load until 100,000 answers are accepted, which
    takes half an hour. regrade takes minutes.
    class-page too, and fills a database of some gigabytes in the folder for temporary files.
    frames takes two minutes and needs Chromium: how the bench plays and how soon its picture stands, slowed down.

    Figures vary with what else the machine does; compare ratios taken in one run.
    """
    for name, module in MEASURES.items():
        if name in measures or not (measures or name in LONG):
            for reading in importlib.import_module(module).measure():
                click.echo(write(reading))


def write(reading: Reading) -> str:
    """Write a reading as one line: name, value, unit and how it stands to its goal."""
    line = f"{reading.name:<56}{reading.value:10.3f} {reading.unit}"
    if reading.goal is None:
        return line
    return f"{line:<74}goal {reading.goal:g}: {'met' if reading.value <= reading.goal else 'NOT MET'}"
