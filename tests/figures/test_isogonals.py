"""The chart fragment: the place and the agonic line stand at their share of the way between the lines."""

import pytest
from lxml import etree

from app.figures import check_figure, draw_figure
from app.figures.model import FigureCall, Language
from tests.figures.drawings import LANGUAGES, SVG, points_of, root_of, texts

MIDDLE_Y = 140.0


def at_the_middle(path: etree._Element) -> float:
    (x1, y1), (x2, y2) = points_of(path.get("d"))
    return x1 + (x2 - x1) * (MIDDLE_Y - y1) / (y2 - y1)


def isogonals(root: etree._Element) -> tuple[list[float], list[float]]:
    """Return where dashed lines and where whole lines cross the middle."""
    magnetic = [path for path in root.iter(f"{SVG}path") if path.get("class") == "fig-magnetic"]
    dashed = [at_the_middle(path) for path in magnetic if path.get("stroke-dasharray")]
    return dashed, [at_the_middle(path) for path in magnetic if not path.get("stroke-dasharray")]


@pytest.mark.parametrize(("gone", "left"), [(10, 40), (30, 30), (112, 48)])
def test_the_place_stands_at_its_share_of_the_way(gone: int, left: int) -> None:
    root = root_of("isogonals", {"isogonal_deg": -12, "next_isogonal_deg": -14, "gone_nm": gone, "left_nm": left})
    (first, last), agonic = isogonals(root)
    place = next(float(c.get("cx")) for c in root.iter(f"{SVG}circle"))
    assert abs((place - first) / (last - first) - gone / (gone + left)) < 0.001
    assert not agonic


def test_distances_stand_where_the_slant_of_the_lines_leaves_room() -> None:
    placed = texts(root_of("isogonals", {"isogonal_deg": -12, "next_isogonal_deg": -14, "gone_nm": 20, "left_nm": 80}))
    (first_y, next_y), middle_y = (placed[f"{nm}\u00a0NM"][1] for nm in (20, 80)), 140
    assert first_y > middle_y > next_y


@pytest.mark.parametrize(("first_deg", "next_deg"), [(-3, 7), (8, -2), (-10, 1)])
def test_the_agonic_line_is_whole_and_where_variation_is_nothing(first_deg: int, next_deg: int) -> None:
    root = root_of("isogonals", {"isogonal_deg": first_deg, "next_isogonal_deg": next_deg})
    (first, last), (zero,) = isogonals(root)
    at_zero = first_deg + (next_deg - first_deg) * (zero - first) / (last - first)
    assert abs(at_zero) < 0.01


def test_a_line_marked_nothing_is_the_agonic_line() -> None:
    root = root_of("isogonals", {"isogonal_deg": 0, "next_isogonal_deg": 5, "gone_nm": 10, "left_nm": 10})
    dashed, whole = isogonals(root)
    assert (len(dashed), len(whole)) == (1, 1)
    assert "0°" in texts(root)


@pytest.mark.parametrize(("language", "west"), [("en", "12°\u00a0W"), ("fr", "12°\u00a0O")])
def test_labels_carry_their_letters_over_their_lines(language: Language, west: str) -> None:
    root = root_of("isogonals", {"isogonal_deg": -12, "next_isogonal_deg": 3}, language)
    placed = texts(root)
    assert placed[west][0] < placed["3°\u00a0E"][0]
    assert abs(placed[west][0] - isogonals(root)[0][0]) < 30


@pytest.mark.parametrize("language", LANGUAGES)
def test_words_leave_the_value_at_the_place_to_the_reader(language: Language) -> None:
    call = FigureCall("isogonals", {"isogonal_deg": -12, "next_isogonal_deg": -14, "gone_nm": 20, "left_nm": 20})
    said = draw_figure(call, language).description
    assert "13" not in said
    assert "20\u00a0NM" in said


def test_says_what_does_not_fit() -> None:
    lone = FigureCall("isogonals", {"isogonal_deg": 2, "next_isogonal_deg": 4, "gone_nm": 20})
    assert "gone_nm and left_nm" in " ".join(check_figure(lone))
    same = FigureCall("isogonals", {"isogonal_deg": 2, "next_isogonal_deg": 2})
    assert "must differ" in " ".join(check_figure(same))
