import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.physics.units import (
    KNOT_MS,
    hpa_from_inhg,
    inhg_from_hpa,
    km_from_nm,
    nm_from_km,
    nm_from_sm,
    sm_from_nm,
)

LENGTH = st.floats(0.0, 1000.0)


@given(LENGTH)
def test_lengths_come_back(length: float) -> None:
    assert nm_from_sm(sm_from_nm(length)) == pytest.approx(length)
    assert nm_from_km(km_from_nm(length)) == pytest.approx(length)


@given(st.floats(25.0, 32.0))
def test_pressures_come_back(inhg: float) -> None:
    assert inhg_from_hpa(hpa_from_inhg(inhg)) == pytest.approx(inhg)


def test_known_lengths_and_pressures() -> None:
    """A nautical mile is 1852 m, a statute mile 0.869 NM; 29.92 inHg is 1013.2 hPa, 1013.25 hPa is 29.921 inHg."""
    assert km_from_nm(1.0) == 1.852
    assert nm_from_sm(1.0) == pytest.approx(0.869, abs=0.0005)
    assert hpa_from_inhg(29.92) == pytest.approx(1013.2, abs=0.05)
    assert inhg_from_hpa(1013.25) == pytest.approx(29.921, abs=0.0005)
    assert pytest.approx(0.5144, abs=0.00005) == KNOT_MS
