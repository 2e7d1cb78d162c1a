"""Panels and plumbing: arrows and needles to the side they say, lines that end at what they feed, crosses in place."""

from math import hypot

import pytest
from lxml import etree

from app.figures import draw_figure
from app.figures.instrument_strip import CODES
from app.figures.model import FigureCall, Language
from tests.figures.drawings import LANGUAGES, SVG, points_of, root_of, texts

STEADY = {
    "compass_trend": "compass-steady", "indicator_trend": "indicator-steady",
    "turn_trend": "needle-centred", "asi_trend": "asi-steady",
}  # fmt: skip
COMPASS_X, INDICATOR_X, NEEDLE_X = 85, 235, 85


def arrowheads(root: etree._Element) -> list[tuple[float, float]]:
    """Return the tips of the filled arrowheads: paths of three corners without an outline."""
    outlines = (points_of(p.get("d")) for p in root.iter(f"{SVG}path") if p.get("stroke") is None)
    return [points[0] for points in outlines if len(points) == 3]


@pytest.mark.parametrize(("trend", "side"), [("rises", 1), ("falls", -1), ("steps-up", 1), ("steps-down", -1)])
def test_a_rising_compass_moves_its_marks_right(trend: str, side: int) -> None:
    """Larger numbers stand on the left of a drum, so that a growing reading brings them to the right."""
    tips = arrowheads(root_of("instrument-strip", STEADY | {"compass_trend": f"compass-{trend}"}))
    assert [x > COMPASS_X for x, _ in tips] == [side > 0]


@pytest.mark.parametrize(("trend", "side"), [("rises", -1), ("falls", 1)])
def test_a_rising_indicator_turns_its_card_left(trend: str, side: int) -> None:
    """Larger numbers stand on the right of a vertical card, so that a growing reading brings them to the left."""
    tips = arrowheads(root_of("instrument-strip", STEADY | {"indicator_trend": f"indicator-{trend}"}))
    assert [x > INDICATOR_X for x, _ in tips] == [side > 0]


@pytest.mark.parametrize(("trend", "side"), [("left", -1), ("centred", 0), ("right", 1)])
def test_the_needle_leans_to_its_side(trend: str, side: int) -> None:
    root = root_of("instrument-strip", STEADY | {"turn_trend": f"needle-{trend}"})
    needle = next(points_of(p.get("d")) for p in root.iter(f"{SVG}path") if p.get("stroke-width") == "4")
    lean = needle[1][0] - needle[0][0]
    assert (lean > 1) - (lean < -1) == side


def test_what_rocks_has_two_arrows_and_what_is_steady_none() -> None:
    rocks = {name: codes[3] for name, codes in CODES.items()}
    assert not arrowheads(root_of("instrument-strip", STEADY))
    assert len(arrowheads(root_of("instrument-strip", rocks))) == 6


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_trend_is_told_apart_in_words(language: Language) -> None:
    for name, codes in CODES.items():
        said = {draw_figure(FigureCall("instrument-strip", STEADY | {name: c}), language).description for c in codes}
        assert len(said) == len(codes)


def crosses(root: etree._Element) -> list[tuple[float, float]]:
    """Return the middles of the crosses: two strokes of one length in one path of width 4."""
    found = []
    for path in root.iter(f"{SVG}path"):
        points = points_of(path.get("d"))
        if path.get("stroke-width") == "4" and len(points) == 4:
            found.append((sum(x for x, _ in points) / 4, sum(y for _, y in points) / 4))
    return found


@pytest.mark.parametrize(
    ("panel", "failure", "lost"),
    [
        ("classic", "suction", {60, 160}),
        ("classic", "electrical", {260}),
        ("electric-horizon", "electrical", {60, 260}),
        ("all-suction", "suction", {60, 160, 260}),
        ("classic", "pitot", set()),
    ],
)
def test_what_hangs_on_the_lost_feed_is_barred(panel: str, failure: str, lost: set[int]) -> None:
    root = root_of("gyro-panel", {"panel": panel, "failure": failure})
    assert {round(x) for x, y in crosses(root) if y < 100} == lost
    names = {"suction": ["Suction"], "electrical": ["Electrical"], "pitot": []}[failure]
    assert [x for x, y in crosses(root) if y > 100] == [texts(root)[name][0] for name in names]


@pytest.mark.parametrize("failure", ["suction", "electrical"])
def test_no_cross_goes_through_a_name(failure: str) -> None:
    root = root_of("gyro-panel", {"panel": "all-suction", "failure": failure})
    lowest = max(y for path in root.iter(f"{SVG}path") if path.get("stroke-width") == "4"
                 for _, y in points_of(path.get("d")))  # fmt: skip
    top_of_a_capital = min(texts(root)[name][1] for name in ("Suction", "Electrical")) - 0.75 * 15
    assert lowest < top_of_a_capital


@pytest.mark.parametrize(
    ("fault", "count"), [("none", 0), ("ram", 1), ("ram-drain", 2), ("static", 1), ("all", 3), ("alternate", 0)]
)
@pytest.mark.parametrize("language", LANGUAGES)
def test_a_cross_stands_at_each_blocked_place(fault: str, count: int, language: Language) -> None:
    root = root_of("plumbing", {"fault": fault}, language)
    assert len(crosses(root)) == count
    assert all(x < 60 for x, _ in crosses(root))


def test_ram_air_reaches_one_instrument_and_static_air_all() -> None:
    root = root_of("plumbing", {"fault": "none"})
    faces = [(float(c.get("cx")), float(c.get("cy"))) for c in root.iter(f"{SVG}circle") if float(c.get("r")) == 27]
    ends: dict[str, set[int]] = {"3": set(), "2": set()}
    for path in root.iter(f"{SVG}path"):
        points = points_of(path.get("d"))
        for index, (x, y) in enumerate(faces):
            if path.get("stroke-width") in ends and abs(hypot(points[-1][0] - x, points[-1][1] - y) - 27) < 3:
                ends[path.get("stroke-width")].add(index)
    assert ends == {"3": {0}, "2": {0, 1, 2}}


@pytest.mark.parametrize("language", LANGUAGES)
def test_words_tell_what_is_blocked_and_not_what_it_does(language: Language) -> None:
    for fault in ("ram", "ram-drain", "static", "all", "alternate"):
        said = draw_figure(FigureCall("plumbing", {"fault": fault}), language).description.lower()
        for effect in ("high", "low", "still", "zero", "trop", "zéro", "figé", "works", "fonctionne"):
            assert effect not in said
    assert "Airspeed" in texts(root_of("plumbing", {"fault": "ram"}))
