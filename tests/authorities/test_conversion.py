"""Published conversions between true, magnetic and compass, row by row."""

import pytest

from app.physics.headings import compass_from, magnetic_from_compass_heading, magnetic_from_true, true_from_magnetic
from tests.authorities.published import Row, row_id, rows
from tests.tolerances import EXACT


def toward_compass(inputs: dict[str, float]) -> dict[str, float]:
    found: dict[str, float] = {}
    true = inputs.get("true")
    if "true_course" in inputs:
        true = found["true_heading"] = inputs["true_course"] + inputs["wind_correction"]
    magnetic = inputs.get("magnetic")
    if true is not None:
        magnetic = found["magnetic"] = magnetic_from_true(true, inputs["variation"])
    if magnetic is not None and "deviation" in inputs:
        found["compass"] = compass_from(magnetic, inputs["deviation"])
    return found


def toward_true(inputs: dict[str, float]) -> dict[str, float]:
    magnetic = magnetic_from_compass_heading(inputs["compass"], inputs["deviation"])
    return {"magnetic": magnetic, "true": true_from_magnetic(magnetic, inputs["variation"])}


def compass_errors(variation_deg: float, deviations_deg: list[float]) -> list[float]:
    """Compass error is true less compass: what both corrections do to a compass heading of 180."""
    steps = (magnetic_from_compass_heading(180.0, deviation) for deviation in deviations_deg)
    return [true_from_magnetic(magnetic, variation_deg) - 180.0 for magnetic in steps]


@pytest.mark.parametrize("row", rows("conversion"), ids=row_id)
def test_row(row: Row) -> None:
    inputs, expected = row["inputs"], row["expected"]
    if "error" in expected:
        assert compass_errors(inputs["variation"], inputs["deviation"]) == pytest.approx(expected["error"], abs=EXACT)
    else:
        found = toward_true(inputs) if "compass" in inputs else toward_compass(inputs)
        assert found == pytest.approx(expected, abs=EXACT)
