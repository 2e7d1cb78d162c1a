from math import inf, nan

import pytest

from app.physics.errors import OutOfRange, require, require_positive


def test_out_of_range_keeps_what_it_was_told() -> None:
    error = OutOfRange("bank_deg", 95.0, -90.0, 90.0)
    assert (error.name, error.value, error.low, error.high, error.why) == ("bank_deg", 95.0, -90.0, 90.0, "")
    assert str(error) == "bank_deg is 95, outside -90 to 90"
    assert isinstance(error, ValueError)


def test_out_of_range_says_why() -> None:
    assert str(OutOfRange("year", 2031.0, 2025.0, 2030.0, "the life of the model")).endswith(": the life of the model")


@pytest.mark.parametrize("bound", [-1.0, 0.0, 2.5])
def test_require_accepts_its_bounds(bound: float) -> None:
    assert require("x", bound, -1.0, 2.5) == bound


@pytest.mark.parametrize("value", [nan, inf, -inf, 2.6, -1.1])
def test_require_refuses(value: float) -> None:
    with pytest.raises(OutOfRange, match="x is "):
        require("x", value, -1.0, 2.5)


@pytest.mark.parametrize("value", [nan, inf, 0.0, -0.0, -1.0])
def test_require_positive_refuses(value: float) -> None:
    with pytest.raises(OutOfRange, match="more than nothing"):
        require_positive("x", value)


def test_require_positive_accepts_the_smallest_float() -> None:
    assert require_positive("x", 5e-324) == 5e-324
