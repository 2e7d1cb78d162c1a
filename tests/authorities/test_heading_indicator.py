"""Published facts of the heading indicator, row by row."""

from collections.abc import Callable

import pytest

from app.physics.gyro import (
    CHECK_EVERY_MIN,
    ROUNDED_EARTH_RATE_DEG_H,
    earth_wander_deg_h,
    transport_wander_deg_h,
)
from app.physics.units import EARTH_RATE_DEG_H
from tests.authorities.published import Row, row_id, rows
from tests.tolerances import EXACT, PRINTED_TENTH


def falls_in_the_north(row: Row) -> None:
    wander = [earth_wander_deg_h(latitude, ROUNDED_EARTH_RATE_DEG_H) for latitude in row["inputs"]["latitude"]]
    assert wander == pytest.approx(row["expected_per_hour"], abs=PRINTED_TENTH)
    assert earth_wander_deg_h(90.0) == -EARTH_RATE_DEG_H == -15.04


def eastward_lowers_in_the_north(_row: Row) -> None:
    assert transport_wander_deg_h(45.0, 60.0) == pytest.approx(-1.0, abs=EXACT)
    assert transport_wander_deg_h(45.0, -60.0) == pytest.approx(1.0, abs=EXACT)
    assert transport_wander_deg_h(-45.0, 60.0) == pytest.approx(1.0, abs=EXACT)


def every_quarter_hour(_row: Row) -> None:
    assert CHECK_EVERY_MIN == 15.0


CHECKS: dict[str, Callable[[Row], None]] = {
    "earth-rate": falls_in_the_north,
    "transport-wander": eastward_lowers_in_the_north,
    "realign": every_quarter_hour,
}


@pytest.mark.parametrize("row", rows("heading_indicator"), ids=row_id)
def test_row(row: Row) -> None:
    CHECKS[row["id"]](row)
