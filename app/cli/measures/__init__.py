"""What the benchmark measures: one module a measure, each a function that yields readings."""

from collections.abc import Callable
from dataclasses import dataclass
from statistics import median
from time import process_time

BATCHES = 7


@dataclass(frozen=True)
class Reading:
    """One measured value; `goal` is the most that is wanted, where there is a goal."""

    name: str
    value: float
    unit: str
    goal: float | None = None


def cpu_ms(act: Callable[[], object], rounds: int) -> float:
    """Return the processor time of one act in milliseconds: the median of several batches, the first one left out."""
    batches = []
    for _ in range(BATCHES + 1):
        started = process_time()
        for _ in range(rounds):
            act()
        batches.append((process_time() - started) * 1000 / rounds)
    return median(batches[1:])
