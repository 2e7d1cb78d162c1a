from datetime import date
from random import Random

import pytest

from app.physics.angles import difference
from app.physics.errors import OutOfRange
from app.physics.field import field_at
from app.physics.world_field import LATITUDES, LONGITUDES, world_field

DAY = date(2026, 11, 28)
NANOTESLA = 0.01


def test_grid_is_the_model_place_by_place() -> None:
    """Against pygeomag's own series, which the tests of authorities hold to the published values."""
    world, drawn = world_field(DAY), Random(4)
    for _ in range(400):
        row, column = drawn.randrange(1, len(LATITUDES) - 1), drawn.randrange(len(LONGITUDES))
        there = field_at(LATITUDES[row], LONGITUDES[column], DAY)
        assert world.horizontal_nt[row][column] == pytest.approx(there.horizontal_nt, abs=NANOTESLA)
        assert world.dip_deg[row][column] == pytest.approx(there.dip_deg, abs=1e-5)
        assert difference(world.declination_deg[row][column], there.declination_deg) == pytest.approx(0.0, abs=1e-3)


def test_poles_are_rows_like_others() -> None:
    world = world_field(DAY)
    for row, latitude in ((0, 90.0), (-1, -90.0)):
        assert world.horizontal_nt[row] == pytest.approx([field_at(latitude, 0.0, DAY).horizontal_nt] * 181, abs=1.0)


@pytest.mark.parametrize("day", [date(2024, 12, 31), date(2030, 1, 2)])
def test_day_must_lie_in_the_model_s_life(day: date) -> None:
    with pytest.raises(OutOfRange):
        world_field(day)
