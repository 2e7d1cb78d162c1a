"""The IGRF since 1900, against ppigrf, which evaluates the same published coefficients on its own."""

from datetime import datetime
from math import inf, nan

import ppigrf
import pytest

from app.physics.angles import difference
from app.physics.errors import OutOfRange
from app.physics.field import MODEL_FROM, field_at, field_from
from app.physics.past_field import EPOCHS, past_field_at

PLACES = [(45.32, -75.67), (-43.5, 172.5), (69.1, -105.1), (0.0, 0.0), (-33.9, 18.4), (60.2, 25.0), (-67.6, 62.9)]


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("year", [1900, 1912, 1945, 1963, 1988, 2004, 2020, 2025])
def test_as_ppigrf(place: tuple[float, float], year: int) -> None:
    latitude, longitude = place
    east, north, up = (float(part[0]) for part in ppigrf.igrf(longitude, latitude, 0.0, datetime(year, 1, 1)))  # noqa: DTZ001
    ours = past_field_at(latitude, longitude, year)
    # ppigrf mixes the epochs by the day, this module by the year: half a nanotesla in the change of five years.
    assert (ours.north_nt, ours.east_nt, ours.down_nt) == pytest.approx((north, east, -up), abs=0.6)


@pytest.mark.parametrize("place", PLACES)
def test_meets_the_world_magnetic_model_in_2025(place: tuple[float, float]) -> None:
    """Two models of one field: within 0.14 degree where the level field is over 6000 nT."""
    there, ours = field_at(*place, MODEL_FROM), past_field_at(*place, MODEL_FROM)
    if there.horizontal_nt >= 6000:
        assert abs(difference(ours.declination_deg, there.declination_deg)) < 0.14
    assert ours.dip_deg == pytest.approx(there.dip_deg, abs=0.14)


def test_runs_straight_between_the_epochs() -> None:
    first, middle, last = (past_field_at(45.0, -75.0, year) for year in (1950, 1952.5, 1955))
    assert middle.north_nt == pytest.approx((first.north_nt + last.north_nt) / 2, abs=1e-6)
    assert EPOCHS[0] == 1900
    assert EPOCHS[-1] == 2025


@pytest.mark.parametrize("latitude", [90.0, -90.0])
def test_poles_are_places(latitude: float) -> None:
    assert 50_000 < past_field_at(latitude, 10.0, 2000.0).total_nt < 70_000


@pytest.mark.parametrize("place", [(91.0, 0.0, 2000.0), (0.0, 181.0, 2000.0), (0.0, nan, 2000.0), (0.0, 0.0, 1899.9),
                                   (0.0, 0.0, 2025.1), (0.0, 0.0, inf)])  # fmt: skip
def test_refuses_what_is_off_the_map_or_the_years(place: tuple[float, float, float]) -> None:
    with pytest.raises(OutOfRange):
        past_field_at(*place)


def test_components_give_the_angles() -> None:
    field = field_from(10_000.0, -10_000.0, 14_142.135624)
    assert field.declination_deg == pytest.approx(-45.0)
    assert field.dip_deg == pytest.approx(45.0)
    assert field.total_nt == pytest.approx(20_000.0)
