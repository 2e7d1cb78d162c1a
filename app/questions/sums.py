"""The arithmetic of a working line: its brackets, the 360 of a heading past north, and whether it adds up."""

import re
from collections.abc import Callable
from math import pi, sqrt
from operator import add, mul, sub, truediv

from app.packs.spec import Language
from app.physics.angles import asin_deg, atan_deg, cos_deg, sin_deg, tan_deg
from app.questions.numbers import MINUS, NARROW, NBSP, exact

NUMBER = rf"\d[\d{NARROW}]*(?:[.,]\d+)?"
FUNCTIONS: dict[str, Callable[[float], float]] = {
    "arcsin": asin_deg, "arctan": atan_deg, "sin": sin_deg, "cos": cos_deg, "tan": tan_deg, "√": sqrt,
}  # fmt: skip
TOKEN = re.compile(rf"({NUMBER})|({'|'.join(FUNCTIONS)}|[-+{MINUS}×÷/()²π])")
SPACES = str.maketrans("", "", f" {NBSP}°")
UNIT = re.compile(rf"[ {NBSP}](?:kt|NM|min|L)$")
OPERATIONS: dict[str, Callable[[float, float], float]] = {
    "+": add, "-": sub, MINUS: sub, "×": mul, "÷": truediv, "/": truediv,
}  # fmt: skip
NEEDLESS = re.compile(rf"(?<=[+{MINUS}×÷] )\(\+?({NUMBER}°?)\)(?!²)")
BARE = re.compile(rf"(?<=[+{MINUS}×÷] )({MINUS}{NUMBER}°?)")
DIRECTION = re.compile(r"(\d{1,3})(°?)")
WAYS = {"en": ("plus", "less"), "fr": ("plus", "moins")}


def write_sum(filled: str, language: Language) -> str:
    """Return a sum as people write it: brackets round negative numbers alone, and its step round north spelt out."""
    return past_north(BARE.sub(r"(\1)", NEEDLESS.sub(r"\1", filled)), language)


def past_north(written: str, language: Language) -> str:
    """Return a sum with its step round north spelt out: 355 + 13 = 368, less 360 = 008; any other as it is."""
    expression, _, result = written.rpartition(" = ")
    shown = DIRECTION.fullmatch(result)
    total = value_of(expression) if shown else None
    if not shown or total is None or abs(abs(total - int(shown[1])) - 360) > 0.5:
        return written
    way = WAYS[language][total > int(shown[1])]
    unit = shown[2]
    return f"{expression} = {exact(total, language)}{unit}, {way} 360{unit} = {result}"


def misses_by(written: str) -> float:
    """Return how far a written result lies from what its sum makes, beyond its rounding; 0 where nobody can tell."""
    expression, _, result = written.rpartition(" = ")
    result = UNIT.sub("", result)
    total, given = value_of(expression), value_of(result)
    if total is None or given is None:
        return 0
    _, _, decimals = result.replace(",", ".").partition(".")
    return max(0.0, abs(total - given) - 0.5 * 10.0 ** -len(re.sub(r"\D", "", decimals)) - 1e-6)


def value_of(expression: str) -> float | None:
    """Return what arithmetic makes, angles in degrees; None for what cannot be told, such as a unit."""
    text = expression.translate(SPACES)
    tokens = [found[0] for found in TOKEN.finditer(text)]
    if not tokens or "".join(tokens) != text:
        return None
    try:
        total, left = _sum(tokens)
    except (IndexError, ValueError, ZeroDivisionError):
        return None
    return None if left else total


def _sum(tokens: list[str]) -> tuple[float, list[str]]:
    total, left = _product(tokens)
    while left and left[0] in f"+-{MINUS}":
        operation, (value, left) = OPERATIONS[left[0]], _product(left[1:])
        total = operation(total, value)
    return total, left


def _product(tokens: list[str]) -> tuple[float, list[str]]:
    total, left = _factor(tokens)
    while left and left[0] in "×÷/":
        operation, (value, left) = OPERATIONS[left[0]], _factor(left[1:])
        total = operation(total, value)
    return total, left


def _factor(tokens: list[str]) -> tuple[float, list[str]]:
    first, left = tokens[0], tokens[1:]
    if first in f"+-{MINUS}":
        value, left = _factor(left)
        return (value if first == "+" else -value), left
    if first in FUNCTIONS:
        value, left = _factor(left)
        return FUNCTIONS[first](value), left
    value, left = _operand(first, left)
    return (value**2, left[1:]) if left[:1] == ["²"] else (value, left)


def _operand(first: str, left: list[str]) -> tuple[float, list[str]]:
    if first == "(":
        value, left = _sum(left)
        if left[:1] != [")"]:
            raise ValueError("a bracket is not closed")
        return value, left[1:]
    return (pi if first == "π" else float(first.replace(NARROW, "").replace(",", "."))), left
