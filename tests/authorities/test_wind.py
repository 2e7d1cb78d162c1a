"""Wind: the published tolerances belong to marking; the triangle is held to whole vectors here."""

from math import atan2, cos, degrees, hypot, radians, sin

import pytest

from app.physics.angles import difference
from app.physics.wind import solve_heading
from tests.authorities.published import all_rows, rows
from tests.tolerances import EXACT


def test_marking_tolerances_are_left_to_the_packs() -> None:
    assert [row["id"] for row in all_rows("wind")] == ["tolerances"]
    assert rows("wind") == []


@pytest.mark.parametrize("wind_from_deg", range(0, 360, 30))
@pytest.mark.parametrize("track_deg", [0, 45, 133, 270, 359])
def test_air_vector_and_wind_add_to_the_ground_vector(track_deg: int, wind_from_deg: int) -> None:
    """Independent of the formula: plain vectors, east and north."""
    solution = solve_heading(track_deg, 100.0, wind_from_deg, 30.0)
    heading, wind = radians(solution.heading_deg), radians(wind_from_deg)
    east, north = 100.0 * sin(heading) - 30.0 * sin(wind), 100.0 * cos(heading) - 30.0 * cos(wind)
    assert hypot(east, north) == pytest.approx(solution.gs_kt, abs=EXACT)
    assert difference(degrees(atan2(east, north)), track_deg) == pytest.approx(0.0, abs=EXACT)
