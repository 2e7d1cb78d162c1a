"""Published facts of the speed-change error, row by row."""

from collections.abc import Callable

import pytest

from app.physics.card import reading_deg, speed_change_reading_deg, speed_swing
from tests.authorities.published import Row, row_id, rows
from tests.physics.card_vectors import apparent_vertical, lubber_line
from tests.tolerances import EXACT

DIP_DEG = 68.0
TENTH_G = 0.1


def east_and_west_swing_to_a_pole(_row: Row) -> None:
    assert {speed_swing(heading, DIP_DEG, TENTH_G) for heading in (90.0, 270.0)} == {"north"}
    assert {speed_swing(heading, DIP_DEG, -TENTH_G) for heading in (90.0, 270.0)} == {"south"}
    assert speed_change_reading_deg(90.0, DIP_DEG, TENTH_G) < 90.0
    assert speed_change_reading_deg(270.0, DIP_DEG, TENTH_G) > 270.0


def nothing_on_north_and_south(_row: Row) -> None:
    for heading in (0.0, 180.0):
        for forward_g, up_g in ((TENTH_G, 0.0), (-TENTH_G, 0.0), (0.0, 0.3), (TENTH_G, -0.3)):
            shown = reading_deg(heading, DIP_DEG, forward_g=forward_g, up_g=up_g)
            assert shown == pytest.approx(heading, abs=EXACT)
            assert speed_swing(heading, DIP_DEG, forward_g) == "none"


def forward_edge_sinks(_row: Row) -> None:
    for heading in range(0, 360, 45):
        faster = lubber_line(heading, apparent_vertical(heading, 0.0, TENTH_G))
        slower = lubber_line(heading, apparent_vertical(heading, 0.0, -TENTH_G))
        assert faster[2] > 0.0 > slower[2]


CHECKS: dict[str, Callable[[Row], None]] = {
    "east-west": east_and_west_swing_to_a_pole,
    "north-south": nothing_on_north_and_south,
    "forward-edge-sinks": forward_edge_sinks,
}


@pytest.mark.parametrize("row", rows("acceleration"), ids=row_id)
def test_row(row: Row) -> None:
    CHECKS[row["id"]](row)
