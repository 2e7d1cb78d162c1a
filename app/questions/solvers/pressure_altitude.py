"""Altimeter settings, temperature and altitude: the handbook rules, each with the rate its stem prints."""

from collections.abc import Mapping
from typing import Any

from app.physics.angles import round_half_up, whole
from app.physics.pressure import altitude_by_hpa_ft, altitude_by_inches_ft, cold_correction_ft
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution, Wrong
from app.questions.solvers.registry import solver

FEET_A_HUNDREDTH = 10
STANDARD_C = 15
LAPSE_C = 2
STANDARD_HUNDREDTHS = 2992
STANDARD_HPA = 1013


@solver("altimeter-missetting")
def altimeter_missetting(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: indicated + (actual - set) times the rate the stem prints, feet."""
    indicated, gap, setting = (parameters[name] for name in ("indicated_ft", "gap_hundredths", "setting_hundredths"))
    if (parameters["ask"] == "hectopascals") != (conventions.pressure_unit == "hpa"):
        raise Redraw("the school uses the other pressure unit")
    if conventions.pressure_unit == "hpa":
        hpa_gap = max(4, abs(gap) // 3)
        return _missetting_hpa(indicated, hpa_gap if gap > 0 else -hpa_gap, setting, conventions)
    if not 2880 <= setting + gap <= 3090:
        raise Redraw("no such pressure")
    set_in, actual_in = setting / 100, (setting + gap) / 100
    key = whole(altitude_by_inches_ft(indicated, set_in, actual_in))
    change = gap * FEET_A_HUNDREDTH
    wrong: dict[str, Any] = {
        "turned-round": indicated - change,
        "as-shown": indicated,
        "other-unit": indicated + 3 * change,
        "from-standard": indicated + FEET_A_HUNDREDTH * (STANDARD_HUNDREDTHS - setting),
        "to-standard": indicated + FEET_A_HUNDREDTH * (setting + gap - STANDARD_HUNDREDTHS),
    }
    if abs(gap) <= 30:
        wrong["ten-times"] = Wrong(indicated + 10 * change, option=indicated + 10 * change > 0)
    return Solution(
        key=key,
        given={"ask": "inches", "indicated_ft": indicated, "setting_inhg": set_in, "actual_inhg": actual_in},
        wrong=wrong,
        quantities={"gap_inhg": gap / 100, "change": change, "correction": abs(change), "real_ft": key, "rate": 1000},
        steps=("difference-inches", "feet-inches", "altitude-up" if gap > 0 else "altitude-down"),
        model_notes=("rate",),
        features={"low-setting": float(gap > 0)},
    )


def _missetting_hpa(indicated: int, gap: int, hundredths: int, conventions: Conventions) -> Solution:
    rate, setting = conventions.feet_per_hpa, hpa_near(hundredths)
    actual = setting + gap
    if not 975 <= actual <= 1048:
        raise Redraw("no such pressure")
    key = whole(altitude_by_hpa_ft(indicated, setting, actual, rate))
    return Solution(
        key=key,
        given={"ask": "hectopascals", "indicated_ft": indicated, "setting_hpa": setting, "actual_hpa": actual},
        wrong={
            "turned-round": indicated - rate * gap,
            "as-shown": indicated,
            "other-unit": indicated + 100 * gap,
            "whole-setting": indicated + 10 * gap,
            "from-standard": indicated + rate * (STANDARD_HPA - setting),
            "to-standard": indicated + rate * (actual - STANDARD_HPA),
        },
        quantities={
            "gap_hpa": gap, "change": rate * gap, "correction": abs(rate * gap), "real_ft": key, "rate": rate,
        },
        steps=("difference-hpa", "feet-hpa", "altitude-up" if gap > 0 else "altitude-down"),
        model_notes=("rate",),
        features={"low-setting": float(gap > 0)},
    )  # fmt: skip


@solver("cold-temperature-altitude")
def cold_temperature(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: 4 ft for each 1000 ft above the station and each degree below standard there; how far below indicated."""
    above, elevation, oat = (parameters[name] for name in ("above_station_ft", "elevation_ft", "oat_c"))
    standard = STANDARD_C - LAPSE_C * elevation // 1000
    cold = standard - oat
    if not 12 <= cold <= 30:
        raise Redraw("not cold enough, or beyond the rule")
    key = whole(cold_correction_ft(above, cold))
    return Solution(
        key=key,
        given={"ask": parameters["ask"], "indicated_ft": above + elevation, "elevation_ft": elevation, "oat_c": oat},
        wrong={
            "from-zero": Wrong(whole(4 * above / 1000 * -oat), option=oat < 0),
            "from-sea-level": whole(4 * (above + elevation) / 1000 * cold),
            "fifteen-everywhere": whole(4 * above / 1000 * (STANDARD_C - oat)),
            "a-tenth": whole(0.4 * above / 1000 * cold),
            "once-for-all": whole(0.04 * above),
            "sea-and-fifteen": whole(4 * (above + elevation) / 1000 * (STANDARD_C - oat)),
        },
        quantities={"above_ft": above, "standard_c": standard, "cold_c": cold, "correction_ft": key,
                    "elevation_thousands": elevation / 1000, "above_thousands": above / 1000},
        steps=("standard", "below-standard", "above-station", "correction"),
        model_notes=("published-table",),
        tolerance=max(20.0, round_half_up(0.05 * key)),
        features={"high-station": float(elevation >= 3000)},
    )  # fmt: skip


@solver("high-to-low-hot-to-cold")
def high_to_low(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: indicated - setting change at the rate printed - cold correction, or what is left over a ridge; feet."""
    ask, indicated, ridge = (parameters[name] for name in ("ask", "indicated_ft", "ridge_ft"))
    elevation, oat = parameters["elevation_ft"], parameters["oat_c"]
    standard = STANDARD_C - LAPSE_C * elevation // 1000
    above, cold = indicated - elevation, standard - oat
    if cold < 10 or STANDARD_C - oat > 45 or above < 2000 or above % 500:
        raise Redraw("not cold enough, or too near the station")
    settings, pressure, slip = _setting_change(parameters, conventions)
    temperature = whole(cold_correction_ft(above, cold))
    actual = indicated - pressure - temperature
    floor = ridge if ask == "clearance" else 0
    if not 300 <= actual - ridge <= 2500 or min(pressure, temperature) < 150 or abs(pressure - temperature) < 130:
        raise Redraw("no fair ridge, or parts too small to tell")
    given = {"indicated_ft": indicated, **settings, "elevation_ft": elevation, "oat_c": oat}
    return Solution(
        key=actual - floor,
        given={"ask": ask, **given, **({"ridge_ft": ridge} if ask == "clearance" else {})},
        wrong={
            "pressure-only": indicated - pressure - floor,
            "temperature-only": indicated - temperature - floor,
            "opposite": indicated + pressure + temperature - floor,
            "as-shown": indicated - floor,
            "from-sea-level": indicated - pressure - whole(cold_correction_ft(indicated, cold)) - floor,
            "fifteen-everywhere": indicated - pressure - whole(cold_correction_ft(above, STANDARD_C - oat)) - floor,
            **{name: indicated - feet - temperature - floor for name, feet in slip.items()},
        },
        quantities={"pressure_ft": pressure, "temperature_ft": temperature, "actual_ft": actual, "cold_c": cold,
                    "standard_c": standard, "above_ft": above, "clear_ft": actual - ridge,
                    "rate": conventions.feet_per_hpa},
        steps=("pressure" if conventions.pressure_unit == "inhg" else "pressure-hpa", "standard", "temperature",
               "altitude", *(("clearance",) if ask == "clearance" else ())),
        model_notes=("published-table",),
        scene=conventions.pressure_unit,
        features={"clearance": float(ask == "clearance")},
    )  # fmt: skip


def _setting_change(
    parameters: Mapping[str, Any], conventions: Conventions
) -> tuple[dict[str, float], float, dict[str, float]]:
    """Return both settings as printed, the feet that lie between them, and those of the usual slip by its name."""
    setting, drop = parameters["setting_hundredths"], parameters["gap_hundredths"]
    if conventions.pressure_unit == "inhg":
        settings = {"setting_inhg": setting / 100, "actual_inhg": (setting - drop) / 100}
        return settings, drop * FEET_A_HUNDREDTH, {"rate-of-hpa": 3 * FEET_A_HUNDREDTH * drop}
    setting, drop = hpa_near(setting), drop // 3
    settings = {"setting_hpa": setting, "actual_hpa": setting - drop}
    return settings, drop * conventions.feet_per_hpa, {"hundred-feet": 100 * drop}


@solver("altimeter-ground-check")
def ground_check(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: reading less elevation, feet (+ reads high); or the setting that makes it show the elevation."""
    ask, elevation, error = (parameters[name] for name in ("ask", "elevation_ft", "error_ft"))
    hundredths, in_hpa = parameters["setting_hundredths"], conventions.pressure_unit == "hpa"
    setting = {"setting_hpa": hpa_near(hundredths)} if in_hpa else {"setting_inhg": hundredths / 100}
    given = {"ask": ask, "elevation_ft": elevation, "indicated_ft": elevation + error, **setting}
    if ask == "error":
        return Solution(
            key=error,
            given=given,
            wrong={"turned-round": -error, "reading-itself": Wrong(elevation + error, option=False)},
            quantities={"error_ft": error},
            steps=("error",),
            model_notes=("limits",),
            scene=conventions.pressure_unit,
        )
    if (ask == "find-setting-hpa") != in_hpa:
        raise Redraw("the school uses the other pressure unit")
    if abs(error) < 40:
        raise Redraw("too little to see in the window")
    return _setting_in_hpa(given, error, conventions.feet_per_hpa) if in_hpa else _setting_in_inches(given, error)


def _setting_in_inches(given: Mapping[str, Any], error: int) -> Solution:
    setting, hundredths = round_half_up(100 * given["setting_inhg"]), error // FEET_A_HUNDREDTH
    found = (setting - hundredths) / 100
    return Solution(
        key=found,
        given=given,
        wrong={
            "turned-round": (setting + hundredths) / 100,
            "leaves-it": given["setting_inhg"],
            "ten-times": Wrong((setting - 10 * hundredths) / 100, option=abs(hundredths) <= 12),
            "standard": STANDARD_HUNDREDTHS / 100,
        },
        quantities={"error_ft": error, "hundredths": hundredths, "found_inhg": found},
        steps=("error", "hundredths", "found"),
        model_notes=("limits",),
    )


def _setting_in_hpa(given: Mapping[str, Any], drawn_error: int, rate: int) -> Solution:
    """Solve for an error of whole hectopascals, near the drawn one."""
    setting, hectopascals = given["setting_hpa"], whole(drawn_error / rate)
    error = rate * hectopascals
    return Solution(
        key=setting - hectopascals,
        given={**given, "indicated_ft": given["elevation_ft"] + error},
        wrong={
            "turned-round": setting + hectopascals,
            "leaves-it": setting,
            "ten-feet": setting - whole(error / FEET_A_HUNDREDTH),
            "standard": STANDARD_HPA,
        },
        quantities={
            "error_ft": error, "hectopascals": hectopascals, "rate": rate, "found_hpa": setting - hectopascals,
        },
        steps=("error", "hectopascals", "found-hpa"),
        model_notes=("limits",),
    )  # fmt: skip


def hpa_near(hundredths: int) -> int:
    """Return whole hectopascals near a setting in hundredths of an inch."""
    return 1002 + (hundredths - 2960) // 3
