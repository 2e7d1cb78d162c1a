"""What the models refuse: a value out of range, and a question that has no answer."""

from math import inf, isfinite


class OutOfRange(ValueError):
    """A quantity lies outside the range in which its formula holds.

    `name` is the quantity with its unit (`bank_deg`), `value` what was given, `low` and `high` the bounds;
    `why` says more where the bounds alone do not.
    """

    def __init__(self, name: str, value: float, low: float, high: float, why: str = "") -> None:
        self.name, self.value, self.low, self.high, self.why = name, value, low, high, why
        message = f"{name} is {value:g}, outside {low:g} to {high:g}"
        super().__init__(f"{message}: {why}" if why else message)


class Undefined(ValueError):
    """The quantity asked for does not exist here, such as the reading of a card that no field turns."""


def require(name: str, value: float, low: float, high: float, why: str = "") -> float:
    """Return `value` if low <= value <= high, else raise OutOfRange. NaN and infinities never pass."""
    if isfinite(value) and low <= value <= high:
        return value
    raise OutOfRange(name, value, low, high, why)


def require_positive(name: str, value: float) -> float:
    """Return `value` if it is more than nothing and finite, else raise OutOfRange."""
    if 0.0 < value < inf:
        return value
    raise OutOfRange(name, value, 0.0, inf, "must be more than nothing")
