"""The logistic curve, from logits to probabilities."""

from math import exp


def sigmoid(x: float) -> float:
    """Return 1 / (1 + e^-x) for any finite x, without overflow."""
    if x >= 0:
        return 1 / (1 + exp(-x))
    grown = exp(x)
    return grown / (1 + grown)
