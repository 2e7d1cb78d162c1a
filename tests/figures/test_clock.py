"""The panel clock: every hand where a clock's hands are, by a count of turns; words from which it can be read."""

import re
from math import atan2, degrees, hypot

import pytest

from app.figures import check_figure, draw_figure
from app.figures.model import FigureCall, Language
from tests.figures.drawings import LANGUAGES, SVG, Point, points_of, root_of, texts

CENTRES: tuple[Point, Point] = ((80.0, 82.0), (240.0, 82.0))
# 10:08:42 and 1:59:05 as a watch shows them, and one second before and after twelve.
MOMENTS = [(10, 8, 42), (1, 59, 5), (0, 0, 1), (11, 59, 59), (6, 30, 0), (12, 17, 30)]
HANDS = {"hour": "2", "minute": "3.5", "second": "1.25"}  # by the width of their pens


def seconds(hour: int, minute: int, second: int) -> int:
    return hour % 12 * 3600 + minute * 60 + second


def azimuth(centre: Point, point: Point) -> float:
    return degrees(atan2(point[0] - centre[0], centre[1] - point[1])) % 360


def tip(which: int, hand: str, moment: int) -> float:
    earlier, later = (moment, 43_199) if which == 0 else (0, moment)
    root = root_of("clock", {"clock_s": earlier, "later_clock_s": later})
    centre = CENTRES[which]
    paths = [points_of(path.get("d")) for path in root.iter(f"{SVG}path") if path.get("stroke-width") == HANDS[hand]]
    own = [path for path in paths if hypot(path[0][0] - centre[0], path[0][1] - centre[1]) < 80]
    points = own[0]
    return azimuth(centre, max(points, key=lambda point: hypot(point[0] - centre[0], point[1] - centre[1])))


@pytest.mark.parametrize("which", [0, 1])
@pytest.mark.parametrize("moment", MOMENTS[:3] + MOMENTS[4:])
def test_hands_stand_where_a_clock_has_them(which: int, moment: tuple[int, int, int]) -> None:
    """Twelve hours of 30 degrees, sixty minutes of 6, sixty seconds of 6, each moved on by the smaller hands."""
    hour, minute, second = moment
    minutes = minute + second / 60
    expected = {"hour": 30 * (hour % 12 + minutes / 60), "minute": 6 * minutes, "second": 6 * second}
    for hand, angle in expected.items():
        found = tip(which, hand, seconds(*moment))
        assert abs((found - angle + 180) % 360 - 180) < 0.3, hand


def test_numerals_stand_each_thirty_degrees() -> None:
    root = root_of("clock", {"clock_s": 0, "later_clock_s": 30})
    placed = texts(root)  # of two clocks the later is kept
    for numeral in range(3, 13):
        x, y = placed[str(numeral)]
        assert abs(azimuth(CENTRES[1], (x, y - 0.36 * 15)) - 30 * numeral % 360) % 360 < 0.3


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("moment", [(10, 8, 40), (1, 59, 5), (12, 0, 0), (6, 30, 55), (11, 12, 13)])
def test_the_words_give_the_time_to_one_who_counts(language: Language, moment: tuple[int, int, int]) -> None:
    said = draw_figure(
        FigureCall("clock", {"clock_s": seconds(*moment), "later_clock_s": 43_199}), language
    ).description.split("2:" if language == "en" else "2\u00a0:")[0]
    hour, *rest = re.findall(
        r"(?:(\d) marks? past |à (\d) traits? après )?(\d+)(?:,| and| et|\.)",
        said.split("1:" if language == "en" else "1\u00a0:")[1],
    )
    assert int(hour[2]) == moment[0]
    for (english, french, numeral), value in zip(rest, moment[1:], strict=True):
        assert int(numeral) % 12 * 5 + int(english or french or 0) == value


def test_the_later_moment_comes_later() -> None:
    assert "after clock_s" in " ".join(check_figure(FigureCall("clock", {"clock_s": 60, "later_clock_s": 60})))
    assert "0 to 43199" in " ".join(check_figure(FigureCall("clock", {"clock_s": 60, "later_clock_s": 43_200})))
