"""The wind triangle: heading and ground speed, a whole leg down to the compass, and the wind from what was flown."""

from collections.abc import Mapping
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import cos_deg, difference, shown, whole
from app.physics.wind import find_wind, solve_heading
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution
from app.questions.solvers.datum_conversions import variation_fits
from app.questions.solvers.registry import solver

LEAST_WCA_DEG = 3
LEAST_ALONG_KT = 6
LARGEST_SHARE_OF_TAS = 0.4
CLEAR_DEG = 4.5  # past twice the marking tolerance of two degrees


@solver("wind-triangle")
def wind_triangle(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: TH = TT + WCA and GS = TAS cos WCA - w cos (wind angle), whole degrees and knots."""
    ask, track, tas, wind_from, wind = (
        parameters[name] for name in ("ask", "track_true_deg", "tas_kt", "wind_from_deg", "wind_kt")
    )
    along = wind * cos_deg(difference(wind_from, track))
    if wind > LARGEST_SHARE_OF_TAS * tas or abs(along) < LEAST_ALONG_KT:
        raise Redraw("wind too strong, or nearly across")
    found = solve_heading(track, tas, wind_from, wind)
    if abs(found.wca_deg) < LEAST_WCA_DEG:
        raise Redraw("too little drift to tell the side")
    heading, other_side = shown(found.heading_deg), shown(track - found.wca_deg)
    gs, with_wind, still = whole(found.gs_kt), whole(found.gs_kt + 2 * along), whole(found.gs_kt + along)
    common: dict[str, Any] = {
        "given": {"ask": ask, "track_true_deg": track, "tas_kt": tas, "wind_from_deg": wind_from, "wind_kt": wind},
        "quantities": {"wca_deg": whole(abs(found.wca_deg)), "wca_side": "right" if found.wca_deg > 0 else "left",
                       "wind_angle_deg": whole(abs(difference(wind_from, track))), "along_kt": whole(abs(along)),
                       "along_word": "against" if along > 0 else "behind", "heading_deg": heading, "gs_kt": gs,
                       "still_kt": still},
        "steps": ("angle", "correction-right" if found.wca_deg > 0 else "correction-left",
                  "speed-less" if along > 0 else "speed-more"),
        "features": {"tailwind": float(along < 0)},
        "verdict_figures": (_triangle((heading, tas), (track, gs), (wind_from, wind)),),
    }  # fmt: skip
    if ask == "pair":
        wrong: dict[str, Any] = {
            "wrong-side": (other_side, gs),
            "wind-to": (other_side, with_wind),
            "gs-plus": (heading, with_wind),
            "gs-still": (heading, still),
        }
        return Solution(key=(heading, gs), wrong=wrong, **common)
    boxes = {"wrong-side": {"heading": other_side}, "no-correction": {"heading": track}, "gs-plus": {"gs": with_wind},
             "gs-still": {"gs": still}}  # fmt: skip
    return Solution(key={"heading": heading, "gs": gs}, wrong=boxes, **common)


@solver("leg-compass-heading")
def leg_compass_heading(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: TH, MH = TH - V, CH = MH - D, GS and time; a later box may follow an earlier wrong one."""
    track, tas, wind_from, wind, d, distance = (
        parameters[name]
        for name in ("track_true_deg", "tas_kt", "wind_from_deg", "wind_kt", "deviation_deg", "distance_nm")
    )
    at_home = parameters["at_home"] and variation_fits(conventions) and abs(conventions.variation_deg) >= 5
    v = whole(conventions.variation_deg) if at_home else parameters["variation_deg"]
    if wind > LARGEST_SHARE_OF_TAS * tas:
        raise Redraw("wind too strong")
    found = solve_heading(track, tas, wind_from, wind)
    along = wind * cos_deg(difference(wind_from, track))
    minutes, in_still_air = 60 * distance / found.gs_kt, 60 * distance / tas
    if abs(found.wca_deg) < LEAST_WCA_DEG or abs(minutes - in_still_air) <= 2.5 or abs(along) < LEAST_ALONG_KT:
        raise Redraw("drift or time too small to tell the slips apart")
    true, magnetic, compass = (shown(found.heading_deg - each) for each in (0, v, v + d))
    gs = whole(found.gs_kt)
    return Solution(
        key={"heading": true, "magnetic": magnetic, "compass": compass, "gs": gs, "minutes": whole(minutes)},
        given={"track_true_deg": track, "tas_kt": tas, "wind_from_deg": wind_from, "wind_kt": wind, "variation_deg": v,
               "deviation_deg": d, "distance_nm": distance},
        wrong={
            "wrong-side": {"heading": shown(track - found.wca_deg)},
            "no-correction": {"heading": track},
            "v-sign": {"magnetic": shown(true + v)},
            "no-card": {"compass": magnetic},
            "d-sign": {"compass": shown(magnetic + d)},
            "gs-plus": {"gs": whole(found.gs_kt + 2 * along)},
            "time-tas": {"minutes": whole(in_still_air)},
        },
        quantities={"true_deg": true, "magnetic_deg": magnetic, "compass_deg": compass, "gs_kt": gs,
                    "minutes": whole(minutes), "wca_deg": whole(abs(found.wca_deg))},
        steps=("correction-right" if found.wca_deg > 0 else "correction-left",
               f"variation-{'east' if v > 0 else 'west'}", f"deviation-{'east' if d > 0 else 'west'}",
               "speed-less" if along > 0 else "speed-more", "time"),
        verdict_figures=(_triangle((true, tas), (track, gs), (wind_from, wind)),),
        follow=lambda earlier: _follow(earlier, v, d, distance),
        scene="home" if at_home else "",
        features={"tailwind": float(along < 0), "opposite-signs": float(v * d < 0)},
    )  # fmt: skip


def _follow(earlier: Mapping[str, Any], v: int, d: int, distance: float) -> dict[str, Any]:
    """Return what the later boxes hold on the student's own earlier values."""
    later = {"magnetic": shown(earlier["heading"] - v), "compass": shown(earlier["magnetic"] - d)}
    if earlier["gs"] > 0:
        later["minutes"] = whole(60 * distance / earlier["gs"])
    return later


@solver("find-wind")
def wind_found(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: the wind by which heading and TAS become track and ground speed, from the printed whole numbers."""
    ask, track, tas = parameters["ask"], parameters["track_true_deg"], parameters["tas_kt"]
    drawn = solve_heading(track, tas, parameters["wind_from_deg"], parameters["wind_kt"])
    heading, gs = shown(drawn.heading_deg), whole(drawn.gs_kt)
    wind = find_wind(heading, tas, track, gs)
    swapped = find_wind(track, tas, heading, gs)
    drift = difference(track, heading)
    if wind.kt < 20 or abs(drift) < LEAST_WCA_DEG or abs(tas - gs) < LEAST_ALONG_KT or min(tas, gs) < 60:
        raise Redraw("too little wind or drift")
    if abs(difference(wind.from_deg, swapped.from_deg)) < 2 * CLEAR_DEG:
        raise Redraw("heading and track may be exchanged without a sign of it")
    key = (shown(wind.from_deg), whole(wind.kt))
    scalar = (track if gs < tas else shown(track + 180), abs(tas - gs))
    values = {
        "from-to": (shown(wind.from_deg + 180), key[1]),
        "scalar": scalar,
        "exchanged": (shown(swapped.from_deg), whole(swapped.kt)),
        "exchanged-to": (shown(swapped.from_deg + 180), whole(swapped.kt)),
    }
    common: dict[str, Any] = {
        "given": {"ask": ask, "heading_deg": heading, "tas_kt": tas, "track_true_deg": track, "gs_kt": gs},
        "quantities": {"drift_deg": whole(abs(drift)), "drift_side": "right" if drift > 0 else "left",
                       "wind_from_deg": key[0], "wind_kt": key[1], "gap_kt": abs(tas - gs)},
        "steps": ("vectors", "drift-side", "join"),
        "features": {"crosses-north": float(abs(heading - track) > 180)},
        "verdict_figures": (_triangle((heading, tas), (track, gs), key),),
    }  # fmt: skip
    if ask == "pair":
        return Solution(key=key, wrong=values, **common)
    boxes: dict[str, Any] = {name: {"direction": value[0]} for name, value in values.items()}
    return Solution(key={"direction": key[0], "speed": key[1]}, wrong=boxes, **common)


def _triangle(flown: tuple[float, float], made: tuple[float, float], wind: tuple[float, float]) -> FigureCall:
    """Draw the three sides, each a direction and a speed: heading and TAS, track and GS, wind from and its speed."""
    names = ("heading_deg", "tas_kt", "track_true_deg", "gs_kt", "wind_from_deg", "wind_kt")
    return FigureCall("wind-triangle", dict(zip(names, (*flown, *made, *wind), strict=True)))
