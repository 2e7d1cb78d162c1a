"""Measure the flags of weak spots by synthetic classes."""

import click

from app.cli.packs import open_library
from app.cli.simulate import write
from app.cli.simulation.classes import study_flags
from app.cli.simulation.course import START
from app.cli.simulation.shapes import all_kin
from app.services.visits import guest


@click.command()
@click.option(
    "--classes", type=click.IntRange(1), default=300, show_default=True, help="Classes of each kind and size."
)
@click.option("--seed", type=int, default=1, show_default=True, help="The same seed gives the same figures.")
def command(classes: int, seed: int) -> None:
    """Measure how often a flagged weak spot is one, and how often a class without any is flagged (docs/quality.md)."""
    click.echo(f"SIMULATED. Classes of each kind and size: {classes}. Seed: {seed}.")
    for figure in study_flags(all_kin(open_library(), guest("en", START).conventions), classes, seed):
        click.echo(write(figure))
