"""A compass swing on magnetic headings: the deviation on each, the card entry, the largest, the mean, the limit."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import round_half_up, shown, unwrap, whole
from app.physics.deviation import Coefficients, deviation_deg
from app.physics.headings import compass_from
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution, Step, Wrong
from app.questions.solvers.datum_conversions import variation_fits
from app.questions.solvers.registry import solver

MEAN_TOLERANCE_DEG = 0.3
LEAST_MEAN_DEG = 0.7  # a smaller one would hide its side in the tolerance
USUAL_LIMIT_DEG = 12  # no swing asked about goes beyond, but where the limit is the question
LEAST_DECOY_DEG = 5


@dataclass(frozen=True, slots=True)
class Swing:
    """Magnetic headings stood on, the last of them north, and the whole deviation found on each, east positive."""

    magnetic_deg: tuple[int, ...]
    deviations_deg: tuple[int, ...]

    @property
    def compass_deg(self) -> tuple[int, ...]:
        """What the compass showed on each heading."""
        return tuple(shown(compass_from(m, d)) for m, d in zip(self.magnetic_deg, self.deviations_deg, strict=True))

    @property
    def mean_deg(self) -> float:
        """Coefficient A, to a tenth of a degree."""
        return round_half_up(sum(self.deviations_deg) / len(self.deviations_deg), 1)

    def place_of_largest(self) -> int:
        """Return the place of the largest deviation; a tie makes no fair question."""
        sizes = [abs(d) for d in self.deviations_deg]
        if sizes.count(max(sizes)) > 1:
            raise Redraw("two headings share the largest deviation")
        return sizes.index(max(sizes))

    @property
    def subtracted_deg(self) -> tuple[int, ...]:
        """Magnetic less compass of a student who does not count on past 360; it can go wrong on north alone."""
        return tuple(m - c for m, c in zip(self.magnetic_deg, self.compass_deg, strict=True))

    def wrapped(self, value: float) -> dict[str, Wrong]:
        """Return the value that comes of subtracting across north, where the swing on north makes one do so."""
        if self.subtracted_deg == self.deviations_deg:
            return {}
        north = {"magnetic_deg": 360, "row_compass_deg": self.compass_deg[-1], "found_deg": self.deviations_deg[-1]}
        return {"wrap": Wrong(value, north, option=False)}

    def as_given(self) -> list[dict[str, int]]:
        """Return the table as it is shown."""
        pairs = zip(self.magnetic_deg, self.compass_deg, strict=True)
        return [{"magnetic_deg": magnetic, "compass_deg": compass} for magnetic, compass in pairs]


@solver("swing-residuals")
def swing_residuals(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key by ask: D = M - C on a heading, STEER = FOR - D, the largest or where it is, the mean, within the limit."""
    ask = parameters["ask"]
    if ask == "steer":
        return _steer(parameters, conventions)
    swing = _swing(parameters)
    largest = max(map(abs, swing.deviations_deg))
    if ask != "within" and largest > USUAL_LIMIT_DEG:
        raise Redraw("no swing is left with so large a deviation")
    if ask == "deviation":
        return _deviation(swing, (parameters["heading_deg"] - 1) * parameters["points"] // 360)
    if ask == "mean":
        return _mean(swing)
    return (
        _within(swing, conventions.card_limit_deg, keeps=parameters["serviceable"])
        if ask == "within"
        else _largest(swing, ask)
    )


def _swing(parameters: Mapping[str, Any]) -> Swing:
    """Return a swing A + B sin h + C cos h with a degree of scatter, drawn as the digits of `scatter` to base three."""
    count = parameters["points"]
    headings = tuple(range(360 // count, 361, 360 // count))
    a, b, c = (parameters[f"coefficient_{name}_deg"] for name in "abc")
    coefficients = Coefficients(a, b, c, 0.0, 0.0)
    scatter = [parameters["scatter"] // 3**i % 3 - 1 for i in range(count)]
    return Swing(
        headings, tuple(whole(deviation_deg(coefficients, h)) + s for h, s in zip(headings, scatter, strict=True))
    )


def _solution(ask: str, swing: Swing, more_given: Mapping[str, Any] | None = None, **parts: Any) -> Solution:
    """Return what every question about the table shares."""
    given = {"ask": ask, "swing": swing.as_given(), **(more_given or {})}
    features = {"many": float(len(swing.magnetic_deg) > 8), **parts.pop("features", {})}
    return Solution(
        given=given, figures=(FigureCall("swing-table", {"swing": swing.as_given()}),), features=features, **parts
    )


def _row_step(swing: Swing, place: int, line: str = "row") -> Step:
    """Show magnetic less compass on one heading, counted on past 360 where north lies between."""
    magnetic, compass = swing.magnetic_deg[place], swing.compass_deg[place]
    counted = whole(unwrap(compass, magnetic))
    return Step(line, {"row_deg": magnetic, "counted_deg": counted, "d_deg": magnetic - counted})


def _deviation(swing: Swing, place: int) -> Solution:
    d, magnetic, compass = swing.deviations_deg[place], swing.magnetic_deg[place], swing.compass_deg[place]
    if abs(d) < 2:
        raise Redraw("so small a deviation hides its side")
    wrong: dict[str, Any] = {"sign-flip": -d}
    if swing.subtracted_deg[place] != d:
        wrong |= swing.wrapped(swing.subtracted_deg[place])
    following = (place + 1) % len(swing.magnetic_deg)
    if swing.deviations_deg[following] != d:
        wrong["next-row"] = swing.deviations_deg[following]
    return _solution(
        "deviation", swing, {"magnetic_deg": magnetic}, key=d, wrong=wrong,
        quantities={"found_deg": d, "row_compass_deg": compass, "next_magnetic_deg": swing.magnetic_deg[following]},
        steps=(_row_step(swing, place), "side-east" if d > 0 else "side-west"),
        features={"crosses-north": float(abs(magnetic - compass) > 180)},
    )  # fmt: skip


def _largest(swing: Swing, ask: str) -> Solution:
    """Ask for the largest deviation whatever its side, or for the heading it stands on."""
    place = swing.place_of_largest()
    d = swing.deviations_deg
    most_east, smallest = d.index(max(d)), min(range(len(d)), key=lambda i: abs(d[i]))
    values: Sequence[int] = d if ask == "largest" else swing.magnetic_deg
    wrong: dict[str, Any] = {"east-only": values[most_east]} if most_east != place else {}
    if ask == "largest":
        wrong |= {"sign-flip": -d[place], "whole-range": max(d) - min(d)} | swing.wrapped(swing.subtracted_deg[-1])
    else:
        _refuse_ties(d)
        wrong |= {"compass-for-magnetic": swing.compass_deg[place], "smallest": swing.magnetic_deg[smallest]}
        wrong |= swing.wrapped(swing.magnetic_deg[-1]) if swing.magnetic_deg[place] != swing.magnetic_deg[-1] else {}
    return _solution(
        ask, swing, key=values[place], wrong=wrong,
        quantities={
            "found_deg": d[place], "at_deg": swing.magnetic_deg[place], "row_compass_deg": swing.compass_deg[place],
            "most_east_deg": d[most_east], "range_deg": max(d) - min(d),
        },
        steps=("each-row", _row_step(swing, place), "largest-is"),
        features={"west-largest": 1.0 if d[place] < 0 else -1.0},
    )  # fmt: skip


def _refuse_ties(deviations_deg: Sequence[int]) -> None:
    """Make sure that the most easterly and the smallest deviation each stand on one heading, so that it tells."""
    sizes = [abs(d) for d in deviations_deg]
    if deviations_deg.count(max(deviations_deg)) > 1 or sizes.count(min(sizes)) > 1:
        raise Redraw("two headings share the most easterly or the smallest deviation")


def _mean(swing: Swing) -> Solution:
    """Ask for coefficient A: the mean of the deviations with their signs."""
    d, mean = swing.deviations_deg, swing.mean_deg
    if abs(mean) < LEAST_MEAN_DEG:
        raise Redraw("so small a mean hides its side")
    east, west = sum(each for each in d if each > 0), -sum(each for each in d if each < 0)
    unsigned = round_half_up((east + west) / len(d), 1)
    wrong: dict[str, Any] = {"sign-flip": -mean}
    wrong |= swing.wrapped(round_half_up(sum(swing.subtracted_deg) / len(d), 1))
    if east and west:
        wrong["unsigned-mean"] = unsigned
        middle = round_half_up((max(d) + min(d)) / 2, 1)
        wrong |= {"middle-of-extremes": middle} if abs(middle - mean) > MEAN_TOLERANCE_DEG else {}
    sums = {"east_sum": east, "west_sum": west, "total_deg": east - west, "count": len(d), "mean_deg": mean}
    return _solution(
        "mean", swing, key=mean, wrong=wrong,
        quantities={"unsigned_deg": unsigned, "most_east_deg": max(d), "most_west_deg": min(d)},
        steps=(_row_step(swing, 0, "first-row"), Step("sums", sums), Step("divided", sums)),
        features={"mean": 1.0},
    )  # fmt: skip


def _within(swing: Swing, limit: int, *, keeps: bool) -> Solution:
    """Ask whether no deviation is beyond the limit; a limit just met makes no fair question."""
    place = swing.place_of_largest()
    d = swing.deviations_deg
    largest, spread = abs(d[place]), max(d) - min(d)
    if largest == limit or largest > limit + 4 or (largest < limit) != keeps:
        raise Redraw("just at the limit, far beyond it, or not the verdict wanted")
    if keeps:
        if spread <= limit:
            raise Redraw("so even a swing tempts nobody to refuse it")
        key, wrong = "within", {"whole-range": "beyond"}
    else:
        key, wrong = "beyond", {"judges-mean": "within"}
    return _solution(
        "within", swing, {"limit_deg": limit}, key=key, wrong=wrong, options=("within", "beyond"),
        quantities={
            "mean_deg": swing.mean_deg, "range_deg": spread,
            "found_deg": d[place], "at_deg": swing.magnetic_deg[place],
        },
        steps=("each-row", _row_step(swing, place), "largest-is", f"so-{key}"),
        features={"west-largest": 1.0 if d[place] < 0 else -1.0},
    )  # fmt: skip


def _steer(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Ask for the card entry of a heading from its deviation; variation stands by as a decoy."""
    wanted = (parameters["heading_deg"] - 1) // 30 * 30 + 30
    d, v = parameters["deviation_deg"], parameters["variation_deg"]
    own = whole(conventions.variation_deg)
    at_home = parameters["at_home"] and variation_fits(conventions) and abs(own) >= LEAST_DECOY_DEG
    v = own if at_home else v
    key = shown(compass_from(wanted, d))
    return Solution(
        key=key,
        given={"ask": "steer", "magnetic_deg": wanted, "deviation_deg": d, "variation_deg": v},
        quantities={"where": "where-home" if at_home else "where-field"},
        wrong={
            "steer-plus": shown(wanted + d), "uncorrected": wanted, "double": shown(wanted - 2 * d),
            "uses-variation": shown(wanted - d - v),
        },
        steps=("definition", Step("east-off" if d > 0 else "west-on", {"size_deg": abs(d), "on_deg": key})),
        features={"crosses-north": float(wanted - d > 360)},
    )  # fmt: skip
