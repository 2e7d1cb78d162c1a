"""Pressure keys worked again from the printed numbers."""

import math
from collections.abc import Callable, Mapping
from typing import Any


def half_up(x: float, places: int = 0) -> float:
    scale = 10**places
    return math.copysign(math.floor(abs(round(x * scale, 7)) + 0.5) / scale, x)


def missetting(draw: Mapping[str, Any]) -> float:
    p = draw["parameters"]
    if p["ask"] == "inches":
        return p["indicated_ft"] + half_up((p["actual_inhg"] - p["setting_inhg"]) * 1000)
    return p["indicated_ft"] + (p["actual_hpa"] - p["setting_hpa"]) * draw["conventions"]["feet_per_hpa"]


def cold_feet(height_ft: float, elevation_ft: float, oat_c: float) -> float:
    below_standard = 15 - 2 * elevation_ft / 1000 - oat_c
    return half_up(height_ft * 0.04 * below_standard / 10)


def cold(draw: Mapping[str, Any]) -> float:
    p = draw["parameters"]
    return cold_feet(p["indicated_ft"] - p["elevation_ft"], p["elevation_ft"], p["oat_c"])


def high_to_low(draw: Mapping[str, Any]) -> float:
    p = draw["parameters"]
    if "setting_hpa" in p:
        pressure = (p["setting_hpa"] - p["actual_hpa"]) * draw["conventions"]["feet_per_hpa"]
    else:
        pressure = (p["setting_inhg"] - p["actual_inhg"]) * 1000
    height = (
        p["indicated_ft"] - pressure - cold_feet(p["indicated_ft"] - p["elevation_ft"], p["elevation_ft"], p["oat_c"])
    )
    return half_up(height - p.get("ridge_ft", 0))


def ground_check(draw: Mapping[str, Any]) -> float:
    p = draw["parameters"]
    error = p["indicated_ft"] - p["elevation_ft"]
    if p["ask"] == "find-setting-hpa":
        return p["setting_hpa"] - half_up(error / draw["conventions"]["feet_per_hpa"])
    return error if p["ask"] == "error" else half_up(p["setting_inhg"] - error / 1000, 2)


def sigma(pressure_altitude_ft: float, oat_c: float) -> float:
    """Density ratio: troposphere of the standard atmosphere, 288.15 K, 6.5 K a kilometre, exponent 5.25588."""
    ratio = (1 - 6.5e-3 * pressure_altitude_ft * 0.3048 / 288.15) ** 5.25588
    return ratio * 288.15 / (oat_c + 273.15)


def density(draw: Mapping[str, Any]) -> float:
    p = draw["parameters"]
    if "setting_hpa" in p:
        pressure = p["elevation_ft"] + (1013 - p["setting_hpa"]) * draw["conventions"]["feet_per_hpa"]
    else:
        pressure = half_up(p["elevation_ft"] + (29.92 - p["setting_inhg"]) * 1000)
    if p["ask"] == "pressure":
        return pressure
    if p["ask"] == "density":
        return half_up(pressure + 120 * (p["oat_c"] - half_up(15 - 1.98 * pressure / 1000, 1)))
    exponent = 1 / (5.25588 - 1)
    return half_up(288.15 / 6.5e-3 / 0.3048 * (1 - sigma(pressure, p["oat_c"]) ** exponent))


def tas(draw: Mapping[str, Any]) -> float:
    p = draw["parameters"]
    cas = p.get("cas_kt", p.get("ias_kt"))  # read off the dial where the stem says that both are the same
    if p["ask"] == "rule":
        return half_up(cas * (1 + 0.02 * p["pressure_altitude_ft"] / 1000), 1)
    return half_up(cas / math.sqrt(sigma(p["pressure_altitude_ft"], p["oat_c"])), 1)


RECOMPUTE: dict[str, Callable[[Mapping[str, Any]], Any]] = {
    "altimeter-missetting": missetting,
    "cold-temperature-altitude": cold,
    "high-to-low-hot-to-cold": high_to_low,
    "altimeter-ground-check": ground_check,
    "pressure-density-altitude": density,
    "tas-from-cas": tas,
}
