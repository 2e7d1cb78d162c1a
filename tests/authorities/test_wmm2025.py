"""Published test values of the World Magnetic Model 2025, every row within its printed rounding.

Source: NOAA NCEI and British Geological Survey: the table of the technical report and the test-value file published
with the coefficients (half of its rows). Status: published; US Government work.
"""

import csv

import pytest

from app.physics.angles import signed
from app.physics.field import field_at
from tests.authorities.published import FOLDER
from tests.tolerances import PRINTED_HUNDREDTH, PRINTED_TENTH

Values = dict[str, str]


def published() -> list[Values]:
    with (FOLDER / "wmm2025.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def place_and_time(row: Values) -> str:
    return " ".join(row[name] for name in ("set", "date", "altitude_km", "lat", "lon"))


def test_both_sets_are_there() -> None:
    sets = [row["set"] for row in published()]
    assert (sets.count("TR12"), sets.count("TV100")) == (12, 50)


@pytest.mark.parametrize("row", published(), ids=place_and_time)
def test_field_matches_every_printed_number(row: Values) -> None:
    """Angles are printed to 0.01 degree; strengths to 0.1 nT in the table, and held to the same in the file."""
    longitude_deg = signed(float(row["lon"]))  # the table counts longitude from 0 to 360
    field = field_at(float(row["lat"]), longitude_deg, float(row["date"]), float(row["altitude_km"]))
    for name, found in (("D", field.declination_deg), ("I", field.dip_deg)):
        assert found == pytest.approx(float(row[name]), abs=PRINTED_HUNDREDTH)
    strengths = (field.horizontal_nt, field.north_nt, field.east_nt, field.down_nt, field.total_nt)
    for name, found in zip("HXYZF", strengths, strict=True):
        assert found == pytest.approx(float(row[name]), abs=PRINTED_TENTH)
