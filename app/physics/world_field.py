"""The field over the whole earth on one day: the World Magnetic Model on a grid, a parallel at a time.

The same model and coefficients as `field`, whose series takes one place; a whole grid there takes seconds. Axes and
signs as in `field`.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache, lru_cache
from importlib.resources import files

from app.physics.errors import require
from app.physics.field import MODEL_FROM, MODEL_NAME, MODEL_TO, decimal_year, field_from
from app.physics.harmonics import Harmonics, vectors_along

STEP_DEG = 2
LATITUDES = tuple(range(90, -91, -STEP_DEG))
LONGITUDES = tuple(range(-180, 181, STEP_DEG))

Grid = tuple[tuple[float, ...], ...]
_Coefficient = tuple[int, int, float, float, float, float]


@dataclass(frozen=True)
class WorldField:
    """Rows from north to south, `LATITUDES`; columns from west to east, `LONGITUDES`; degrees and nanotesla."""

    declination_deg: Grid
    dip_deg: Grid
    horizontal_nt: Grid


@lru_cache(maxsize=4)
def world_field(day: date) -> WorldField:
    """Return the field on a day of the model's life; OutOfRange otherwise."""
    year = require("year", decimal_year(day), MODEL_FROM, MODEL_TO, f"the life of {MODEL_NAME}")
    model = _model_on(year)
    rows = [[field_from(*vector) for vector in vectors_along(model, latitude, LONGITUDES)] for latitude in LATITUDES]
    return WorldField(
        tuple(tuple(each.declination_deg for each in row) for row in rows),
        tuple(tuple(each.dip_deg for each in row) for row in rows),
        tuple(tuple(each.horizontal_nt for each in row) for row in rows),
    )


def _model_on(year: float) -> Harmonics:
    rows = _coefficients()
    passed = year - MODEL_FROM
    cosines = {(n, m): g + passed * g_a_year for n, m, g, _, g_a_year, _ in rows}
    sines = {(n, m): h + passed * h_a_year for n, m, _, h, _, h_a_year in rows}
    degree = max(n for n, *_ in rows)
    return Harmonics(_triangle(cosines, degree), _triangle(sines, degree))


def _triangle(values: dict[tuple[int, int], float], degree: int) -> tuple[tuple[float, ...], ...]:
    return tuple(tuple(values.get((n, m), 0.0) for m in range(n + 1)) for n in range(degree + 1))


@cache
def _coefficients() -> Sequence[_Coefficient]:
    """Read the published table that pygeomag carries: n, m, g, h and their changes a year."""
    lines = files("pygeomag").joinpath("wmm", "WMM_2025.COF").read_text("ascii").splitlines()[1:]
    rows = [line.split() for line in lines if not line.startswith("9999")]
    return [(int(n), int(m), float(g), float(h), float(dg), float(dh)) for n, m, g, h, dg, dh in rows]
