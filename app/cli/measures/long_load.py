"""Whether the real server loses, tears or keeps twice any of a hundred thousand answers, and its memory by then."""

from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

from app.cli.measures import Reading
from app.cli.measures.load import MOST_MB, practise_together, wrong
from app.cli.measures.serving import serving
from app.web.settings import DATABASE_FILE

ANSWERS = 100_000
CONNECTIONS = 16
NAME = f"long load: {CONNECTIONS} connections"


def measure() -> Iterator[Reading]:
    """Yield what went wrong while many browsers answered, until so many answers were accepted or all have failed."""
    with TemporaryDirectory() as folder:
        with serving(Path(folder)) as served:
            seen = practise_together(served, CONNECTIONS, lambda seen: len(seen.accepted) >= ANSWERS)
            memory_mb = served.worker_mb()
        yield from wrong(NAME, seen, Path(folder) / DATABASE_FILE)
    if memory_mb is not None:
        yield Reading(f"{NAME}, largest worker", memory_mb, "MB", MOST_MB)
