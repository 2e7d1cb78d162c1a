"""A fix from two landmarks seen at relative bearings: to true bearings, turned round, drawn from each, crossed."""

from collections.abc import Mapping
from math import hypot
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import atan2_deg, cos_deg, difference, round_half_up, shown, sin_deg
from app.physics.track import bearing_from_relative, position_line_deg
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution, Wrong
from app.questions.solvers.registry import solver

Place = tuple[float, float]
SQUARE_NM, WIDE_NM, HIGH_NM, MARGIN_NM = 5, 60, 50, 3
CLEAR_NM, RINGS = 6.5, 5
LEAST_CUT_DEG, LEAST_RANGE_NM = 45, 9
AHEAD_NM = 8


@solver("position-line-fix")
def position_line_fix(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: the ring where the lines from A and B cross, each along relative bearing + heading + variation + 180."""
    heading, variation = parameters["magnetic_deg"], parameters["variation_deg"]
    here, a, b = (_place(parameters, name) for name in ("", "_a", "_b"))
    if min(_apart(here, a), _apart(here, b), _apart(a, b)) < LEAST_RANGE_NM:
        raise Redraw("a landmark is nearly overhead")
    relatives = [shown(atan2_deg(mark[0] - here[0], mark[1] - here[1]) - heading - variation) for mark in (a, b)]
    lines = tuple(shown(position_line_deg(bearing_from_relative(heading, r) + variation)) for r in relatives)
    if not LEAST_CUT_DEG <= abs(difference(*lines)) <= 180 - LEAST_CUT_DEG:
        raise Redraw("the position lines cut at a poor angle")
    fix = _cross((a, lines[0]), (b, lines[1]))
    wrong = _wrong_places((a, b), lines, fix, (heading, variation))
    chosen = _choose(fix, wrong, (a, b), parameters["shuffle"])
    spots = [_spot("A", "landmark", a), _spot("B", "landmark", b)]
    spots += [_spot(str(n + 1), "ring", place) for n, (_, place) in enumerate(chosen)]
    labels = {name: str(n + 1) for n, (name, _) in enumerate(chosen)}
    chart = FigureCall("chart-sketch", {"square_nm": SQUARE_NM, "spots": spots})
    drawn = [{"from": name, "bearing_deg": line} for name, line in zip("AB", lines, strict=True)]
    return Solution(
        key=f"ring-{labels['fix']}",
        given={"magnetic_deg": heading, "variation_deg": variation, "relative_bearing_a_deg": relatives[0],
               "relative_bearing_b_deg": relatives[1], **chart.parameters},
        wrong={name: Wrong(f"ring-{label}", figure={"yours_spot": label})
               for name, label in labels.items() if name != "fix"},
        options=tuple(f"ring-{n + 1}" for n in range(RINGS)),
        quantities={"true_heading_deg": shown(heading + variation), "line_a_deg": lines[0], "line_b_deg": lines[1],
                    "bearing_a_deg": shown(lines[0] + 180), "bearing_b_deg": shown(lines[1] + 180),
                    "key_label": labels["fix"]},
        steps=("heading-east" if variation > 0 else "heading-west", "bearings-a", "bearings-b", "turned-a", "turned-b",
               "crossed"),
        figures=(chart,),
        verdict_figures=(chart.with_parameters(lines=drawn, key_spot=labels["fix"], yours_spot=None),),
        features={"crosses-north": float(max(relatives) + heading + variation > 360)},
    )  # fmt: skip


def _wrong_places(
    landmarks: tuple[Place, Place], lines: tuple[int, ...], fix: Place, turned: tuple[int, int]
) -> dict[str, Place]:
    """Return where each slip puts the fix, those of one line alone among them; places off the chart too."""
    (a, b), (line_a, line_b), (heading, variation) = landmarks, lines, turned
    turns = {
        "no-variation": -variation,
        "variation-turned": -2 * variation,
        "no-heading": -(heading + variation),
        "no-heading-but-variation": -heading,
    }
    places = {name: _cross((a, line_a + turn), (b, line_b + turn)) for name, turn in turns.items()}
    for name, (mark, line) in {"one-line-a": (a, line_a), "one-line-b": (b, line_b)}.items():
        reach = _apart(mark, fix) + AHEAD_NM
        places[name] = mark[0] + reach * sin_deg(line), mark[1] + reach * cos_deg(line)
    return places


def _cross(first: tuple[Place, float], second: tuple[Place, float]) -> Place:
    """Return where two lines cross; lines that run away from it cross nowhere a pilot would look, far off the chart."""
    ((x, y), one), ((u, v), other) = first, second
    sine = sin_deg(other - one)
    if abs(sine) < 0.05:
        return -WIDE_NM, -HIGH_NM
    along = ((u - x) * cos_deg(other) - (v - y) * sin_deg(other)) / -sine
    back = ((u - x) * cos_deg(one) - (v - y) * sin_deg(one)) / -sine
    if along <= 0 or back <= 0:
        return -WIDE_NM, -HIGH_NM
    return x + along * sin_deg(one), y + along * cos_deg(one)


def _choose(
    fix: Place, wrong: Mapping[str, Place], landmarks: tuple[Place, Place], shuffle: int
) -> list[tuple[str, Place]]:
    """Return the fix and as many slips as rings are left, each clear of the others, in a drawn order."""
    kept = {"fix": fix}
    if not _on_chart(fix):
        raise Redraw("the fix lies off the chart")
    for name, place in wrong.items():
        if (
            len(kept) < RINGS
            and _on_chart(place)
            and all(_apart(place, other) >= CLEAR_NM for other in (*kept.values(), *landmarks))
        ):
            kept[name] = place
    if len(kept) < RINGS:
        raise Redraw("too few slips lead to a place of their own on the chart")
    left, order = list(kept.items()), []
    while left:
        shuffle, place_of_next = divmod(shuffle, len(left))
        order.append(left.pop(place_of_next))
    return order


def _place(parameters: Mapping[str, Any], name: str) -> Place:
    return float(parameters[f"east{name}_nm"]), float(parameters[f"north{name}_nm"])


def _apart(one: Place, other: Place) -> float:
    return hypot(one[0] - other[0], one[1] - other[1])


def _on_chart(place: Place) -> bool:
    return MARGIN_NM <= place[0] <= WIDE_NM - MARGIN_NM and MARGIN_NM <= place[1] <= HIGH_NM - MARGIN_NM


def _spot(label: str, mark: str, place: Place) -> dict[str, Any]:
    east, north = (round_half_up(each, 1) for each in place)
    return {"label": label, "mark": mark, "east_nm": east, "north_nm": north}
