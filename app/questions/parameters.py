"""Draws parameters: choices, ranges, correction cards. Only `random()` is used, which gives the same for ever."""

from collections.abc import Mapping
from random import Random
from typing import Any

from app.packs.spec import Parameter
from app.physics.angles import cos_deg, sin_deg, whole, wrap360


def draw_parameters(space: Mapping[str, Parameter], rng: Random) -> dict[str, Any]:
    """Return one value for every parameter, in the order the family lists them."""
    return {name: _draw(parameter, rng) for name, parameter in space.items()}


def pick(values: Any, rng: Random) -> Any:
    """Return one of the values, each as likely."""
    return values[int(rng.random() * len(values))]


def _draw(parameter: Parameter, rng: Random) -> Any:
    if parameter.choices:
        return _weighted(parameter, rng) if parameter.weights else pick(parameter.choices, rng)
    if parameter.card:
        return draw_card(parameter.largest, parameter.largest_step, rng)
    low, high = parameter.low or 0.0, parameter.high or 0.0
    count = int((high - low) / parameter.step + 1e-9) + 1
    value = low + parameter.step * int(rng.random() * count)
    value = round(value, 6)
    if parameter.signs and rng.random() < 0.5:
        value = -value
    return int(value) if value == int(value) else value


def _weighted(parameter: Parameter, rng: Random) -> Any:
    point = rng.random() * sum(parameter.weights)
    for value, weight in zip(parameter.choices, parameter.weights, strict=True):
        point -= weight
        if point < 0:
            return value
    return parameter.choices[-1]


def draw_card(largest: int, largest_step: int, rng: Random) -> list[dict[str, int]]:
    """Return a correction card, FOR 360, 030 .. 330 with its STEER entries: whole deviations as an aircraft has them.

    The deviation follows A + B sin h + C cos h with a degree of scatter, within `largest` and with neighbours no more
    than `largest_step` apart, so that STEER always grows with FOR.
    """
    while True:
        a, b, c = (rng.random() * 2 - 1 for _ in range(3))
        deviations = [
            whole(1.5 * a + largest * (b * sin_deg(h) + c * cos_deg(h)) + rng.random() * 1.6 - 0.8)
            for h in range(0, 360, 30)
        ]
        steps = [abs(deviations[i] - deviations[i - 1]) for i in range(12)]
        if max(map(abs, deviations)) <= largest and max(steps) <= largest_step:
            return [
                {"for_deg": h or 360, "steer_deg": whole(wrap360(h - d)) or 360}
                for h, d in zip(range(0, 360, 30), deviations, strict=True)
            ]
