import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.physics.errors import OutOfRange
from app.physics.fuel import LITRES_PER_UNIT, converted, endurance_min, fuel_for


def test_fuel_for_a_time() -> None:
    assert fuel_for(42.0, 30.0) == 21.0


def test_endurance_keeps_the_reserve() -> None:
    assert endurance_min(100.0, 30.0) == 200.0
    assert endurance_min(100.0, 30.0, 45.0) == 155.0
    assert endurance_min(10.0, 30.0, 45.0) == -25.0


@given(st.floats(1.0, 500.0), st.sampled_from(sorted(LITRES_PER_UNIT)), st.sampled_from(sorted(LITRES_PER_UNIT)))
def test_units_come_back(quantity: float, unit: str, other: str) -> None:
    assert converted(converted(quantity, unit, other), other, unit) == pytest.approx(quantity, rel=1e-9)


def test_gallons_and_pounds() -> None:
    """A US gallon is 3.785 L, an imperial one 4.546 L (exact by definition); avgas weighs 6.0 lb a US gallon."""
    assert converted(1.0, "US gal", "L") == pytest.approx(3.785411784)
    assert converted(1.0, "imp gal", "L") == pytest.approx(4.54609)
    assert converted(1.0, "US gal", "lb") == pytest.approx(6.0, abs=0.02)


def test_an_engine_that_burns_nothing_is_refused() -> None:
    with pytest.raises(OutOfRange, match="burn_per_h"):
        endurance_min(100.0, 0.0)
