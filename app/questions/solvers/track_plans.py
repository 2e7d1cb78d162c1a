"""Plans in the air: the revised time of arrival, and back onto track by doubling the error for an equal time."""

from collections.abc import Mapping
from typing import Any

from app.physics.angles import shown, whole
from app.physics.track import double_track_error, minutes_for, speed_over_kt
from app.questions.conventions import Conventions, Region
from app.questions.model import Redraw, Solution
from app.questions.solvers.registry import solver

DAY_MIN = 1440
LEAST_APART_MIN = 3
LEAST_GAP_KT, LARGEST_GAP_KT = 8, 30
# Hours by which local time is ahead of UTC, standard and summer time; none where local time may be UTC itself.
OFFSETS_H: dict[Region, tuple[float, ...]] = {
    "ca-south": (-8, -7, -6, -5, -4, -3.5, -3, -2.5),
    "ca-north": (-7, -6, -5, -4),
    "us": (-8, -7, -6, -5, -4),
    "uk": (1,),
    "easa": (1, 2, 3),
    "nz": (12, 13),
    "au": (8, 9.5, 10, 10.5, 11),
}


@solver("eta-revision")
def eta_revision(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: checkpoint time + time left at the ground speed just measured, UTC or local; minutes after midnight."""
    ask, gone, took, left, planned = (parameters[n] for n in ("ask", "gone_nm", "minutes", "left_nm", "gs_kt"))
    start, offset = _by_day(parameters["takeoff_min"], parameters["shuffle"], conventions.region)
    measured = speed_over_kt(gone, took)
    gs = whole(measured)
    rest = minutes_for(left, measured)
    checkpoint = start + took
    eta = whole(checkpoint + rest)
    shift = whole(60 * offset) if ask == "local" else 0
    values = {
        "planned-speed": checkpoint + minutes_for(left, planned) + shift,
        "hundredths": checkpoint + 100 * left / measured + shift,
        "from-departure": start + rest + shift,
        "whole-leg-again": checkpoint + minutes_for(gone + left, measured) + shift,
        **({"offset-turned": eta - shift, "offset-left-out": eta} if shift else {}),
    }
    wrong = {name: whole(value) % DAY_MIN for name, value in values.items()}
    key = (eta + shift) % DAY_MIN
    unlikely = not 60 <= gs <= 160 or not LEAST_GAP_KT <= abs(planned - gs) <= LARGEST_GAP_KT
    if whole(minutes_for(left, gs)) != whole(rest) or whole(checkpoint + rest) != checkpoint + whole(rest):
        raise Redraw("the working's whole knots and minutes would give another minute")
    if unlikely or any(abs(value - key) <= LEAST_APART_MIN for value in wrong.values()):
        raise Redraw("an unlikely speed, or a slip nearly right")
    return Solution(
        key=key,
        given={"ask": ask, "time_utc": start, "gone_nm": gone, "minutes": took, "left_nm": left, "gs_kt": planned,
               **({"offset_h": offset} if shift else {})},
        wrong=wrong,
        quantities={"measured_kt": gs, "rest_min": whole(rest), "checkpoint_min": checkpoint % DAY_MIN,
                    "eta_min": eta % DAY_MIN, "local_min": key},
        steps=("speed", "time-left", "add", *((f"local-{'ahead' if shift > 0 else 'behind'}",) if shift else ())),
        features={"past-midnight": float(eta >= DAY_MIN or not 0 <= eta + shift < DAY_MIN)},
    )  # fmt: skip


def _by_day(local_min: int, shuffle: int, region: Region) -> tuple[int, float]:
    """Return a local time in UTC, minutes after midnight, and the hours by which a zone of the region is ahead."""
    offsets = OFFSETS_H[region]
    offset = offsets[shuffle % len(offsets)]
    return whole(local_min - 60 * offset) % DAY_MIN, offset


@solver("double-track-error")
def double_error(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: heading altered by twice the error for the time already flown, then by once."""
    heading, error, minutes = (parameters[name] for name in ("magnetic_deg", "track_error_deg", "minutes"))
    plan = double_track_error(heading, error, minutes)
    first, second = shown(plan.regain_deg), shown(plan.keep_deg)
    return Solution(
        key={"regain": first, "minutes": minutes, "hold": second},
        given={"magnetic_deg": heading, "track_error_deg": abs(error), "side": "right" if error > 0 else "left",
               "minutes": minutes},
        wrong={
            "single": {"regain": shown(heading - error)},
            "other-side": {"regain": shown(heading + 2 * error)},
            "half-the-time": {"minutes": whole(minutes / 2)},
            "twice-the-time": {"minutes": 2 * minutes},
            "stays": {"hold": first},
            "back-to-old": {"hold": heading},
        },
        quantities={"error_size_deg": abs(error), "twice_deg": 2 * abs(error), "regain_deg": first, "hold_deg": second,
                    "turn_side": "left" if error > 0 else "right"},
        steps=("twice-left" if error > 0 else "twice-right", "same-time", "once-left" if error > 0 else "once-right"),
        follow=lambda earlier: {"hold": shown(earlier["regain"] + error)},
        features={"crosses-north": float(abs(first - heading) > 180)},
    )  # fmt: skip
