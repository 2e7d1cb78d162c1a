"""A turn seen from above, from first principles: the centre of a right turn lies to the right of the aircraft."""

import re
from math import atan2, cos, degrees, dist, hypot, isclose, radians, sin

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from lxml import etree

from app.figures import check_figure, draw_figure
from app.figures.model import FigureCall
from app.figures.samples import RIGHT_TURN
from app.physics.card import turn_reading_deg
from tests.figures.drawings import SVG, Point, points_of, root_of, texts
from tests.figures.test_every_figure import bounds

HEADING = st.integers(1, 360)
SIDE = st.sampled_from(["left", "right"])
HALF_UNIT = 0.6


def north_of(heading: float) -> Point:
    """Direction of flight on the drawing, north up: x to the east, y to the south."""
    return sin(radians(heading)), -cos(radians(heading))


def ties(parameters: dict[str, object]) -> list[tuple[Point, Point]]:
    lines = [p for p in root_of("turn-from-above", parameters).iter(f"{SVG}path") if p.get("stroke-width") == "1.25"]
    return [(points[0], points[1]) for points in (points_of(line.get("d")) for line in lines)]


def centre_of(root: etree._Element) -> Point:
    """Centre of the first ring: the point as far from three of its points as its radius."""
    arc = next(path.get("d") for path in root.iter(f"{SVG}path") if "A" in path.get("d"))
    (ax, ay), (bx, by), (cx, cy) = (points_of(arc)[at] for at in (1, 12, 24))
    d = 2 * (ax * (by - cy) + bx * (cy - ay) + cx * (ay - by))
    a, b, c = ax * ax + ay * ay, bx * bx + by * by, cx * cx + cy * cy
    return (a * (by - cy) + b * (cy - ay) + c * (ay - by)) / d, (a * (cx - bx) + b * (ax - cx) + c * (bx - ax)) / d


@given(HEADING, HEADING, SIDE, st.integers(-70, 70), st.integers(1, 15))
def test_ties_join_the_aircraft_s_place_to_what_the_card_reads(
    start: int, target: int, turn: str, dip: int, bank: int
) -> None:
    """At the start the aircraft flies along its heading with the centre square to it on the side of the turn."""
    assume(start != target)
    parameters = {"start_deg": start, "target_deg": target, "turn": turn, "dip_deg": dip, "bank_deg": bank}
    sign = 1 if turn == "right" else -1
    joined = ties(parameters | {"show_readings": True})
    centre = centre_of(root_of("turn-from-above", parameters | {"show_readings": True}))
    for heading, (place, reading_at) in ((start, joined[0]), (target, joined[-1])):
        reading = turn_reading_deg(heading, dip, sign * bank)
        for value, spot in ((heading, place), (reading, reading_at)):
            radius = dist(spot, centre)
            ahead = north_of(value)
            right_of_course = (-ahead[1] * sign, ahead[0] * sign)
            assert isclose(spot[0] + right_of_course[0] * radius, centre[0], abs_tol=HALF_UNIT)
            assert isclose(spot[1] + right_of_course[1] * radius, centre[1], abs_tol=HALF_UNIT)


@given(HEADING, HEADING, SIDE, st.integers(-70, 70), st.integers(1, 15), HEADING, HEADING)
def test_any_turn_fits_its_box(start: int, target: int, turn: str, dip: int, bank: int, key: int, yours: int) -> None:  # noqa: PLR0917
    assume(start != target)
    parameters = {"start_deg": start, "target_deg": target, "turn": turn, "dip_deg": dip, "bank_deg": bank}
    for more in ({}, {"show_readings": True, "key_deg": key, "yours_deg": yours}):
        root = root_of("turn-from-above", parameters | more)
        width, height = (float(each) for each in root.get("viewBox").split()[2:])
        assert (width, height <= 420) == (340, True)
        spots = [spot for each in root.iter(f"{SVG}path", f"{SVG}circle", f"{SVG}text") for spot in bounds(each)]
        assert all(-0.5 <= x <= width + 0.5 and -0.5 <= y <= height + 0.5 for x, y in spots)


def test_a_left_turn_is_a_right_turn_in_a_mirror() -> None:
    right = ties(RIGHT_TURN | {"dip_deg": 65, "bank_deg": 15, "show_readings": True})
    left = ties(
        {"start_deg": 90, "target_deg": 360, "turn": "left", "dip_deg": 65, "bank_deg": 15, "show_readings": True}
    )
    mirrored = [tuple((340 - x, y) for x, y in tie) for tie in left]
    assert all(
        dist(a, b) < HALF_UNIT
        for one, other in zip(right, mirrored, strict=True)
        for a, b in zip(one, other, strict=True)
    )


def test_before_the_answer_both_rings_are_numbered_and_nothing_joins_them() -> None:
    assert ties(RIGHT_TURN) == []
    placed = texts(root_of("turn-from-above", RIGHT_TURN))
    assert {"270", "300", "330", "360", "030"} <= set(placed)


def test_words_before_the_answer_hold_no_reading() -> None:
    description = draw_figure(FigureCall("turn-from-above", RIGHT_TURN)).description
    assert re.findall(r"\d+", description) == ["270", "360"]


def test_words_after_the_answer_hold_the_model_s_readings() -> None:
    """Lag on north at dip 68 and the bank of a rate-one turn at 100 kt is 33 degrees: the model's own table."""
    model = {"dip_deg": 68, "bank_deg": 15.4, "show_readings": True, "key_deg": 307}
    description = draw_figure(FigureCall("turn-from-above", RIGHT_TURN | model)).description
    assert "360 reads 327" in description
    assert "triangle marks 307" in description


def test_key_stands_on_the_ring_of_readings() -> None:
    parameters = RIGHT_TURN | {"key_deg": 307, "yours_deg": 323}
    root = root_of("turn-from-above", parameters)
    centre = centre_of(root)
    x, y = next((float(c.get("cx")), float(c.get("cy"))) for c in root.iter(f"{SVG}circle"))
    assert abs((degrees(atan2(x - centre[0], centre[1] - y)) + 90 - 323 + 180) % 360 - 180) < 0.3
    inner = min(hypot(px - centre[0], py - centre[1]) for px, py in points_of(next(
        p.get("d") for p in root.iter(f"{SVG}path") if "A" in p.get("d") and "fig-ink" in p.get("class"))))  # fmt: skip
    assert isclose(dist((x, y), centre), inner + 12, abs_tol=HALF_UNIT)


@pytest.mark.parametrize(
    ("more", "word"),
    [
        ({"target_deg": 270}, "two different headings"),
        ({"turn": "up"}, "one of left, right"),
        ({"show_readings": True}, "dip_deg is missing"),
        ({"show_readings": True, "dip_deg": 80, "bank_deg": 20}, "sum to 85 at most"),
        ({"bank_deg": 80}, "-60 to 60"),
    ],
)
def test_wrong_parameters_are_named(more: dict[str, object], word: str) -> None:
    assert any(word in problem for problem in check_figure(FigureCall("turn-from-above", RIGHT_TURN | more)))
