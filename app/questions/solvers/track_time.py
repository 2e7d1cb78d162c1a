"""Time, speed and distance over the ground. Nautical miles unless the stem says statute, knots, minutes."""

from collections.abc import Mapping
from typing import Any

from app.physics.angles import round_half_up, whole
from app.physics.track import distance_in_nm, minutes_for, speed_over_kt
from app.physics.units import nm_from_sm, sm_from_nm
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution
from app.questions.solvers.registry import solver

SHORTEST_MIN, LONGEST_MIN, LONGEST_NM = 15, 150, 180
NEAR_WHOLE_HOUR_MIN = 5
SLOWEST_TAS_KT = 65
SIXTY_OF_A_HUNDRED = 0.6
NM_IN_SM = round_half_up(nm_from_sm(1.0), 3)


@solver("time-speed-distance")
def time_speed_distance(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: minutes 60 d / GS, knots 60 d / t or miles GS t / 60; statute miles become nautical ones first."""
    if parameters["ask"] != "speed" and parameters["gs_kt"] + parameters["wind_along_kt"] < SLOWEST_TAS_KT:
        raise Redraw("too slow through the air for a light aeroplane in cruise")
    solve = {"time": _time, "speed": _speed, "distance": _distance}[parameters["ask"]]
    return solve(parameters)


def _time(parameters: Mapping[str, Any]) -> Solution:
    printed, unit, gs, wind = (parameters[name] for name in ("distance_nm", "distance_unit", "gs_kt", "wind_along_kt"))
    miles = _nautical(printed, unit)
    exact = minutes_for(miles, gs)
    if not SHORTEST_MIN <= exact <= LONGEST_MIN or abs((exact + 30) % 60 - 30) < NEAR_WHOLE_HOUR_MIN:
        raise Redraw("the time is too short, too long, or as good as whole hours")
    _require_same_answer(exact, minutes_for(round_half_up(miles, 1), gs))
    hours = int(exact // 60)
    wrong = {
        "tas": minutes_for(miles, gs + wind),
        "wind-turned": minutes_for(miles, gs - wind),
        "hours-min": 60 * hours + (exact - 60 * hours) / SIXTY_OF_A_HUNDRED,
        "sixty-twice": exact * SIXTY_OF_A_HUNDRED,
        "inverse": minutes_for(gs, miles),
        "mile-a-minute": miles,
        "two-a-minute": miles / 2,
        **{name: minutes_for(each, gs) for name, each in _wrong_miles(printed, unit).items()},
    }
    return Solution(
        key=whole(exact),
        given={"ask": "time", "distance_nm": printed, "distance_unit": unit, "gs_kt": gs, "tas_kt": gs + wind},
        wrong={name: whole(value) for name, value in wrong.items()},
        quantities={"factor": NM_IN_SM, "miles_nm": round_half_up(miles, 1), "time_min": exact, "hours": exact / 60},
        steps=(*_conversion(unit), "time"),
        features={"statute": float(unit == "sm")},
    )


def _speed(parameters: Mapping[str, Any]) -> Solution:
    printed, unit, minutes = (parameters[name] for name in ("distance_nm", "distance_unit", "minutes"))
    miles, hours = _nautical(printed, unit), minutes // 60
    exact = speed_over_kt(miles, minutes)
    if not 75 <= exact <= 125:
        raise Redraw("not the speed of such an aircraft")
    _require_same_answer(exact, speed_over_kt(round_half_up(miles, 1), minutes))
    tas = whole(exact) + parameters["wind_along_kt"]
    if tas < SLOWEST_TAS_KT:
        raise Redraw("too slow through the air for a light aeroplane in cruise")
    wrong = {
        "tas": tas,
        "wind-turned": 2 * exact - tas,
        "hours-min": miles / (hours + (minutes - 60 * hours) / 100),
        "sixty-twice": exact * SIXTY_OF_A_HUNDRED,
        "inverse": speed_over_kt(minutes, miles),
        **{name: speed_over_kt(each, minutes) for name, each in _wrong_miles(printed, unit).items()},
    }
    return Solution(
        key=whole(exact),
        given={"ask": "speed", "distance_nm": printed, "distance_unit": unit, "minutes": minutes, "tas_kt": tas},
        wrong={name: whole(value) for name, value in wrong.items()},
        quantities={"factor": NM_IN_SM, "miles_nm": round_half_up(miles, 1), "speed_kt": exact, "hours": minutes / 60},
        steps=(*_conversion(unit), "speed"),
        features={"statute": float(unit == "sm")},
    )


def _distance(parameters: Mapping[str, Any]) -> Solution:
    gs, wind, minutes = (parameters[name] for name in ("gs_kt", "wind_along_kt", "minutes"))
    exact = distance_in_nm(gs, minutes)
    if not SHORTEST_MIN <= exact <= LONGEST_NM or abs((minutes + 30) % 60 - 30) < NEAR_WHOLE_HOUR_MIN:
        raise Redraw("the leg is too short, too long, or flown in whole hours")
    hours = minutes // 60
    wrong = {
        "tas": distance_in_nm(gs + wind, minutes),
        "wind-turned": distance_in_nm(gs - wind, minutes),
        "hours-min": gs * (hours + (minutes - 60 * hours) / 100),
        "mile-a-minute": minutes,
        "two-a-minute": 2 * minutes,
        **_wrong_miles(exact, "nm"),
    }
    return Solution(
        key=whole(exact),
        given={"ask": "distance", "gs_kt": gs, "minutes": minutes, "tas_kt": gs + wind},
        wrong={name: whole(value) for name, value in wrong.items()},
        quantities={"miles_nm": exact, "hours": minutes / 60},
        steps=("distance",),
        features={"statute": 0.0},
    )


def _nautical(printed: float, unit: str) -> float:
    if unit != "sm":
        return float(printed)
    miles = nm_from_sm(printed)
    if round_half_up(NM_IN_SM * printed, 1) != round_half_up(miles, 1):
        raise Redraw("the factor shown would give another tenth of a mile")
    return miles


def _require_same_answer(exact: float, from_tenths: float) -> None:
    if whole(exact) != whole(from_tenths):
        raise Redraw("the tenth of a mile shown would give another answer")


def _conversion(unit: str) -> tuple[str, ...]:
    return ("to-nm",) if unit == "sm" else ()


def _wrong_miles(printed: float, unit: str) -> dict[str, float]:
    """Miles of those who leave statute miles as they are, or turn miles into the other kind for no reason."""
    if unit == "sm":
        return {"units": float(printed), "units-turned": sm_from_nm(printed)}
    return {"made-statute": sm_from_nm(printed), "taken-for-statute": nm_from_sm(printed)}
