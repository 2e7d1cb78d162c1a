"""Measures of predictions against what came: log loss, Brier score, expected calibration error."""

from collections.abc import Sequence
from math import log

BINS = 10
Pair = tuple[float, float]  # predicted, and what came: 0 or 1, or the true probability


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
