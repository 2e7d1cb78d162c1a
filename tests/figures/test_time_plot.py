"""Headings against time: unwrapped across north, the same scale in both widths, words for the moments that matter."""

from math import isclose

import pytest

from app.figures import check_figure, draw_figure
from app.figures.model import FigureCall
from app.figures.samples import READING, REAL, TIMES
from tests.figures.drawings import SVG, points_of, root_of, texts

PLOT = {"times_s": TIMES, "real_deg": REAL, "reading_deg": READING}
TENTH = 0.051  # lines are written to a tenth
FRAMES = [("wide", 720.0, 330.0), ("narrow", 320.0, 320.0)]


@pytest.mark.parametrize(("width", "right", "bottom"), FRAMES)
def test_lines_run_on_across_north(width: str, right: float, bottom: float) -> None:
    """270 up to 450, the reading from 265: the frame holds 240 to 480, free above the highest."""
    root = root_of("time-plot", {**PLOT, "width": width})
    real = next(points_of(p.get("d")) for p in root.iter(f"{SVG}path") if p.get("stroke-dasharray") == "9 6")
    for second, heading in ((0, 270), (45, 405), (90, 450)):
        x, y = real[second]
        assert isclose(x, 46 + second * (right - 60) / 90, abs_tol=TENTH)
        assert isclose(y, bottom - 44 - (heading - 240) * (bottom - 74) / 240, abs_tol=TENTH)


def test_scale_shows_headings_not_turns() -> None:
    assert {"240", "360", "030", "090"} <= set(texts(root_of("time-plot", {**PLOT, "width": "narrow"})))


def test_wide_names_its_lines_narrow_leaves_it_to_the_caption() -> None:
    wide, narrow = (set(texts(root_of("time-plot", {**PLOT, "width": width}))) for width in ("wide", "narrow"))
    assert {"real", "compass"} <= wide
    assert not {"real", "compass"} & narrow
    assert (
        "Dashed: the real magnetic heading" in draw_figure(FigureCall("time-plot", {**PLOT, "width": "narrow"})).caption
    )


def test_thousands_of_points_are_thinned_and_the_last_kept() -> None:
    times = [second / 20 for second in range(6001)]
    series = [float(second % 360) for second in range(6001)]
    root = root_of("time-plot", {"times_s": times, "real_deg": series, "reading_deg": series, "width": "wide"})
    line = next(points_of(p.get("d")) for p in root.iter(f"{SVG}path") if p.get("stroke-dasharray") == "9 6")
    assert len(line) <= 302
    assert line[-1][0] == 706


def test_words_hold_start_widest_gap_end_and_the_moment_looked_at() -> None:
    said = draw_figure(FigureCall("time-plot", {**PLOT, "width": "wide", "at_s": 33.2})).description
    assert "at 0 s real 270, reading 265" in said
    assert "at 33 s real 009, reading 004" in said
    assert "at 90 s real 090, reading 090" in said


@pytest.mark.parametrize(
    ("more", "word"),
    [
        ({"width": "broad"}, "one of wide, narrow"),
        ({"real_deg": REAL[:-1]}, "real_deg has 90 values for 91 times"),
        ({"times_s": [*TIMES[:-1], 3]}, "must start at 0 or later and grow"),
        ({"at_s": 100}, "the plot ends at 90 s"),
        ({"events": [{"seconds": 5, "name": "stall"}]}, "full-bank, roll-out"),
        ({"events": [{"seconds": 500, "name": "roll-out"}]}, "events is at 500 s"),
    ],
)
def test_wrong_series_are_named(more: dict[str, object], word: str) -> None:
    problems = check_figure(FigureCall("time-plot", {**PLOT, "width": "wide", **more}))
    assert any(word in problem for problem in problems)
