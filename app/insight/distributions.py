"""The few distributions the intervals need: normal, F by the incomplete beta function, Wilson's and a change's."""

from math import erf, exp, lgamma, log, log1p, sqrt

TINY = 1e-300
HALVINGS = 200
NEAR = 1e-10  # a step of Newton's doubles the digits
Z95 = 1.959963984540054


def normal_below(z: float) -> float:
    """Return P(Z < z) of a standard normal."""
    return (1 + erf(z / sqrt(2))) / 2


def wilson(right: int, count: int) -> tuple[float, float]:
    """Return Wilson's 95 % interval of a proportion; (0, 1) without answers. Source: Wilson 1927, JASA 22, 209."""
    if count == 0:
        return 0.0, 1.0
    p, z2 = right / count, Z95 * Z95
    middle = (p + z2 / (2 * count)) / (1 + z2 / count)
    reach = Z95 * sqrt(p * (1 - p) / count + z2 / (4 * count * count)) / (1 + z2 / count)
    return max(0.0, middle - reach), min(1.0, middle + reach)


def change(before: tuple[int, int], after: tuple[int, int]) -> tuple[float, float]:
    """Return the 95 % interval of how far a share rose, each given as right of count; (-1, 1) where one has no answers.

    Source: Agresti and Caffo 2000, The American Statistician 54, 280: a right and a wrong one added on both sides.
    """
    if not (before[1] and after[1]):
        return -1.0, 1.0
    (p, n), (q, m) = (((right + 1) / (count + 2), count + 2) for right, count in (before, after))
    reach = Z95 * sqrt(p * (1 - p) / n + q * (1 - q) / m)
    return max(-1.0, q - p - reach), min(1.0, q - p + reach)


def beta_below(x: float, a: float, b: float) -> float:
    """Return the regularised incomplete beta function I_x(a, b), by its continued fraction.

    Source: NIST Digital Library of Mathematical Functions, 8.17.22.
    """
    if x <= 0 or x >= 1:
        return float(x >= 1)
    if x > (a + 1) / (a + b + 2):
        return 1 - beta_below(1 - x, b, a)
    front = exp(lgamma(a + b) - lgamma(a) - lgamma(b) + a * log(x) + b * log(1 - x)) / a
    return front * _continued_fraction(x, a, b)


def _continued_fraction(x: float, a: float, b: float) -> float:
    """Evaluate 1 / (1 + d1 / (1 + d2 / ...)) by Lentz's method."""
    c, d = 1.0, 1 / (1 - (a + b) * x / (a + 1) or TINY)
    f = d
    for m in range(1, 400):
        for term in (
            m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)),
            -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1)),
        ):
            d = 1 / (1 + term * d or TINY)
            c = 1 + term / c or TINY
            f *= c * d
        if abs(c * d - 1) < 1e-15:
            break
    return f


def beta_quantile(p: float, a: float, b: float) -> float:
    """Return the x with I_x(a, b) = p: Newton's steps, halving where one would leave the bracket."""
    low, high, x = 0.0, 1.0, a / (a + b)
    front = lgamma(a + b) - lgamma(a) - lgamma(b)
    for _ in range(HALVINGS):
        excess = beta_below(x, a, b) - p
        step = excess / exp(front + (a - 1) * log(x) + (b - 1) * log1p(-x))
        if abs(step) <= NEAR * x:
            return x - step
        low, high = (low, x) if excess > 0 else (x, high)
        x = x - step if low < x - step < high else (low + high) / 2
    return x


def f_quantile(p: float, numerator: float, denominator: float) -> float:
    """Return the x with P(F < x) = p for F with these degrees of freedom."""
    x = beta_quantile(p, numerator / 2, denominator / 2)
    return denominator * x / (numerator * (1 - x))
