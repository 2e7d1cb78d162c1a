from math import degrees, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.physics.dipole import dip_from_magnetic_latitude_deg, horizontal_share, magnetic_latitude_from_dip_deg
from app.physics.errors import OutOfRange
from tests.tolerances import EXACT, PRINTED_TENTH


@pytest.mark.parametrize(
    ("latitude", "dip"), [(0.0, 0.0), (90.0, 90.0), (-90.0, -90.0), (45.0, degrees(1.1071487177940904)), (-30.0, -49.1)]
)
def test_dip_steepens_faster_than_latitude(latitude: float, dip: float) -> None:
    """Arctan 2 is 1.1071 radians."""
    assert dip_from_magnetic_latitude_deg(latitude) == pytest.approx(dip, abs=PRINTED_TENTH)


@given(st.floats(-89.0, 89.0))
def test_latitude_comes_back(latitude: float) -> None:
    there = dip_from_magnetic_latitude_deg(latitude)
    assert magnetic_latitude_from_dip_deg(there) == pytest.approx(latitude, abs=1e-6)


def test_share_of_the_level_part() -> None:
    assert [horizontal_share(dip) for dip in (0.0, 60.0, -60.0, 90.0)] == [1.0, 0.5, 0.5, 0.0]
    assert horizontal_share(45.0) == pytest.approx(sqrt(0.5), abs=EXACT)


def test_beyond_the_poles_is_refused() -> None:
    for function in (dip_from_magnetic_latitude_deg, magnetic_latitude_from_dip_deg, horizontal_share):
        with pytest.raises(OutOfRange):
            function(90.5)
