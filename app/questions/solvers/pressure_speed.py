"""Pressure and density altitude, and the speeds: by the rule the stem prints, or exactly as a flight computer does."""

from collections.abc import Mapping
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import round_half_up, whole
from app.physics.pressure import (
    density_altitude_by_rule_ft,
    density_altitude_ft,
    pressure_altitude_by_inches_ft,
    standard_temperature_c,
    tas_by_rule_kt,
    tas_from_cas_kt,
)
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution
from app.questions.solvers.registry import solver

STANDARD_HUNDREDTHS = 2992
MARK_KT = 5  # from one mark of the airspeed indicator to the next
DENSITY_FT_A_DEGREE = 120  # of a standard temperature read to the tenth, so that the working adds up


@solver("pressure-density-altitude")
def pressure_density_altitude(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: elevation + (29.92 - setting) x 1000; density altitude by 120 ft a degree, or exact; feet."""
    ask, elevation, setting = (parameters[name] for name in ("ask", "elevation_ft", "setting_hundredths"))
    gap = STANDARD_HUNDREDTHS - setting
    if abs(gap) < 25:
        raise Redraw("too near the standard pressure to tell")
    pressure = whole(pressure_altitude_by_inches_ft(elevation, setting / 100))
    if ask == "pressure":
        return _pressure_altitude(elevation, setting, gap, pressure)
    oat = whole(standard_temperature_c(pressure)) + parameters["isa_deviation_c"]
    if pressure < 1500:
        raise Redraw("too low for the rule to differ from its slips")
    return _density_altitude(ask, elevation, setting, pressure, oat)


def _pressure_altitude(elevation: int, setting: int, gap: int, pressure: int) -> Solution:
    return Solution(
        key=pressure,
        given={"ask": "pressure", "elevation_ft": elevation, "setting_inhg": setting / 100},
        wrong={
            "pressure-turned": elevation - 10 * gap,
            "elevation-itself": elevation,
            "tenfold": elevation + 100 * gap,
            "rate-of-hpa": elevation + 30 * gap,
        },
        quantities={
            "pressure_ft": pressure,
            "gap_inhg": gap / 100,
            "correction_ft": 10 * gap,
            "standard_inhg": 29.92,
        },
        steps=("gap", "pressure"),
        model_notes=("rule",),
        features={"low-pressure": float(gap > 0)},
    )


def _density_altitude(ask: str, elevation: int, setting: int, pressure: int, oat: int) -> Solution:
    standard = round_half_up(15 - 1.98 * pressure / 1000, 1)
    warmer = round_half_up(oat - standard, 1)
    by_rule = pressure + whole(DENSITY_FT_A_DEGREE * warmer)
    key = by_rule if ask == "density" else whole(density_altitude_ft(pressure, oat))
    from_elevation = whole(density_altitude_by_rule_ft(elevation, oat))
    return Solution(
        key=key,
        given={"ask": ask, "elevation_ft": elevation, "setting_inhg": setting / 100, "oat_c": oat},
        wrong={
            "density-turned": 2 * pressure - by_rule,
            "fifteen-everywhere": pressure + DENSITY_FT_A_DEGREE * (oat - 15),
            "from-elevation": from_elevation,
            "stops-at-pressure": pressure,
        },
        quantities={
            "pressure_ft": pressure,
            "gap_inhg": (STANDARD_HUNDREDTHS - setting) / 100,
            "standard_c": standard,
            "warmer_c": warmer,
            "correction_ft": 10 * (STANDARD_HUNDREDTHS - setting),
            "density_ft": key,
            "standard_inhg": 29.92,
            "lapse_c": 1.98,
        },
        steps=("gap", "pressure", "standard", "warmer", "density" if ask == "density" else "density-computer"),
        model_notes=("rule",),
        features={"low-pressure": float(setting < STANDARD_HUNDREDTHS)},
    )


@solver("tas-from-cas")
def tas_from_cas(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: CAS x (1 + 2 % a thousand feet), or CAS over the root of the density ratio; kt."""
    ask, cas, pressure, along = (
        parameters[name] for name in ("ask", "cas_kt", "pressure_altitude_ft", "wind_along_kt")
    )
    dial = parameters["instrument"] == "airspeed-indicator"
    if dial:  # a speed on one of its marks
        cas = MARK_KT * round(cas / MARK_KT)
    thousands = pressure / 1000
    if cas * 0.01 * thousands <= 3.4:
        raise Redraw("the correction is too small to tell the slips apart")
    if ask == "rule":
        key, given = round_half_up(tas_by_rule_kt(cas, pressure), 1), {}
    else:
        oat = whole(standard_temperature_c(pressure)) + parameters["isa_deviation_c"]
        key, given = round_half_up(tas_from_cas_kt(cas, pressure, oat), 1), {"oat_c": oat}
    return Solution(
        key=key,
        given={
            "ask": ask,
            "ias_kt" if dial else "cas_kt": cas,
            "pressure_altitude_ft": pressure,
            "wind_along_kt": along,
            **given,
        },
        wrong=_wrong_speeds(cas, key, along, thousands),
        quantities={
            "thousands": thousands,
            "percent": 2 * thousands,
            "cas_kt": cas,
            "gain_kt": round_half_up(key - cas, 1),
            "tas_kt": key,
        },
        steps=(*(("read-dial",) if dial else ()), *(("percent", "tas") if ask == "rule" else ("computer",))),
        scene="dial" if dial else "",
        figures=(FigureCall("airspeed", {"ias_kt": cas}),) if dial else (),
        model_notes=("rule-and-exact",),
        features={"temperature": float(ask == "computer")},
    )


def _wrong_speeds(cas: float, tas: float, along: float, thousands: float) -> dict[str, float]:
    """Return what each slip makes of a calibrated airspeed whose true one is `tas`."""
    percents = {"one-percent": 0.01, "three-percent": 0.03, "four-percent": 0.04}
    return {
        "divides": round_half_up(cas * cas / tas, 1),
        "cas-as-tas": cas,
        "ground-speed": round_half_up(tas + along, 1),
        "wind-turned": round_half_up(tas - along, 1),
        **{name: round_half_up(cas * (1 + share * thousands), 1) for name, share in percents.items()},
    }
