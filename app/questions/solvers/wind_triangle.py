"""The wind triangle: heading and ground speed from track and wind, and the wind from what was flown.

Degrees true, knots. Wind is named by where it comes from; a correction to the right is positive, a headwind too.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import hypot
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import asin_deg, atan2_deg, cos_deg, difference, round_half_up, shown, sin_deg, whole
from app.physics.wind import find_wind, runway_wind, solve_heading
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution, Step
from app.questions.solvers.registry import solver

LEAST_WCA_DEG = 3
LEAST_ALONG_KT = 6
LARGEST_SHARE_OF_TAS = 0.4
CLEAR_DEG = CLEAR_KT = 4.5  # past twice the marking tolerance of two
LEAST_WCA_ALONE_DEG = 5
HALF = 0.5


@dataclass(frozen=True, slots=True)
class Tenths:
    """A triangle as its working writes it: sizes in tenths, each line made from the tenths of those before it."""

    across_kt: float
    along_kt: float
    wca_deg: float
    total_deg: float
    gs_kt: float


@dataclass(frozen=True, slots=True)
class Triangle:
    """A track flown in a wind: the parts of the wind along (headwind positive) and across it (from the right)."""

    track_deg: int
    tas_kt: int
    wind_from_deg: int
    wind_kt: int
    along_kt: float
    across_kt: float
    wca_deg: float
    gs_kt: float

    @property
    def written(self) -> Tenths:
        """The same in tenths, from line to line."""
        off = self.off_deg
        across, along = (round_half_up(self.wind_kt * part(off), 1) for part in (sin_deg, cos_deg))
        wca = round_half_up(asin_deg(across / self.tas_kt), 1)
        gs = self.tas_kt * cos_deg(wca) - (along if self.along_kt > 0 else -along)
        return Tenths(across, along, wca, round_half_up(self.track_deg + self.side * wca, 1), round_half_up(gs, 1))

    @property
    def off_deg(self) -> int:
        """The wind's angle off the track, from ahead or from behind, 0 to 90."""
        round_from_track = abs(difference(self.wind_from_deg, self.track_deg))
        return whole(min(round_from_track, 180 - round_from_track))

    @property
    def heading_deg(self) -> int:
        """Heading that keeps the track, as shown."""
        return shown(self.track_deg + self.wca_deg)

    @property
    def side(self) -> int:
        """+1 with the wind from the right, -1 from the left."""
        return 1 if self.wca_deg > 0 else -1

    def corrected(self, angle_deg: float) -> int:
        """Heading with another correction than the right one, toward the wind when positive."""
        return shown(self.track_deg + self.side * angle_deg)

    @property
    def given(self) -> dict[str, Any]:
        """The numbers shown."""
        return {"track_true_deg": self.track_deg, "tas_kt": self.tas_kt, "wind_from_deg": self.wind_from_deg,
                "wind_kt": self.wind_kt}  # fmt: skip

    @property
    def quantities(self) -> dict[str, Any]:
        """What the working says of it; angles off nose or tail from 0 to 90."""
        written = self.written
        return {"wca_size_deg": written.wca_deg, "wind_side": "right" if self.side > 0 else "left",
                "round_deg": whole(abs(difference(self.wind_from_deg, self.track_deg))), "off_deg": self.off_deg,
                "across_kt": written.across_kt, "along_kt": written.along_kt,
                "still_kt": self.gs_kt + self.along_kt, "exact_gs_kt": written.gs_kt, "made_gs_kt": whole(self.gs_kt),
                "steered_deg": self.heading_deg, "total_deg": written.total_deg}  # fmt: skip

    @property
    def heading_steps(self) -> tuple[Step | str, ...]:
        """The lines from the wind to the heading."""
        from_tail = abs(difference(self.wind_from_deg, self.track_deg)) > 90
        steps: list[Step | str] = ["off-tail" if from_tail else "off-nose", "across", "correction"]
        total = self.track_deg + self.wca_deg
        steps.append("nose-right" if self.side > 0 else "nose-left")
        steps.append("to-the-degree" if 0.5 <= total < 360.5 else "through-north")
        return tuple(steps)

    @property
    def speed_steps(self) -> tuple[Step | str, ...]:
        """The lines from the wind to the ground speed."""
        return ("along", "headwind" if self.along_kt > 0 else "tailwind", "to-the-knot")

    @property
    def figure(self) -> FigureCall:
        """The triangle drawn with its heading and ground speed: for the verdict."""
        return drawn((self.heading_deg, self.tas_kt), (self.track_deg, whole(self.gs_kt)),
                     (self.wind_from_deg, self.wind_kt))  # fmt: skip


