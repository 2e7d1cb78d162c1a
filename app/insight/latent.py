"""Rasch and two-parameter models by marginal maximum likelihood, over the patterns of answers that were seen.

Ability is standard normal; the integral is a sum over fixed nodes. Source: Bock and Aitkin 1981, Psychometrika 46, 443.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

NODES = 61
REACH = 6.0
ROUNDS = 500
CLOSE = 1e-8
RASCH_FROM = 200
TWO_PARAMETER_FROM = 500

Numbers = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class LatentFit:
    """Slope a and difficulty b of every item, chance right = 1 / (1 + exp(-a (ability - b))); the log likelihood."""

    slopes: tuple[float, ...]
    difficulties: tuple[float, ...]
    log_likelihood: float


def fit_rasch(patterns: NDArray[np.int8], counts: NDArray[np.int_]) -> LatentFit:
    """Return the model with one common slope."""
    return _fit(patterns, counts, common_slope=True)


def fit_two_parameter(patterns: NDArray[np.int8], counts: NDArray[np.int_]) -> LatentFit:
    """Return the model with a slope for every item."""
    return _fit(patterns, counts, common_slope=False)


def _fit(patterns: NDArray[np.int8], counts: NDArray[np.int_], *, common_slope: bool) -> LatentFit:
    nodes = np.linspace(-REACH, REACH, NODES)
    weights = np.exp(-nodes * nodes / 2)
    weights /= weights.sum()
    share = (counts[:, None] * patterns).sum(axis=0) / counts.sum()
    slopes = np.ones(patterns.shape[1])
    intercepts = np.log(share / (1 - share))
    last = -np.inf
    for _ in range(ROUNDS):
        likelihood = _pattern_likelihood(patterns, nodes, slopes, intercepts)
        joint = likelihood * weights
        marginal = joint.sum(axis=1)
        log_likelihood = float((counts * np.log(marginal)).sum())
        expected = joint / marginal[:, None] * counts[:, None]
        people, right = expected.sum(axis=0), patterns.T @ expected
        slopes, intercepts = _improve(nodes, people, right, slopes, intercepts, common_slope=common_slope)
        if abs(log_likelihood - last) < CLOSE:
            break
        last = log_likelihood
    return LatentFit(tuple(map(float, slopes)), tuple(map(float, -intercepts / slopes)), log_likelihood)


def _pattern_likelihood(patterns: NDArray[np.int8], nodes: Numbers, slopes: Numbers, intercepts: Numbers) -> Numbers:
    """Return P(pattern | node) for every pattern and node."""
    logits = slopes[:, None] * nodes + intercepts[:, None]
    log_right, log_wrong = -np.logaddexp(0, -logits), -np.logaddexp(0, logits)
    return np.asarray(np.exp(patterns @ log_right + (1 - patterns) @ log_wrong))


def _improve(
    nodes: Numbers, people: Numbers, right: Numbers, slopes: Numbers, intercepts: Numbers, *, common_slope: bool
) -> tuple[Numbers, Numbers]:
    """Take Newton steps of the expected log likelihood: intercepts and slopes, jointly an item or one slope for all."""
    for _ in range(3):
        p = 1 / (1 + np.exp(-(slopes[:, None] * nodes + intercepts[:, None])))
        rest, weight = right - people * p, people * p * (1 - p)
        g0, g1 = rest.sum(axis=1), (rest * nodes).sum(axis=1)
        h00, h01, h11 = weight.sum(axis=1), (weight * nodes).sum(axis=1), (weight * nodes * nodes).sum(axis=1)
        if common_slope:
            step = (g1 - h01 * g0 / h00).sum() / (h11 - h01 * h01 / h00).sum()
            slopes = slopes + step
            intercepts = intercepts + (g0 - h01 * step) / h00
        else:
            size = h00 * h11 - h01 * h01
            slopes = slopes + (h00 * g1 - h01 * g0) / size
            intercepts = intercepts + (h11 * g0 - h01 * g1) / size
    return slopes, intercepts
