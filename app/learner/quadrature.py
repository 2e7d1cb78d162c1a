"""Nodes and weights that integrate a smooth function over a normal distribution (Gauss and Hermite)."""

from functools import lru_cache
from math import sqrt

GRID = 4000
HALVINGS = 60


@lru_cache(maxsize=8)
def normal_nodes(count: int) -> tuple[tuple[float, float], ...]:
    """Return (x, weight) pairs, weights summing to 1, exact for polynomials up to degree 2 count - 1 under N(0, 1).

    Roots of the orthonormal Hermite polynomial, bracketed on a grid and halved to the last bit; the weight at a root is
    1 over the sum of the squared lower polynomials there. Source: Golub and Welsch 1969, Math. Comp. 23, 221 to 230.
    """
    reach = 2 * sqrt(count) + 1
    grid = [reach * (2 * i / GRID - 1 + 1e-9) for i in range(GRID + 1)]
    values = [_polynomials(count, x)[-1] for x in grid]
    roots = [_halve(count, grid[i], grid[i + 1]) for i in range(GRID) if (values[i] < 0) != (values[i + 1] < 0)]
    return tuple((x, 1 / sum(value * value for value in _polynomials(count, x)[:-1])) for x in roots)


def _polynomials(count: int, x: float) -> list[float]:
    """Return the orthonormal Hermite polynomials of degree 0 to `count` at x."""
    values = [1.0, x]
    for n in range(1, count):
        values.append((x * values[n] - sqrt(n) * values[n - 1]) / sqrt(n + 1))
    return values[: count + 1]


def _halve(count: int, low: float, high: float) -> float:
    below = _polynomials(count, low)[-1] < 0
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        if (_polynomials(count, middle)[-1] < 0) == below:
            low = middle
        else:
            high = middle
    return (low + high) / 2
