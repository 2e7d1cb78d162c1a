"""Wind: worked examples of a handbook and of a plotter; the triangle is held to whole vectors as well."""

from math import atan2, cos, degrees, hypot, radians, sin

import pytest

from app.physics.angles import difference
from app.physics.wind import find_wind, solve_heading
from tests.authorities.published import Row, row_id, rows
from tests.tolerances import EXACT


def handbook_triangle(row: Row) -> None:
    solution = solve_heading(**row["inputs"])
    assert solution.gs_kt == pytest.approx(row["expected_gs_kt"], abs=HALF)
    assert -90.0 < solution.wca_deg < 0.0, "the wind comes from the left, and so goes the nose"


def found_by_plotter(row: Row) -> None:
    wind = find_wind(**row["inputs"])
    assert wind.from_deg == pytest.approx(row["expected_from_deg"], abs=HALF)
    assert wind.kt == pytest.approx(row["expected_kt"], abs=A_PENCIL_DOT)


HALF, A_PENCIL_DOT = 0.5, 1.0
CHECKS = {"handbook-triangle": handbook_triangle, "wind-found-by-plotter": found_by_plotter}


@pytest.mark.parametrize("row", rows("wind"), ids=row_id)
def test_row(row: Row) -> None:
    CHECKS[row["id"]](row)


@pytest.mark.parametrize("wind_from_deg", range(0, 360, 30))
@pytest.mark.parametrize("track_deg", [0, 45, 133, 270, 359])
def test_air_vector_and_wind_add_to_the_ground_vector(track_deg: int, wind_from_deg: int) -> None:
    """Independent of the formula: plain vectors, east and north."""
    solution = solve_heading(track_deg, 100.0, wind_from_deg, 30.0)
    heading, wind = radians(solution.heading_deg), radians(wind_from_deg)
    east, north = 100.0 * sin(heading) - 30.0 * sin(wind), 100.0 * cos(heading) - 30.0 * cos(wind)
    assert hypot(east, north) == pytest.approx(solution.gs_kt, abs=EXACT)
    assert difference(degrees(atan2(east, north)), track_deg) == pytest.approx(0.0, abs=EXACT)
