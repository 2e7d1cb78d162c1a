"""The leg over meridians: every angle drawn is the angle written, and meridians draw together toward the near pole."""

from math import atan2, degrees

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.figures import check_figure
from app.figures.model import FigureCall
from tests.figures.drawings import SVG, Point, points_of, root_of, texts

MIDDLES = st.one_of(st.integers(56, 124), st.integers(236, 304))


def azimuth(start: Point, end: Point) -> float:
    return degrees(atan2(end[0] - start[0], start[1] - end[1])) % 360


def lines(first: int, middle: int, last: int) -> tuple[list[float], float]:
    """Return the north of each meridian, in the order met, and the direction of the leg."""
    root = root_of("meridians", {"angle_a_deg": first, "angle_b_deg": middle, "angle_c_deg": last})
    paths = [
        (path.get("class"), path.get("stroke-width"), points_of(path.get("d"))) for path in root.iter(f"{SVG}path")
    ]
    norths = [azimuth(points[0], points[1]) for name, _, points in paths if name == "fig-true"]
    leg = next(azimuth(points[0], points[1]) for _, width, points in paths if width == "3")
    return norths, leg


@given(MIDDLES, st.integers(1, 9), st.sampled_from([-1, 1]))
def test_each_angle_is_drawn_as_it_is_written(middle: int, gap: int, way: int) -> None:
    angles = (middle - way * gap, middle, middle + way * gap)
    norths, leg = lines(*angles)
    for north, angle in zip(norths, angles, strict=True):
        assert (leg - north - angle + 180) % 360 - 180 == pytest.approx(0, abs=0.2)


def test_in_the_north_an_eastbound_leg_turns_toward_the_south_and_meridians_lean_together() -> None:
    """A great circle bears north of east first and south of east later: common practice, no source."""
    norths, _ = lines(86, 90, 94)
    west, middle, east = norths
    assert (west, middle % 360, east) == pytest.approx((4, 0, 356), abs=0.2)


def test_the_three_angles_stand_there() -> None:
    assert {"058", "062", "066", "A", "B"} <= set(
        texts(root_of("meridians", {"angle_a_deg": 58, "angle_b_deg": 62, "angle_c_deg": 66}))
    )


@pytest.mark.parametrize("angles", [(10, 12, 14), (60, 90, 120), (90, 88, 92)])
def test_no_such_leg(angles: tuple[int, int, int]) -> None:
    call = FigureCall("meridians", dict(zip(("angle_a_deg", "angle_b_deg", "angle_c_deg"), angles, strict=True)))
    assert check_figure(call)
