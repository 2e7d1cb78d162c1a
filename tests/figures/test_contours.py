from math import hypot

import pytest

from app.figures.contours import contour, simplified

ANY = float("inf")


def test_circle_is_one_closed_line_of_its_radius() -> None:
    values = [[hypot(x - 10, y - 10) for x in range(21)] for y in range(21)]
    (line,) = contour(values, lambda value: value - 6, ANY)
    assert line[0] == line[-1]
    assert all(hypot(x - 10, y - 10) == pytest.approx(6, abs=0.05) for x, y in line)


def test_plane_is_one_straight_line_from_side_to_side() -> None:
    values = [[float(x + 2 * y) for x in range(9)] for y in range(9)]
    (line,) = contour(values, lambda value: value - 8.5, ANY)
    assert all(x + 2 * y == pytest.approx(8.5) for x, y in line)
    assert sorted((line[0], line[-1])) == [(0, 4.25), (8, 0.25)]


def test_angle_that_runs_round_is_not_crossed_at_its_seam() -> None:
    values = [[(40.0 * x + 180) % 360 - 180 for x in range(9)] for _ in range(3)]
    lines = contour(values, lambda value: (value + 180) % 360 - 180, 90)
    assert [line[0][0] for line in lines] == [0] or all(x == pytest.approx(0) for line in lines for x, _ in line)
    at_140 = contour(values, lambda value: (value - 140 + 180) % 360 - 180, 90)
    assert all(x == pytest.approx(3.5) for line in at_140 for x, _ in line)
    assert len(at_140) == 1


def test_cells_outside_are_left_out() -> None:
    values = [[float(x) for x in range(9)] for _ in range(9)]
    inside = [[1.0 if y < 4 else -1.0 for _ in range(9)] for y in range(9)]
    (line,) = contour(values, lambda value: value - 4.5, ANY, inside)
    assert max(y for _, y in line) == 3


def test_saddle_is_two_lines() -> None:
    assert len(contour([[1.0, -1.0], [-1.0, 1.0]], lambda value: value, ANY)) == 2


def test_simplified_keeps_the_shape() -> None:
    bent = [(0.0, 0.0), (1.0, 0.1), (2.0, 0.0), (3.0, 5.0), (4.0, 0.0)]
    assert simplified(bent, 0.5) == [(0.0, 0.0), (2.0, 0.0), (3.0, 5.0), (4.0, 0.0)]
    assert simplified(bent, 0.01) == bent
    ring = [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 0.0)]
    assert simplified(ring, 0.5) == ring
