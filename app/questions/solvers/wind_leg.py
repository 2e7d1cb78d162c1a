"""A whole leg: from true track and wind to true, magnetic and compass heading, ground speed and time."""

from collections.abc import Mapping
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import cos_deg, difference, round_half_up, shown, whole
from app.physics.deviation import CorrectionCard, compass_from_magnetic, deviation_for_magnetic
from app.physics.track import minutes_for
from app.physics.wind import wind_correction_deg
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution, Step
from app.questions.solvers.datum_conversions import variation_fits
from app.questions.solvers.reading_card import card_row
from app.questions.solvers.registry import solver
from app.questions.solvers.wind_triangle import CLEAR_DEG, Triangle, require_same_whole, triangle_of

LEAST_HOME_VARIATION_DEG = 5
LEAST_GAP_MIN = 2.5
LEAST_DEVIATION_DEG = 3
EVERY_DEG = 30


@solver("leg-compass-heading")
def leg_compass_heading(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: TH, MH = TH - V, CH = MH - D by the card, GS and time, each from whole numbers as in a log."""
    at_home = (
        parameters["at_home"]
        and variation_fits(conventions)
        and abs(conventions.variation_deg) >= LEAST_HOME_VARIATION_DEG
    )
    v = whole(conventions.variation_deg) if at_home else parameters["variation_deg"]
    found, distance = triangle_of(parameters), parameters["distance_nm"]
    true, gs = found.heading_deg, whole(found.gs_kt)
    minutes, in_still_air = minutes_for(distance, gs), minutes_for(distance, found.tas_kt)
    if abs(minutes - in_still_air) <= LEAST_GAP_MIN:
        raise Redraw("the wind hardly changes the time")
    require_same_whole(minutes, round_half_up(minutes, 1))
    magnetic = shown(true - v)
    entries = bent_card(magnetic + parameters["shift_toward_deg"], parameters["deviation_deg"])
    card = card_row(entries, "one-row")
    d = deviation_for_magnetic(card, magnetic)
    if abs(d) < LEAST_DEVIATION_DEG:
        raise Redraw("so small a deviation hides whether the card was used")
    if d != whole(d):
        require_same_whole(d, round_half_up(d, 1))
    compass = shown(magnetic - d)
    return Solution(
        key={"heading": true, "magnetic": magnetic, "compass": compass, "gs": gs, "minutes": whole(minutes)},
        given={**found.given, "variation_deg": v, "distance_nm": distance, "card": entries},
        wrong=_wrong_boxes(found, v, magnetic, d) | {"time-tas": {"minutes": whole(in_still_air)}},
        quantities={**found.quantities, "magnetic_deg": magnetic, "steer_deg": compass, "minutes": minutes},
        steps=(*found.heading_steps, f"variation-{_side(v)}", *_card_steps(card, magnetic, d), *found.speed_steps,
               "time"),
        model_notes=("rounding",),
        figures=(FigureCall("correction-card", {"card": entries}),),
        verdict_figures=(found.figure,),
        follow=lambda earlier: _follow(earlier, v, card, distance),
        scene="home" if at_home else "",
        features={"tailwind": float(found.along_kt < 0), "opposite-signs": float(v * d < 0)},
    )  # fmt: skip


def _wrong_boxes(found: Triangle, v: int, magnetic: int, d: float) -> dict[str, Any]:
    """Return what each slip writes into the first box it spoils."""
    return {
        "wrong-side": {"heading": found.corrected(-abs(found.wca_deg))},
        "no-correction": {"heading": found.track_deg},
        **_variation_first(found, v),
        "v-sign": {"magnetic": shown(magnetic + 2 * v)},
        "no-card": {"compass": magnetic},
        "d-sign": {"compass": shown(magnetic + d)},
        "gs-plus": {"gs": whole(found.gs_kt + 2 * found.along_kt)},
        "gs-still": {"gs": whole(found.gs_kt + found.along_kt)},
    }


def _side(angle: float) -> str:
    return "east" if angle > 0 else "west"


def bent_card(peak_deg: float, largest_deg: int) -> list[dict[str, int]]:
    """Return a card whose deviation is greatest near one heading and turns round on the other side of the circle."""
    wanted = range(EVERY_DEG, 361, EVERY_DEG)
    return [{"for_deg": h, "steer_deg": shown(h - whole(largest_deg * cos_deg(h - peak_deg)))} for h in wanted]


def _variation_first(found: Triangle, v: int) -> dict[str, Any]:
    """Return what a true wind on a magnetic track gives, where that can be seen at all."""
    magnetic_track = found.track_deg - v
    astray = magnetic_track + wind_correction_deg(magnetic_track, found.tas_kt, found.wind_from_deg, found.wind_kt)
    if abs(difference(astray + v, found.track_deg + found.wca_deg)) < CLEAR_DEG:
        return {}
    return {"v-before-wind": {"heading": shown(astray + v), "magnetic": shown(astray)}}


def _card_steps(card: CorrectionCard, magnetic: int, d: float) -> tuple[Step | str, ...]:
    """Tell the nearest entry and the deviation found between the entries."""
    nearest = min(range(len(card.for_deg)), key=lambda i: abs(difference(card.for_deg[i], magnetic)))
    entry = {"for_deg": card.for_deg[nearest], "entry_deg": card.steer_deg[nearest],
             "entry_d_deg": whole(card.deviations_deg[nearest]), "d_deg": round_half_up(d, 1)}  # fmt: skip
    return Step("card", entry), Step(f"deviation-{_side(d)}", {"d_size_deg": round_half_up(abs(d), 1)})


def _follow(earlier: Mapping[str, Any], v: int, card: CorrectionCard, distance: float) -> dict[str, Any]:
    """Return what the later boxes hold on the student's own earlier values."""
    later = {
        "magnetic": shown(earlier["heading"] - v),
        "compass": shown(compass_from_magnetic(card, earlier["magnetic"])),
    }
    if earlier["gs"] > 0:
        later["minutes"] = whole(minutes_for(distance, earlier["gs"]))
    return later
