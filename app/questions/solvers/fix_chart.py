"""The piece of chart a fix is picked on: where lines cross, which places get a ring, what is drawn; NM."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import hypot
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import cos_deg, difference, round_half_up, sin_deg
from app.questions.model import Redraw, Wrong

Place = tuple[float, float]
SQUARE_NM, WIDE_NM, HIGH_NM, MARGIN_NM = 2, 24, 20, 1.2
CLEAR_NM, RINGS = 2.6, 5
LEAST_CUT_DEG, LEAST_RANGE_NM, LARGEST_RANGE_NM = 45, 4, 18  # a mast or a dam is in sight so far
AHEAD_NM = 3.2


@dataclass(frozen=True, slots=True)
class FixChart:
    """The chart of one fix: its figure, which ring each slip leads to, and the figure with the lines drawn."""

    figure: FigureCall
    verdict: FigureCall
    labels: Mapping[str, str]

    @property
    def key(self) -> str:
        """The option of the ring where the lines cross."""
        return f"ring-{self.labels['fix']}"

    @property
    def options(self) -> tuple[str, ...]:
        """All rings, in the order of their numbers."""
        return tuple(f"ring-{n + 1}" for n in range(RINGS))

    @property
    def wrong(self) -> dict[str, Wrong]:
        """The ring of each slip that has one."""
        return {
            name: Wrong(f"ring-{label}", figure={"yours_spot": label})
            for name, label in self.labels.items()
            if name != "fix"
        }


def places_of(parameters: Mapping[str, Any]) -> tuple[Place, Place, Place]:
    """Return where one is and where the landmarks A and B are, none of them nearly overhead."""
    here, a, b = (_place(parameters, name) for name in ("", "_a", "_b"))
    ranges = _apart(here, a), _apart(here, b)
    if min(*ranges, _apart(a, b)) < LEAST_RANGE_NM or max(ranges) > LARGEST_RANGE_NM:
        raise Redraw("a landmark is nearly overhead, or too far to be seen")
    return here, a, b


def chart_of(
    landmarks: tuple[Place, Place], lines: Sequence[int], turns: Mapping[str, Sequence[float]], shuffle: int
) -> FixChart:
    """Return the chart on which lines from both landmarks cross; `turns` is by how much each slip turns the two."""
    if not LEAST_CUT_DEG <= abs(difference(*lines)) <= 180 - LEAST_CUT_DEG:
        raise Redraw("the position lines cut at a poor angle")
    a, b = landmarks
    fix = _cross((a, lines[0]), (b, lines[1]))
    wrong = {name: _cross((a, lines[0] + turn[0]), (b, lines[1] + turn[1])) for name, turn in turns.items()}
    for name, mark, line in (("one-line-a", a, lines[0]), ("one-line-b", b, lines[1])):
        reach = _apart(mark, fix) + AHEAD_NM
        wrong[name] = mark[0] + reach * sin_deg(line), mark[1] + reach * cos_deg(line)
    chosen = _choose(fix, wrong, landmarks, shuffle)
    spots = [_spot("A", "landmark", a), _spot("B", "landmark", b)]
    spots += [_spot(str(n + 1), "ring", place) for n, (_, place) in enumerate(chosen)]
    labels = {name: str(n + 1) for n, (name, _) in enumerate(chosen)}
    figure = FigureCall("chart-sketch", {"square_nm": SQUARE_NM, "spots": spots})
    drawn = [{"from": name, "bearing_deg": line} for name, line in zip("AB", lines, strict=True)]
    return FixChart(figure, figure.with_parameters(lines=drawn, key_spot=labels["fix"], yours_spot=None), labels)


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
