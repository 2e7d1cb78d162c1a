"""Pressure families of words and rules: their tables written anew, from the printed draw alone."""

from collections.abc import Callable, Mapping
from typing import Any

AGREE = {
    "pressure-indicated": "standard-in-window",
    "density-pressure": "standard-temperature",
    "absolute-true": "over-the-sea",
    "true-indicated": "on-the-apron",
}


def kinds(draw: Mapping[str, Any]) -> str:
    p = draw["parameters"]
    if p["ask"] == "name":
        return p["object"].removesuffix("-is").removesuffix("-use")
    if p["ask"] == "definition":
        return f"def-{p['altitude_kind']}"
    pair = p["comparison"]
    if p["ask"] == "agree":
        return AGREE[pair]
    first, second = pair.split("-")
    if pair == "pressure-indicated":
        more = 29.92 - p["setting_inhg"]
    else:
        height = p["pressure_altitude_ft"] if pair == "density-pressure" else p["indicated_ft"]
        more = p["oat_c"] - (15 - height / 500)
    return "same" if abs(more) < 0.001 else first if more > 0 else second


RECOMPUTE: dict[str, Callable[[Mapping[str, Any]], Any]] = {
    "altitude-kinds": kinds,
}