def triangle_of(parameters: Mapping[str, Any]) -> Triangle:
    """Return the triangle of drawn parameters; raises Redraw where a slip could not be told from the right way."""
    track, tas, wind_from, wind = (
        parameters[name] for name in ("track_true_deg", "tas_kt", "wind_from_deg", "wind_kt")
    )
    parts = runway_wind(track, wind_from, wind)
    along, across = parts.headwind_kt, parts.crosswind_kt
    if wind > LARGEST_SHARE_OF_TAS * tas or abs(along) < LEAST_ALONG_KT or abs(across) < 0.052 * tas:
        raise Redraw("wind too strong, nearly across, or nearly along")
    found = solve_heading(track, tas, wind_from, wind)
    if abs(found.wca_deg) < LEAST_WCA_DEG:
        raise Redraw("too little drift to tell the side")
    triangle = Triangle(track, tas, wind_from, wind, along, across, found.wca_deg, found.gs_kt)
    written = triangle.written
    for exact, tenths in ((along, written.along_kt), (across, written.across_kt),
                          (track + found.wca_deg, written.total_deg), (found.gs_kt, written.gs_kt)):  # fmt: skip
        require_same_whole(exact, tenths)
    return triangle


def require_same_whole(exact: float, tenths: float) -> None:
    """Refuse numbers whose written tenths would round to another whole number, or leave open which."""
    if tenths % 1 == HALF or whole(abs(exact)) != whole(abs(tenths)):
        raise Redraw("the working's tenths would not say which way to round")


def drawn(flown: tuple[float, float], made: tuple[float, float], wind: tuple[float, float]) -> FigureCall:
    """Draw the three sides, each a direction and a speed: heading and TAS, track and GS, wind from and its speed."""
    names = ("heading_deg", "tas_kt", "track_true_deg", "gs_kt", "wind_from_deg", "wind_kt")
    return FigureCall("wind-triangle", dict(zip(names, (*flown, *made, *wind), strict=True)))


