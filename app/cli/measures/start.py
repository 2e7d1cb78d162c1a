"""How long a start takes on a set-up machine: from the command line to the first page answered, database included."""

from collections.abc import Iterator
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import monotonic
from urllib.request import urlopen

from app.cli.measures import Reading
from app.cli.measures.serving import serving

STARTS = 5
GOAL_S = 1.5


def measure() -> Iterator[Reading]:
    """Yield the first start, which makes the database, and the median of those after it."""
    with TemporaryDirectory() as folder:
        yield Reading("start to first answer, new database", start_s(Path(folder)), "s")
        later = median(start_s(Path(folder)) for _ in range(STARTS))
    yield Reading("start to first answer", later, "s", GOAL_S)


def start_s(instance: Path) -> float:
    """Start the server on a free port, read its front page and stop it; return the seconds until the page was there."""
    started = monotonic()
    with serving(instance) as served, urlopen(served.address) as page:  # noqa: S310 - our own server on this machine
        page.read()
        return monotonic() - started
