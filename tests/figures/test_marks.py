"""Small marks: an estimate against its aim, a tally, a drill's progress."""

import pytest

from app.figures import check_figure, draw_figure
from app.figures.model import FigureCall
from tests.figures.drawings import SVG, points_of, root_of


def estimate(**values: float) -> list[tuple[str, list[tuple[float, float]]]]:
    root = root_of("estimate-mark", {"aim": 80, **values})
    return [(path.get("stroke-width"), points_of(path.get("d"))) for path in root.iter(f"{SVG}path")]


def test_scale_is_the_look_s_own() -> None:
    """X(p) = 4 + 0.88 p: the aim at 80 stands at 74.4, an estimate of 50 at 48."""
    marks = estimate(estimate=50, low=40, high=60)
    assert ("2", [(74.4, 14.0), (74.4, 21.0)]) in marks
    assert ("3", [(48.0, 3.0), (48.0, 19.0)]) in marks


@pytest.mark.parametrize(("low", "high", "width"), [(40, 79, "7"), (80, 95, "2.5"), (70, 90, "1.5")])
def test_likely_range_is_heavy_below_the_aim_thin_above_it_else_outlined(low: int, high: int, width: str) -> None:
    widths = [mark for mark, _ in estimate(estimate=low, low=low, high=high)]
    assert sorted(widths, key=float) == sorted(["1", "2", width, "3"], key=float)


def test_no_answers_is_an_empty_line_with_the_aim() -> None:
    assert len(estimate()) == 2
    assert draw_figure(FigureCall("estimate-mark", {"aim": 80})).description == "No answers yet; the aim is 80 %."


def test_tally_counts() -> None:
    marks = [points_of(p.get("d")) for p in root_of("tally", {"long": 3, "short": 2}).iter(f"{SVG}path")]
    assert [round(foot - top) for (_, top), (_, foot) in marks] == [18, 18, 18, 7, 7]
    assert [x for (x, _), _ in marks] == [4, 11, 18, 25, 32]
    assert draw_figure(FigureCall("tally", {"long": 3, "short": 2})).description == "3 of 5"


def test_progress_says_which_question_this_is() -> None:
    call = FigureCall("progress", {"places": ["right", "missed", "here", *["to-come"] * 7]})
    drawing = draw_figure(call)
    root = root_of(call.name, dict(call.parameters))
    heights = [foot - top for (_, top), (_, foot) in (points_of(p.get("d")) for p in root.iter(f"{SVG}path"))]
    assert drawing.title == "Question 3 of 10"
    assert drawing.description == "1 right, 1 missed."
    assert heights == [16, 7, 24]
    assert len(list(root.iter(f"{SVG}circle"))) == 7


def test_a_finished_drill_is_at_no_question() -> None:
    assert draw_figure(FigureCall("progress", {"places": ["right"]}), "fr").title == "Progression"


@pytest.mark.parametrize(
    ("name", "parameters", "word"),
    [
        ("estimate-mark", {"aim": 101}, "per cent from 0 to 100"),
        ("estimate-mark", {"aim": 80, "estimate": 50}, "go together"),
        ("estimate-mark", {"aim": 80, "estimate": 50, "low": 60, "high": 70}, "must lie between"),
        ("tally", {"long": 0, "short": 0}, "give 1 to 100"),
        ("tally", {"long": 1.5, "short": 0}, "a whole number"),
        ("progress", {"places": []}, "a list of right, missed, here, to-come"),
        ("progress", {"places": ["here", "here"]}, "at most one here"),
        ("progress", {"places": ["wrong"]}, "a list of"),
    ],
)
def test_wrong_parameters_are_named(name: str, parameters: dict[str, object], word: str) -> None:
    assert any(word in problem for problem in check_figure(FigureCall(name, parameters)))
