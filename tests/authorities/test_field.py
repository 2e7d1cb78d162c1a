"""Published facts of the field model's own limits, row by row."""

from collections.abc import Callable
from math import sqrt

import pytest
from pygeomag import GeoMag

from app.physics.field import declination_uncertainty_deg, field_at, zone
from app.physics.headings import magnetic_from_true, runway_number
from tests.authorities.published import Row, row_id, rows
from tests.tolerances import EXACT

RESOLUTE = (74.72, -94.97)  # in Canada's Northern Domestic Airspace
MID_LIFE = 2027.5


def zones(_row: Row) -> None:
    found = [zone(horizontal) for horizontal in (0.0, 1999.9, 2000.0, 5999.9, 6000.0, 40_000.0)]
    assert found == ["blackout", "blackout", "caution", "caution", "normal", "normal"]


def uncertainty(_row: Row) -> None:
    """The formula as printed, and the same number from pygeomag's own error model."""
    assert declination_uncertainty_deg(5417.0) == pytest.approx(sqrt(0.26**2 + 1.0), abs=EXACT)
    result = GeoMag(coefficients_file="wmm/WMM_2025.COF").calculate(glat=45.0, glon=-75.0, alt=0.0, time=MID_LIFE)
    assert declination_uncertainty_deg(result.h) == pytest.approx(result.calculate_uncertainty().d, abs=EXACT)


def erratic_in_the_north(_row: Row) -> None:
    field = field_at(*RESOLUTE, MID_LIFE)
    assert zone(field.horizontal_nt) == "caution"
    assert runway_number(347.0) != runway_number(magnetic_from_true(347.0, field.declination_deg))


CHECKS: dict[str, Callable[[Row], None]] = {
    "zones": zones,
    "declination-uncertainty": uncertainty,
    "northern-domestic-airspace": erratic_in_the_north,
}


@pytest.mark.parametrize("row", rows("field"), ids=row_id)
def test_row(row: Row) -> None:
    CHECKS[row["id"]](row)
