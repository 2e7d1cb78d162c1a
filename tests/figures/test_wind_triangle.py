"""The wind triangle: three sides in the directions given, to one scale, with one, two and three heads."""

from math import atan2, degrees, hypot, isclose

from app.figures import check_figure, draw_figure
from app.figures.model import FigureCall
from tests.figures.drawings import SVG, Point, points_of, root_of, texts

# Heading 090 at 100 kt, wind from 180 at 75 kt: by the 3-4-5 triangle the ground speed is 125 kt, 36.87 degrees left.
RIGHT_ANGLED = {
    "heading_deg": 90, "tas_kt": 100, "track_true_deg": 53, "gs_kt": 125, "wind_from_deg": 180, "wind_kt": 75,
}  # fmt: skip
SIDES = {"2": "heading", "2.5": "track", "3": "wind"}


def sides() -> dict[str, tuple[Point, Point]]:
    """Give the sides by the width of their pens; heads are lines through three corners or shorter than any side."""
    found: dict[str, tuple[Point, Point]] = {}
    for path in root_of("wind-triangle", dict(RIGHT_ANGLED)).iter(f"{SVG}path"):
        points, width = points_of(path.get("d")), path.get("stroke-width")
        if width in SIDES and len(points) == 2 and length((points[0], points[1])) > 50:
            found[SIDES[width]] = points[0], points[1]
    return found


def length(side: tuple[Point, Point]) -> float:
    return hypot(side[1][0] - side[0][0], side[1][1] - side[0][1])


def azimuth(side: tuple[Point, Point]) -> float:
    return degrees(atan2(side[1][0] - side[0][0], side[0][1] - side[1][1])) % 360


def test_sides_point_as_they_are_named_and_wind_blows_away_from_its_origin() -> None:
    found = sides()
    assert isclose(azimuth(found["heading"]), 90, abs_tol=0.1)
    assert isclose(azimuth(found["track"]), 53, abs_tol=0.1)
    assert isclose(azimuth(found["wind"]), 360, abs_tol=0.5) or azimuth(found["wind"]) < 0.5


def test_sides_are_to_one_scale_and_close() -> None:
    found = sides()
    assert isclose(length(found["track"]) / length(found["heading"]), 1.25, abs_tol=0.01)
    assert isclose(length(found["wind"]) / length(found["heading"]), 0.75, abs_tol=0.01)
    assert found["heading"][0] == found["track"][0]
    assert found["wind"] == (found["heading"][1], found["track"][1])


def test_one_two_and_three_heads() -> None:
    root = root_of("wind-triangle", dict(RIGHT_ANGLED))
    barbs = [p.get("stroke-width") for p in root.iter(f"{SVG}path") if 5 < length(ends(p)) < 30]
    assert [barbs.count(width) / 2 for width in SIDES] == [1, 2, 3]


def ends(path: object) -> tuple[Point, Point]:
    points = points_of(path.get("d"))  # type: ignore[attr-defined]
    return points[0], points[-1]


def test_words_and_labels() -> None:
    said = draw_figure(FigureCall("wind-triangle", RIGHT_ANGLED)).description
    assert "Heading 090, 100\u00a0kt (one head)" in said
    assert {"090", "053", "180"} <= set(texts(root_of("wind-triangle", dict(RIGHT_ANGLED))))


def test_a_wind_that_does_not_close_the_triangle_is_refused() -> None:
    call = FigureCall("wind-triangle", {**RIGHT_ANGLED, "wind_from_deg": 360})
    assert any("miss each other by 150 kt" in problem for problem in check_figure(call))
