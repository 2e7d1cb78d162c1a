import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.physics import face
from app.physics.angles import difference
from app.physics.turning import TurnSide
from tests.tolerances import EXACT

HEADING = st.floats(0.0, 360.0, exclude_max=True)


def test_vertical_card_is_a_drum_turned_round() -> None:
    assert (face.larger_numbers("drum"), face.larger_numbers("vertical-card")) == ("left", "right")
    for turn in ("left", "right"):
        assert face.card_slides("drum", turn) == turn
        assert face.card_slides("vertical-card", turn) != turn


@pytest.mark.parametrize(
    ("heading", "side", "kind", "label"),
    [
        (40.0, "left", "drum", 60),
        (40.0, "right", "drum", 30),
        (40.0, "right", "vertical-card", 60),
        (40.0, "left", "vertical-card", 30),
        (10.0, "right", "drum", 360),
        (350.0, "left", "drum", 360),
        (90.0, "left", "drum", 120),
        (90.0, "right", "drum", 60),
        (30.0, "right", "drum", 360),
    ],
)
def test_next_label(heading: float, side: TurnSide, kind: face.Face, label: int) -> None:
    assert face.next_label_deg(heading, side, kind) == label


@given(st.integers(0, 3599).map(lambda tenths: tenths / 10.0))
def test_the_heading_stands_between_its_two_labels(heading: float) -> None:
    up, down = (face.next_label_deg(heading, side, "drum") for side in ("left", "right"))
    assert 0.0 < difference(up, heading) <= 30.0
    assert 0.0 < difference(heading, down) <= 30.0


@given(HEADING)
def test_counting_the_wrong_way_twice_is_right(heading: float) -> None:
    label = face.nearest_label_deg(heading)
    mirrored = face.mirrored_reading_deg(heading)
    assert abs(difference(heading, label)) <= 15.0 + EXACT
    assert difference(mirrored, label) == pytest.approx(difference(label, heading), abs=EXACT)


@pytest.mark.parametrize(("heading", "label"), [(14.0, 360), (15.0, 30), (344.9, 330), (345.0, 360), (100.0, 90)])
def test_nearest_label(heading: float, label: int) -> None:
    assert face.nearest_label_deg(heading) == label
