"""Measure the learner model by synthetic learners."""

from collections.abc import Iterator, Sequence

import click

from app.cli.packs import open_library
from app.cli.simulation.course import START
from app.cli.simulation.measures import Figure
from app.cli.simulation.predictions import study_anchored, study_exact, study_predictions
from app.cli.simulation.real import study_services
from app.cli.simulation.shapes import Kin, all_kin
from app.cli.simulation.studies import study_detection, study_selection
from app.packs.library import Library
from app.services.visits import guest

TIMES_ANCHORED = 6
SHARE_EXACT, SHARE_SELECTION, SHARE_SERVICES = 20, 2, 40
REAL_DAYS = 6


@click.command()
@click.option("--learners", type=click.IntRange(6), default=600, show_default=True, help="How many learners.")
@click.option("--seed", type=int, default=1, show_default=True, help="The same seed gives the same figures.")
def command(learners: int, seed: int) -> None:
    """Measure predictions, mastery, misconceptions, selection and readiness by synthetic learners.

    Everything printed is simulated: it says how the model does where its own assumptions (nearly) hold, nothing about
    people. The learners further apart are six times as many, as where the aim of the log loss was set. Selection takes
    half of the learners, the exact posterior a twentieth, the walk through the services a fortieth; at least two,
    six and six.
    """
    click.echo(f"SIMULATED. Learners: {learners}. Seed: {seed}.")
    library = open_library()
    for figure in study_all(library, all_kin(library, guest("en", START).conventions), learners, seed):
        click.echo(write(figure))


def study_all(library: Library, bank: Sequence[Kin], learners: int, seed: int) -> Iterator[Figure]:
    """Yield every figure."""
    yield from study_predictions(bank, learners, seed)
    yield from study_anchored(bank, TIMES_ANCHORED * learners, seed)
    yield from study_exact(bank, max(learners // SHARE_EXACT, 6), seed)
    yield from study_detection(bank, learners, seed)
    yield from study_selection(bank, max(learners // SHARE_SELECTION, 2), seed)
    yield from study_services(library, bank, max(learners // SHARE_SERVICES, 6), REAL_DAYS, seed)


def write(figure: Figure) -> str:
    """Write a figure as one line with its aim."""
    line = f"{figure.name:<58}{figure.value:8.4f}"
    if figure.aim is None:
        return line
    sign = "at least" if figure.at_least else "at most"
    return f"{line}   aim {sign} {figure.aim:g}: {'met' if figure.met else 'NOT MET'}"
