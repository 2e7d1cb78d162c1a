"""What it costs to draw an item and put it into words with its figures, against rendering a page."""

from collections.abc import Iterator
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import process_time

from app.cli.measures import Reading, cpu_ms
from app.cli.measures.floor import ROUNDS, floor_application, poster
from app.cli.packs import open_library
from app.packs.library import Library
from app.questions.conventions import Conventions
from app.questions.draw import draw
from app.questions.golden import golden_conventions
from app.questions.wording import word_item

SEEDS = range(1, 31)
GOAL_ORDINARY = 1.0
GOAL_DEAREST = 7.0


def measure() -> Iterator[Reading]:
    """Yield the median family and the dearest one, as multiples of the page alone."""
    library, conventions = open_library(), golden_conventions()
    costs = {family_id: item_ms(library, family_id, conventions) for family_id in library.families}
    with TemporaryDirectory() as folder, floor_application(Path(folder) / "floor.sqlite3") as floor:
        page_ms = cpu_ms(poster(floor, "/page"), ROUNDS)
    dearest = max(costs, key=lambda family_id: costs[family_id])
    yield Reading("item: median family", median(costs.values()), "ms")
    yield Reading("item: median family / page", median(costs.values()) / page_ms, "x", GOAL_ORDINARY)
    yield Reading(f"item: {dearest} / page", costs[dearest] / page_ms, "x", GOAL_DEAREST)


def item_ms(library: Library, family_id: str, conventions: Conventions) -> float:
    """Return the median processor time of one item of a family in milliseconds, its templates compiled before."""
    times = []
    for seed in (*SEEDS, *SEEDS):
        started = process_time()
        word_item(library, draw(library, family_id, seed, conventions), "en")
        times.append((process_time() - started) * 1000)
    return median(times[len(SEEDS) :])
