"""IGRF-14, a second field model by other people, through ppigrf (test only).

Where the compass is usable (H >= 6000 nT) the two declinations start within 0.14 degree of each other in 2025; both
forecast how the field changes, so they part a little each year, and stay within half of the uncertainty WMM2025 states
for itself (one standard deviation) to the end of 2029. Source: International Geomagnetic Reference Field, 14th
generation, IAGA.
"""

from collections.abc import Callable
from datetime import datetime
from math import atan2, degrees, hypot

import pytest

from app.physics.angles import difference
from app.physics.field import CAUTION_NT, MODEL_FROM, decimal_year, declination_uncertainty_deg, field_at

MODELS_APART_AT_START_DEG = 0.14
SHARE_OF_UNCERTAINTY = 0.5
MODELS_APART_NT = 200.0
DAYS = (datetime(2025, 1, 1), datetime(2027, 7, 1), datetime(2029, 12, 31))  # noqa: DTZ001 - ppigrf takes naive days
Parts = tuple[float, float, float]  # north, east, down
Model = Callable[[float, float, datetime], Parts]


@pytest.fixture(scope="module")
def igrf() -> Model:
    """Import here: it brings pandas and scipy, which no other test needs."""
    from ppigrf import igrf as calculate  # noqa: PLC0415 - see above

    def field(latitude_deg: float, longitude_deg: float, day: datetime) -> Parts:
        east, north, up = (float(part.flat[0]) for part in calculate(longitude_deg, latitude_deg, 0.0, day))
        return north, east, -up

    return field


@pytest.mark.parametrize("day", DAYS, ids=lambda day: day.date().isoformat())
@pytest.mark.parametrize("latitude_deg", [-75.0, -47.0, -33.0, -12.0, 0.0, 21.0, 45.0, 52.0, 64.0, 71.0])
def test_declination_agrees_with_a_second_model(igrf: Model, latitude_deg: float, day: datetime) -> None:
    for longitude_deg in range(-180, 180, 30):
        ours = field_at(latitude_deg, longitude_deg, decimal_year(day))
        north, east, down = igrf(latitude_deg, longitude_deg, day)
        assert ours.horizontal_nt == pytest.approx(hypot(north, east), abs=MODELS_APART_NT)
        assert ours.down_nt == pytest.approx(down, abs=MODELS_APART_NT)
        if ours.horizontal_nt >= CAUTION_NT:
            apart = difference(ours.declination_deg, degrees(atan2(east, north)))
            assert abs(apart) <= SHARE_OF_UNCERTAINTY * declination_uncertainty_deg(ours.horizontal_nt)
            assert abs(apart) <= MODELS_APART_AT_START_DEG or decimal_year(day) > MODEL_FROM
