"""Pressure and density altitude, and the speeds: by the rule the stem prints, or exactly as a flight computer does."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from app.figures.model import FigureCall
from app.physics.angles import round_half_up, whole
from app.physics.pressure import (
    STANDARD_SETTING_INHG,
    density_altitude_by_rule_ft,
    density_altitude_ft,
    pressure_altitude_by_hpa_ft,
    pressure_altitude_by_inches_ft,
    standard_temperature_c,
    tas_by_rule_kt,
    tas_from_cas_kt,
)
from app.questions.conventions import Conventions, PressureUnit
from app.questions.model import Redraw, Solution
from app.questions.solvers.pressure_altitude import STANDARD_HPA, STANDARD_HUNDREDTHS, hpa_near
from app.questions.solvers.registry import solver

MARK_KT = 5  # from one mark of the airspeed indicator to the next
DENSITY_FT_A_DEGREE = 120  # of a standard temperature read to the tenth, so that the working adds up


class Setting(NamedTuple):
    """An altimeter setting: its unit, what is printed of it, the feet from the standard pressure, the slips' feet."""

    unit: PressureUnit
    given: dict[str, float]
    quantities: dict[str, float]
    correction_ft: int
    slips_ft: dict[str, int]
    steps: tuple[str, str]


@solver("pressure-density-altitude")
def pressure_density_altitude(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: elevation + (standard - setting) x the rate printed; density altitude by 120 ft a degree, or exact; feet."""
    ask, elevation, hundredths = (parameters[name] for name in ("ask", "elevation_ft", "setting_hundredths"))
    in_hpa = conventions.pressure_unit == "hpa"
    setting = _in_hpa(hundredths, conventions.feet_per_hpa) if in_hpa else _in_inches(hundredths)
    pressure = elevation + setting.correction_ft
    if ask == "pressure":
        return _pressure_altitude(elevation, setting)
    oat = whole(standard_temperature_c(pressure)) + parameters["isa_deviation_c"]
    if pressure < 1500:
        raise Redraw("too low for the rule to differ from its slips")
    return _density_altitude(ask, elevation, setting, oat)


def _in_inches(hundredths: int) -> Setting:
    gap = STANDARD_HUNDREDTHS - hundredths
    if abs(gap) < 25:
        raise Redraw("too near the standard pressure to tell")
    return Setting(
        unit="inhg",
        given={"setting_inhg": hundredths / 100},
        quantities={"gap_inhg": gap / 100, "standard_inhg": STANDARD_SETTING_INHG},
        correction_ft=whole(pressure_altitude_by_inches_ft(0, hundredths / 100)),
        slips_ft={"tenfold": 100 * gap, "rate-of-hpa": 30 * gap},
        steps=("gap", "pressure"),
    )


def _in_hpa(hundredths: int, rate: int) -> Setting:
    setting = hpa_near(hundredths)
    gap = STANDARD_HPA - setting
    if abs(gap) < 8:
        raise Redraw("too near the standard pressure to tell")
    return Setting(
        unit="hpa",
        given={"setting_hpa": setting},
        quantities={"gap_hpa": gap, "standard_hpa": STANDARD_HPA, "rate": rate},
        correction_ft=whole(pressure_altitude_by_hpa_ft(0, setting, rate)),
        slips_ft={"ten-feet": 10 * gap, "hundred-feet": 100 * gap},
        steps=("gap-hpa", "pressure-hpa"),
    )


def _pressure_altitude(elevation: int, setting: Setting) -> Solution:
    pressure = elevation + setting.correction_ft
    return Solution(
        key=pressure,
        given={"ask": "pressure", "elevation_ft": elevation, **setting.given},
        wrong={
            "pressure-turned": elevation - setting.correction_ft,
            "elevation-itself": elevation,
            **{slip: elevation + feet for slip, feet in setting.slips_ft.items()},
        },
        quantities={"pressure_ft": pressure, "correction_ft": setting.correction_ft, **setting.quantities},
        steps=setting.steps,
        model_notes=("rule",),
        scene=setting.unit,
        features={"low-pressure": float(setting.correction_ft > 0)},
    )


def _density_altitude(ask: str, elevation: int, setting: Setting, oat: int) -> Solution:
    pressure = elevation + setting.correction_ft
    standard = round_half_up(15 - 1.98 * pressure / 1000, 1)
    warmer = round_half_up(oat - standard, 1)
    by_rule = pressure + whole(DENSITY_FT_A_DEGREE * warmer)
    key = by_rule if ask == "density" else whole(density_altitude_ft(pressure, oat))
    from_elevation = whole(density_altitude_by_rule_ft(elevation, oat))
    return Solution(
        key=key,
        given={"ask": ask, "elevation_ft": elevation, **setting.given, "oat_c": oat},
        wrong={
            "density-turned": 2 * pressure - by_rule,
            "fifteen-everywhere": pressure + DENSITY_FT_A_DEGREE * (oat - 15),
            "from-elevation": from_elevation,
            "stops-at-pressure": pressure,
        },
        quantities={
            "pressure_ft": pressure,
            "standard_c": standard,
            "warmer_c": warmer,
            "correction_ft": setting.correction_ft,
            "density_ft": key,
            "lapse_c": 1.98,
            **setting.quantities,
        },
        steps=(*setting.steps, "standard", "warmer", "density" if ask == "density" else "density-computer"),
        model_notes=("rule",),
        scene=setting.unit,
        features={"low-pressure": float(setting.correction_ft > 0)},
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
