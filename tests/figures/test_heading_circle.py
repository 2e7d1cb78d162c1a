"""The circle of headings: what it says of turns and speed changes agrees with the card model and the handbook."""

from itertools import product

import pytest

from app.figures import check_figure, draw_figure
from app.figures.heading_circle_words import half_behind, swing_of
from app.figures.model import FigureCall
from app.physics.card import speed_swing, turn_sense
from tests.figures.drawings import LANGUAGES, SVG, root_of, texts

EIGHT_POINTS = range(45, 361, 45)
DIP_DEG = {"north": 60.0, "south": -60.0, "none": 0.0}
PACE_G = {"faster": 0.1, "slower": -0.1, "steady": 0.0}


@pytest.mark.parametrize(("hemisphere", "change"), list(product(DIP_DEG, PACE_G)))
def test_swings_as_the_card_model_does(hemisphere: str, change: str) -> None:
    for heading in EIGHT_POINTS:
        values = {"heading_deg": heading, "hemisphere": hemisphere, "speed_change": change}
        assert swing_of(values) == speed_swing(heading, DIP_DEG[hemisphere], PACE_G[change])


@pytest.mark.parametrize("hemisphere", ["north", "south"])
def test_reads_behind_where_the_card_model_does(hemisphere: str) -> None:
    for heading, bank in product((30, 150, 210, 330, 360, 180), (-12, 12)):
        northern_half = heading in {30, 330, 360}
        behind = half_behind({"hemisphere": hemisphere}) == ("north" if northern_half else "south")
        assert turn_sense(heading, DIP_DEG[hemisphere], bank) == ("behind" if behind else "ahead")


def test_handbook_s_own_case() -> None:
    """FAA-H-8083-15B ch. 7: on an easterly heading in the north, speeding up shows a turn to the north."""
    values = {"heading_deg": 90, "hemisphere": "north", "speed_change": "faster", "show_errors": True}
    assert "the reading swings toward north" in texts(root_of("heading-circle", values))


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("action", [{"turn": "left"}, {"speed_change": "slower"}])
def test_before_the_answer_nothing_is_told(action: dict[str, str], language: str) -> None:
    """The drawing is the same in either hemisphere, and so are its words."""
    drawings = {
        draw_figure(FigureCall("heading-circle", {"heading_deg": 45, "hemisphere": half, **action}), language)  # type: ignore[arg-type]
        for half in DIP_DEG
    }
    assert len(drawings) == 1


def test_the_hatched_half_is_the_one_that_reads_behind() -> None:
    for hemisphere, northern in (("north", True), ("south", False)):
        values = {"heading_deg": 45, "hemisphere": hemisphere, "turn": "left", "show_errors": True}
        hatch = [p.get("d") for p in root_of("heading-circle", values).iter(f"{SVG}path") if p.get("stroke") == "#444"]
        ys = [float(path.split("L")[1].split()[1]) for path in hatch[:30]]
        assert all((y < 144) == northern for y in ys)


def test_says_the_turn_and_the_change_of_speed() -> None:
    turn = draw_figure(FigureCall("heading-circle", {"heading_deg": 5, "turn": "left"})).description
    slow = draw_figure(FigureCall("heading-circle", {"heading_deg": 5, "speed_change": "slower"})).description
    assert "points to 005" in turn
    assert "turn to the left" in turn
    assert "slows down" in slow


@pytest.mark.parametrize(
    ("parameters", "word"),
    [
        ({"heading_deg": 90, "turn": "left", "speed_change": "faster"}, "one at a time"),
        ({"heading_deg": 90, "show_errors": True, "turn": "left"}, "needs hemisphere"),
        ({"heading_deg": 90, "show_errors": True, "hemisphere": "north"}, "turn or speed_change"),
        ({"heading_deg": 90, "show_errors": 1}, "true or false"),
    ],
)
def test_wrong_parameters_are_named(parameters: dict[str, object], word: str) -> None:
    assert any(word in problem for problem in check_figure(FigureCall("heading-circle", parameters)))
