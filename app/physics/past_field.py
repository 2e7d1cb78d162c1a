"""The earth's field since 1900: International Geomagnetic Reference Field, 14th generation, degree 13.

Source: IAGA Working Group V-MOD, IGRF-14, doi 10.5281/zenodo.14012302; `igrf14.shc` beside this module is the file of
coefficients as published, one column each five years; between them the coefficients run straight. Definitive from
1945 to 2020, before that from fewer observations; main field only, to about 0.1 to 0.3 degree where the field is
strong. Axes and signs as in `field`.
"""

from functools import cache
from itertools import pairwise
from pathlib import Path

from app.physics.errors import require
from app.physics.field import Field, field_from
from app.physics.harmonics import Harmonics, vectors_along

PAST_MODEL_NAME = "IGRF-14"
PAST_FROM, PAST_TO = 1900.0, 2025.0
EPOCHS = tuple(range(1900, 2026, 5))
DEFINITIVE_FROM, DEFINITIVE_TO = 1945, 2020
COEFFICIENTS = Path(__file__).with_name("igrf14.shc")
FIRST_LINES = 5  # three of comment, one of sizes, one of epochs


def past_field_at(latitude_deg: float, longitude_deg: float, year: float) -> Field:
    """Field at sea level in a year from 1900.0 to 2025.0; OutOfRange otherwise, NaN included."""
    require("longitude_deg", longitude_deg, -180.0, 180.0)
    require("year", year, PAST_FROM, PAST_TO, f"the years of {PAST_MODEL_NAME} used here")
    begins, ends = next((a, b) for a, b in pairwise(EPOCHS) if a <= year <= b)
    part = (year - begins) / (ends - begins)
    ((north, east, down),) = vectors_along(_between(_at_epochs(), begins, part), latitude_deg, (longitude_deg,))
    return field_from(north, east, down)


@cache
def _at_epochs() -> dict[int, Harmonics]:
    lines = COEFFICIENTS.read_text("ascii").splitlines()
    rows = [line.split() for line in lines[FIRST_LINES:]]
    return {
        epoch: _harmonics({(int(r[0]), int(r[1])): float(r[2 + i]) for r in rows}) for i, epoch in enumerate(EPOCHS)
    }


def _harmonics(values: dict[tuple[int, int], float]) -> Harmonics:
    """Sort a column of the file, whose sines stand under a negative m."""
    degree = max(n for n, _ in values)
    cosines = tuple(tuple(values.get((n, m), 0.0) for m in range(n + 1)) for n in range(degree + 1))
    sines = tuple(tuple(values.get((n, -m), 0.0) if m else 0.0 for m in range(n + 1)) for n in range(degree + 1))
    return Harmonics(cosines, sines)


def _between(at: dict[int, Harmonics], epoch: int, part: float) -> Harmonics:
    first, then = at[epoch], at[epoch + 5]
    mixed = [
        tuple(
            tuple(a + part * (b - a) for a, b in zip(row, later, strict=True))
            for row, later in zip(one, two, strict=True)
        )
        for one, two in ((first.cosines, then.cosines), (first.sines, then.sines))
    ]
    return Harmonics(mixed[0], mixed[1])
