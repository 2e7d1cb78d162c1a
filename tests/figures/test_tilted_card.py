"""The tilted card from behind and on its own plane; the parts of the field by vectors, the reading by their sum."""

import re
from math import atan2, cos, degrees, dist, hypot, isclose, radians, sin, tan

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from app.figures import check_figure, draw_figure
from app.figures.model import FigureCall
from app.figures.tilted_card import Tilt
from tests.figures.drawings import SVG, points_of, root_of, texts
from tests.figures.test_every_figure import bounds

CENTRE = (160.0, 146.0)
BANK = st.integers(-45, 45)


@given(BANK, st.sampled_from([1, -1]))
def test_the_vertical_field_is_the_sum_of_its_two_parts(bank: int, down: int) -> None:
    """Z sin p along the card and Z cos p square to it; toward the low wing where the dip is down."""
    tilt = Tilt(bank, down)
    (x, y), along, across, tip = tilt.pivot, tilt.part_along, tilt.part_across, tilt.tip
    assert isclose(dist(along, (x, y)), 140 * abs(sin(radians(bank))), abs_tol=1e-9)
    assert isclose(dist(across, (x, y)), 140 * cos(radians(bank)), abs_tol=1e-9)
    assert isclose(along[0] + across[0] - x, tip[0], abs_tol=1e-9)
    assert isclose(along[1] + across[1] - y, tip[1], abs_tol=1e-9)
    if bank:
        assert (along[1] > y) == (down > 0)


@given(BANK, st.integers(-89, 89))
def test_any_tilt_fits_its_box(bank: int, dip: int) -> None:
    root = root_of("tilted-card", {"bank_deg": bank, "dip_deg": dip})
    height = float(root.get("viewBox").split()[3])
    spots = [spot for each in root.iter(f"{SVG}path", f"{SVG}circle", f"{SVG}text") for spot in bounds(each)]
    assert all(-0.5 <= x <= 320.5 and -0.5 <= y <= height + 0.5 for x, y in spots)


@pytest.mark.parametrize(
    ("bank", "dip", "words"),
    [
        (15, 60, "straight down; a part of it"),
        (15, 60, "the low wing"),
        (-15, -60, "the high wing"),
        (0, 60, "no part"),
    ],
)
def test_words_say_where_the_part_points(bank: int, dip: int, words: str) -> None:
    assert words in draw_figure(FigureCall("tilted-card", {"bank_deg": bank, "dip_deg": dip})).description


@given(st.integers(1, 360), st.integers(-70, 70), st.integers(-40, 40))
def test_card_on_its_plane_reads_what_the_sum_of_the_fields_says(heading: int, dip: int, bank: int) -> None:
    """North on the card points along (-sin h cos p + tan I sin p, cos h); the line at the top reads the angle back."""
    assume(abs(dip) + abs(bank) <= 85)
    h, dip_rad, p = radians(heading), radians(dip), radians(bank)
    right, ahead = -sin(h) * cos(p) + tan(dip_rad) * sin(p), cos(h)
    assume(hypot(right, ahead) > 0.05)
    values = {"heading_deg": heading, "dip_deg": dip, "bank_deg": bank}
    north = texts(root_of("card-plane", values))["N"]
    at = atan2(north[0] - CENTRE[0], CENTRE[1] - (north[1] - 0.36 * 15))
    assert abs((degrees(at - atan2(right, ahead)) + 180) % 360 - 180) < 0.2
    reads = next(text for text in texts(root_of("card-plane", values)) if text.startswith("reads"))
    assert abs((int(reads.split()[1]) + degrees(atan2(right, ahead)) + 180) % 360 - 180) <= 0.5 + 1e-6


def test_on_north_the_error_is_the_model_s_table() -> None:
    """Dip 68, bank 15.4 (100 kt at rate one): 33.3 degrees behind on north."""
    said = draw_figure(FigureCall("card-plane", {"dip_deg": 68, "bank_deg": 15.4})).description
    assert "so the card reads 327" in said


def test_vectors_stay_inside_the_numbers() -> None:
    root = root_of("card-plane", {"dip_deg": 75, "bank_deg": 10, "heading_deg": 200})
    arrows = [points_of(p.get("d")) for p in root.iter(f"{SVG}path") if p.get("stroke-width") == "2.5"]
    assert all(dist(CENTRE, end) <= 63 for arrow in arrows for end in arrow)


@pytest.mark.parametrize(
    ("name", "parameters", "word"),
    [
        ("tilted-card", {"dip_deg": 60}, "bank_deg is missing"),
        ("tilted-card", {"dip_deg": 60, "bank_deg": 60}, "-45 to 45"),
        ("card-plane", {"dip_deg": 80, "bank_deg": 20}, "does not follow such a turn"),
    ],
)
def test_wrong_parameters_are_named(name: str, parameters: dict[str, object], word: str) -> None:
    problems = check_figure(FigureCall(name, parameters))
    assert re.search(word, " ".join(problems))