@solver("wind-triangle")
def wind_triangle(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: TH = TT + WCA and GS = TAS cos WCA - w cos (wind angle), whole degrees and knots."""
    ask, found = parameters["ask"], triangle_of(parameters)
    key, wrong = _heading_alone(found) if ask == "heading" else _with_speed(ask, found)
    return Solution(
        key=key,
        given={"ask": ask, **found.given},
        wrong=wrong,
        quantities=found.quantities,
        steps=(*found.heading_steps, *(() if ask == "heading" else found.speed_steps)),
        verdict_figures=(found.figure,),
        features={"tailwind": float(found.along_kt < 0)},
    )


def _with_speed(ask: str, found: Triangle) -> tuple[Any, dict[str, Any]]:
    """Return key and wrong values as a pair, as two boxes, or of the ground speed alone."""
    heading, gs = found.heading_deg, whole(found.gs_kt)
    other_side = found.corrected(-abs(found.wca_deg))
    with_wind, still = whole(found.gs_kt + 2 * found.along_kt), whole(found.gs_kt + found.along_kt)
    all_of_it = found.tas_kt - (found.wind_kt if found.along_kt > 0 else -found.wind_kt)
    if ask == "gs":
        return gs, {"gs-plus": with_wind, "gs-still": still, "whole-wind": all_of_it}
    if ask == "pair":
        return (heading, gs), {
            "wrong-side": (other_side, gs),
            "wind-to": (other_side, with_wind),
            "gs-plus": (heading, with_wind),
            "gs-still": (heading, still),
        }
    headings = {name: {"heading": value} for name, value in _wrong_headings(found).items()
                if abs(difference(value, heading)) > CLEAR_DEG or name == "no-correction"}  # fmt: skip
    whole_wind = {"whole-wind": {"gs": all_of_it}} if abs(all_of_it - gs) > CLEAR_KT else {}
    speeds = {"gs-plus": {"gs": with_wind}, "gs-still": {"gs": still}, **whole_wind}
    return {"heading": heading, "gs": gs}, headings | speeds


def _heading_alone(found: Triangle) -> tuple[int, dict[str, Any]]:
    most = asin_deg(found.wind_kt / found.tas_kt)
    if abs(found.wca_deg) < LEAST_WCA_ALONE_DEG or most - abs(found.wca_deg) <= CLEAR_DEG:
        raise Redraw("the slips lie too near to the heading")
    return found.heading_deg, _wrong_headings(found)


def _wrong_headings(found: Triangle) -> dict[str, int]:
    return {
        "wrong-side": found.corrected(-abs(found.wca_deg)),
        "no-correction": found.track_deg,
        "all-cross": found.corrected(asin_deg(found.wind_kt / found.tas_kt)),
        "knots-as-degrees": found.corrected(abs(found.across_kt)),
        "along-for-across": found.corrected(asin_deg(abs(found.along_kt) / found.tas_kt)),
    }


@solver("find-wind")
def wind_found(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: the wind by which heading and TAS become track and ground speed, from the printed whole numbers."""
    ask, track, tas = parameters["ask"], parameters["track_true_deg"], parameters["tas_kt"]
    flown = solve_heading(track, tas, parameters["wind_from_deg"], parameters["wind_kt"])
    heading, gs = shown(flown.heading_deg), whole(flown.gs_kt)
    drift = difference(track, heading)
    if abs(drift) < LEAST_WCA_DEG or abs(tas - gs) < LEAST_ALONG_KT or min(tas, gs) < 60:
        raise Redraw("too little drift, or the speeds too near to one another")
    wind, swapped = find_wind(heading, tas, track, gs), find_wind(track, tas, heading, gs)
    if wind.kt < 20 or abs(difference(wind.from_deg, swapped.from_deg)) < 2 * CLEAR_DEG:
        raise Redraw("too little wind, or heading and track may be exchanged without a sign of it")
    key = (shown(wind.from_deg), whole(wind.kt))
    across, along, speed, off = _wind_in_tenths(tas, drift, gs)
    side = 1 if drift < 0 else -1
    from_deg = track + side * off if tas * cos_deg(drift) > gs else track + 180 - side * off
    for exact, tenths in ((tas * sin_deg(abs(drift)), across), (tas * cos_deg(drift) - gs, along), (wind.kt, speed)):
        require_same_whole(exact, tenths)
    if off % 1 == HALF or shown(from_deg) != key[0]:
        raise Redraw("the working's tenths would give another degree")
    values = {
        "from-to": (shown(wind.from_deg + 180), key[1]),
        "scalar": (track if gs < tas else shown(track + 180), abs(tas - gs)),
        "drift-alone": (shown(track - 90 if drift > 0 else track + 90), whole(across)),
        "exchanged": (shown(swapped.from_deg), whole(swapped.kt)),
        "exchanged-to": (shown(swapped.from_deg + 180), whole(swapped.kt)),
    }
    pair, where = ask == "pair", "ahead" if tas * cos_deg(drift) > gs else "behind"
    return Solution(
        key=key if pair else {"direction": key[0], "speed": key[1]},
        given={"ask": ask, "heading_deg": heading, "tas_kt": tas, "track_true_deg": track, "gs_kt": gs},
        wrong=dict(values) if pair else {name: {"direction": value[0]} for name, value in values.items()},
        quantities={"drift_size_deg": abs(drift), "drift_side": "right" if drift > 0 else "left",
                    "other_side": "left" if drift > 0 else "right", "found_from_deg": key[0], "found_kt": key[1],
                    "gap_kt": abs(tas - gs), "across_kt": across, "along_kt": along, "speed_kt": speed,
                    "off_deg": off},
        steps=("drift-side", "across", f"along-{where}", "speed", f"angle-{where}", f"named-{where}"),
        features={"crosses-north": float(abs(heading - track) > 180)},
        verdict_figures=(drawn((heading, tas), (track, gs), key),),
    )  # fmt: skip


def _wind_in_tenths(tas: int, drift: float, gs: int) -> tuple[float, float, float, float]:
    """Return the wind across and along the track, its speed and its angle off it, each from the tenths written."""
    across = round_half_up(tas * sin_deg(abs(drift)), 1)
    along = round_half_up(abs(tas * cos_deg(drift) - gs), 1)
    return across, along, round_half_up(hypot(across, along), 1), round_half_up(atan2_deg(across, along), 1)
