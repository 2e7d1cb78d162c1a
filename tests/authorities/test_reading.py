"""Published facts of the compass face, row by row."""

from collections.abc import Callable

import pytest

from app.physics import face
from app.physics.angles import middle_of_swing
from tests.authorities.published import Row, row_id, rows
from tests.tolerances import EXACT


def drum_shows_33_right_of_north(_row: Row) -> None:
    assert face.next_label_deg(360.0, "right", "drum") == 330
    assert face.larger_numbers("drum") == "left"
    assert face.card_slides("drum", "right") == "right"


def marks_stand_where_they_are_said_to(_row: Row) -> None:
    assert (face.LABEL_EVERY_DEG, face.LONG_MARK_EVERY_DEG, face.SHORT_MARK_EVERY_DEG) == (30, 10, 5)
    assert {face.nearest_label_deg(letter) for letter in (0, 90, 180, 270)} == {360, 90, 180, 270}


def middle_of_the_swings(_row: Row) -> None:
    assert middle_of_swing(80.0, 100.0) == pytest.approx(90.0, abs=EXACT)
    assert middle_of_swing(350.0, 20.0) == pytest.approx(5.0, abs=EXACT)


CHECKS: dict[str, Callable[[Row], None]] = {
    "drum-seen-from-behind": drum_shows_33_right_of_north,
    "card-marks": marks_stand_where_they_are_said_to,
    "oscillation": middle_of_the_swings,
}


@pytest.mark.parametrize("row", rows("reading"), ids=row_id)
def test_row(row: Row) -> None:
    CHECKS[row["id"]](row)
