"""The piece of chart: places to scale with true north up, lines along their azimuth, rings that carry their number."""

from math import atan2, degrees

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.figures import check_figure, draw_figure
from app.figures.model import FigureCall, WrongFigure
from tests.figures.drawings import SVG, Point, points_of, root_of, texts

A_PIXEL = 1.0


def spot(label: str, mark: str, east: float, north: float) -> dict[str, object]:
    return {"label": label, "mark": mark, "east_nm": east, "north_nm": north}


def rings(parameters: dict[str, object]) -> dict[str, Point]:
    """The middle of each numbered ring: where its number's circle stands."""
    groups = root_of("chart-sketch", parameters).iter(f"{SVG}g")
    found = {}
    for group in groups:
        circle = group.find(f"{SVG}circle")
        assert circle is not None
        found[str(group.get("data-pick"))] = (float(circle.get("cx", "")), float(circle.get("cy", "")))
    return found


@given(st.floats(5, 55), st.floats(5, 45))
def test_places_stand_to_scale_with_north_up(east: float, north: float) -> None:
    """Twelve squares of 5 NM fill 300 units: 5 units a mile, from the lower left corner at (10, 260)."""
    x, y = rings({"square_nm": 5, "spots": [spot("1", "ring", east, north)]})["1"]
    assert x == pytest.approx(10 + 5 * east, abs=A_PIXEL)
    assert y == pytest.approx(260 - 5 * north, abs=A_PIXEL)


@given(st.integers(1, 360))
def test_a_line_runs_along_its_azimuth_to_the_edge(azimuth: int) -> None:
    spots = [spot("A", "landmark", 30, 25), spot("1", "ring", 5, 5)]
    line = [{"from": "A", "bearing_deg": azimuth}]
    root = root_of("chart-sketch", {"square_nm": 5, "spots": spots, "lines": line})
    path = next(path for path in root.iter(f"{SVG}path") if path.get("stroke-width") == "3")
    (x, y), (u, v) = points_of(path.get("d", ""))
    assert (degrees(atan2(u - x, y - v)) - azimuth + 180) % 360 - 180 == pytest.approx(0, abs=0.2)
    assert min(u - 10, 310 - u, v - 10, 260 - v) == pytest.approx(0, abs=0.1)


def test_nothing_tells_the_ring_before_the_answer() -> None:
    spots = [spot("A", "landmark", 30, 25), spot("1", "ring", 5, 5), spot("2", "ring", 50, 5)]
    call = FigureCall("chart-sketch", {"square_nm": 5, "spots": spots})
    assert "key" not in draw_figure(call).description
    assert "The key is 2." in draw_figure(call.with_parameters(key_spot="2")).description


def test_on_paper_nothing_can_be_pressed() -> None:
    parameters: dict[str, object] = {"square_nm": 5, "spots": [spot("1", "ring", 5, 5)]}
    assert not list(root_of("chart-sketch", parameters, "en", "paper").iter(f"{SVG}g"))
    assert "1" in texts(root_of("chart-sketch", parameters, "en", "paper"))


def test_a_place_off_the_chart_is_named() -> None:
    call = FigureCall("chart-sketch", {"square_nm": 5, "spots": [spot("Q", "field", 61, 5)]})
    assert any("Q lies outside the chart of 60 by 50 NM" in problem for problem in check_figure(call))
    other = call.with_parameters(spots=[spot("1", "ring", 5, 5)], key_spot="7")
    assert any("there is no place '7'" in problem for problem in check_figure(other))


def test_a_leg_ends_at_its_place() -> None:
    spots = [spot("P", "aircraft", 30, 25), spot("X", "field", 50, 40)]
    root = root_of("chart-sketch", {"square_nm": 5, "spots": spots, "lines": [{"from": "P", "to": "X"}]})
    path = next(path for path in root.iter(f"{SVG}path") if path.get("stroke-width") == "3")
    (x, y), (u, v) = points_of(path.get("d", ""))
    assert (x, y, u, v) == pytest.approx((160, 135, 260, 60), abs=A_PIXEL)


def test_a_leg_to_nowhere_is_refused() -> None:
    spots = [spot("P", "aircraft", 30, 25), spot("X", "field", 50, 40)]
    with pytest.raises(WrongFigure, match="no place 'Y'"):
        draw_figure(FigureCall("chart-sketch", {"square_nm": 5, "spots": spots, "lines": [{"from": "P", "to": "Y"}]}))
