"""The plan of a runway: it and both norths lie where they should, and it never tells its numbers early."""

from math import atan2, degrees

import pytest

from app.figures import check_figure, draw_figure
from app.figures.model import FigureCall, Language
from tests.figures.drawings import LANGUAGES, SVG, points_of, root_of, texts

PLAN = {"runway_true_deg": 77, "variation_deg": -13, "part": "near"}
ENDS = {"near": -1, "far": 1}


def azimuth(start: tuple[float, float], end: tuple[float, float]) -> float:
    return degrees(atan2(end[0] - start[0], start[1] - end[1])) % 360


@pytest.mark.parametrize("direction", [3, 77, 142, 271, 360])
@pytest.mark.parametrize("part", ["near", "far"])
def test_the_question_mark_stands_at_its_end_of_the_runway(direction: int, part: str) -> None:
    root = root_of("runway-plan", {**PLAN, "runway_true_deg": direction, "part": part})
    corners = next(points_of(path.get("d")) for path in root.iter(f"{SVG}path") if "fig-card-fill" in path.get("class"))
    along = azimuth(corners[3], corners[0])
    assert abs((along - direction + 180) % 360 - 180) < 0.1
    middle = (sum(x for x, _ in corners[:4]) / 4, sum(y for _, y in corners[:4]) / 4)
    x, y = texts(root)["?"]
    # A number is painted where a landing in its direction begins.
    expected = direction if part == "far" else direction + 180
    assert abs((azimuth(middle, (x, y - 0.36 * 24)) - expected + 180) % 360 - 180) < 0.1


@pytest.mark.parametrize("variation", [-24, -8, 8, 24])
def test_magnetic_north_lies_its_variation_from_true(variation: int) -> None:
    root = root_of("runway-plan", {**PLAN, "variation_deg": variation})
    arrows = {
        kind: next(points_of(path.get("d")) for path in root.iter(f"{SVG}path") if f"fig-{kind}" in path.get("class"))
        for kind in ("true", "magnetic")
    }
    assert azimuth(*arrows["true"]) == 0
    assert abs((azimuth(*arrows["magnetic"]) - variation + 180) % 360 - 180) < 0.1


@pytest.mark.parametrize("language", LANGUAGES)
def test_numbers_stay_hidden_until_they_are_painted(language: Language) -> None:
    hidden = draw_figure(FigureCall("runway-plan", PLAN), language)
    assert not {text for text in texts(root_of("runway-plan", PLAN, language)) if text.isdigit()}
    assert not any(f" {number:02d}" in hidden.description for number in (8, 9, 26, 27))
    painted = draw_figure(FigureCall("runway-plan", {**PLAN, "runway": 9}), language).description
    assert "09" in painted
    assert "27" in painted
    assert {"09", "27"} <= set(texts(root_of("runway-plan", {**PLAN, "runway": 9}, language)))


def test_says_what_does_not_fit() -> None:
    said = " ".join(check_figure(FigureCall("runway-plan", {**PLAN, "part": "middle", "runway": 37})))
    assert "near, far, both" in said
    assert "1 to 36" in said
