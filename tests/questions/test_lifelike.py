"""Numbers as a pilot meets them: a chart's isogonals lie far apart, and a wind is given in tens of degrees."""

from app.questions.draw import draw
from tests.questions.engine import home, library

DRAWS = range(200)


def test_a_degree_of_variation_is_tens_of_miles() -> None:
    asked = [draw(library(), "isogonal-read", seed, home(), "choice").solution.given for seed in DRAWS]
    points = [given for given in asked if given["ask"] == "point"]
    assert len(points) > len(DRAWS) / 3
    for given in points:
        apart_deg = abs(given["next_isogonal_deg"] - given["isogonal_deg"])
        assert 30 <= (given["gone_nm"] + given["left_nm"]) / apart_deg <= 110, given


def test_the_wind_is_in_tens_of_degrees() -> None:
    asked = [draw(library(), "drift-sense", seed, home(), "choice").solution.given for seed in DRAWS]
    winds = [given for given in asked if given["ask"] == "wind"]
    assert winds
    for given in winds:
        assert given["wind_from_deg"] % 10 == given["heading_deg"] % 10 == 0, given
