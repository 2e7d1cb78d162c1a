"""The leg sketch: every share of a fan is drawn as it is, right of track is below, the words tell no angle."""

from math import atan, degrees, radians, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.figures import check_figure, draw_figure
from app.figures.model import FigureCall
from app.figures.track_sketch import END_X, START_X, TRACK_Y, line_end
from tests.figures.drawings import SVG, Point, root_of, texts

LEGS = st.integers(15, 75)


def ring_at(parameters: dict[str, object]) -> Point:
    """The position is the one open ring."""
    ring = next(each for each in root_of("track-sketch", parameters).iter(f"{SVG}circle") if each.get("r") == "6")
    return float(ring.get("cx")), float(ring.get("cy"))


@given(LEGS, LEGS, st.integers(2, 10), st.sampled_from(["left", "right"]))
def test_the_ring_stands_at_its_share_of_both_fans(gone: int, left: int, tenths: int, side: str) -> None:
    """Share of the fan from A as given; of the fan from B in the ratio of the distances."""
    parameters = {"gone_nm": gone, "left_nm": left, "fraction": tenths / 10, "side": side, "lines": True}
    x, y = ring_at(parameters)
    assert (y > TRACK_Y) == (side == "right")
    for from_start, anchor, share in ((True, START_X, tenths / 10), (False, END_X, tenths / 10 * gone / left)):
        line_x, line_y = line_end(parameters, from_start=from_start, right=side == "right")
        on_line = (line_y - TRACK_Y) * (x - anchor) / (line_x - anchor)
        assert (y - TRACK_Y) / on_line == pytest.approx(share, rel=0.02)


@given(LEGS, LEGS, st.integers(2, 10))
def test_the_lines_reach_as_far_as_the_position(gone: int, left: int, tenths: int) -> None:
    parameters = {"gone_nm": gone, "left_nm": left, "fraction": tenths / 10, "side": "right", "lines": True}
    x, _ = ring_at(parameters)
    assert line_end(parameters, from_start=True, right=True)[0] >= x - 0.1
    assert line_end(parameters, from_start=False, right=True)[0] <= x + 0.1


@given(LEGS, LEGS)
def test_the_leg_is_divided_as_the_miles_are(gone: int, left: int) -> None:
    x, _ = ring_at({"gone_nm": gone, "left_nm": left, "off_nm": 2, "side": "left"})
    assert (x - START_X) / (END_X - START_X) == pytest.approx(gone / (gone + left), abs=0.001)


def test_widened_three_times_where_there_is_room() -> None:
    """2 NM off after 40 is 2.9 degrees; drawn three times as wide it is 8.5."""
    x, y = ring_at({"gone_nm": 40, "left_nm": 40, "off_nm": 2, "side": "left"})
    assert degrees(atan((TRACK_Y - y) / (x - START_X))) == pytest.approx(
        degrees(atan(3 * tan(radians(2.862)))), abs=0.1
    )


@pytest.mark.parametrize("language", ["en", "fr"])
def test_before_the_answer_the_words_tell_tenths_and_no_angle(language: str) -> None:
    call = FigureCall("track-sketch", {"gone_nm": 45, "left_nm": 55, "fraction": 0.7, "side": "left", "lines": True})
    drawing = draw_figure(call, "fr" if language == "fr" else "en")
    assert "7 " in drawing.description
    assert "°" not in drawing.description
    assert "7°" not in texts(root_of(call.name, dict(call.parameters)))


def test_after_it_both_angles_stand_there() -> None:
    parameters = {"gone_nm": 12, "left_nm": 60, "off_nm": 3, "side": "left", "angles": True}
    assert {"15°", "3°"} <= set(texts(root_of("track-sketch", parameters)))


def test_miles_off_or_a_share_not_both() -> None:
    both = {"gone_nm": 12, "left_nm": 60, "off_nm": 3, "fraction": 0.5, "side": "left"}
    assert any("off_nm, or fraction" in problem for problem in check_figure(FigureCall("track-sketch", both)))
