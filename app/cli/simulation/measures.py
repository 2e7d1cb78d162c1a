"""A figure with its aim; how predictions agree with what came: log loss, Brier score, calibration error."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import log

BINS = 10
Pair = tuple[float, float]  # predicted, and what came: 0 or 1, or the true probability


@dataclass(frozen=True, slots=True)
class Figure:
    """One measured figure with its aim: at most, at least, or none."""

    name: str
    value: float
    aim: float | None = None
    at_least: bool = False

    @property
    def met(self) -> bool | None:
        """Whether the aim was met; None where there is none."""
        if self.aim is None:
            return None
        return self.value >= self.aim if self.at_least else self.value <= self.aim


def log_loss(pairs: Sequence[Pair]) -> float:
    """Return the mean of -ln of the probability given to what came."""
    return -sum(came * log(p) + (1 - came) * log(1 - p) for p, came in pairs) / len(pairs)


def brier(pairs: Sequence[Pair]) -> float:
    """Return the mean squared difference."""
    return sum((p - came) ** 2 for p, came in pairs) / len(pairs)


def calibration_error(pairs: Sequence[Pair]) -> float:
    """Return the mean, weighted by count, of |mean predicted - mean that came| over ten equal bins."""
    bins: list[list[Pair]] = [[] for _ in range(BINS)]
    for p, came in pairs:
        bins[min(int(p * BINS), BINS - 1)].append((p, came))
    gaps = (abs(sum(p for p, _ in each) - sum(came for _, came in each)) for each in bins)
    return sum(gaps) / len(pairs)


def constant_loss(pairs: Sequence[Pair]) -> float:
    """Return the log loss of who says the same of every answer: the share that came."""
    share_right = sum(came for _, came in pairs) / len(pairs)
    return log_loss([(share_right, came) for _, came in pairs])


def share(seen: Sequence[bool]) -> float:
    """Return how many of them are true, as a share."""
    return sum(seen) / len(seen) if seen else 0.0
