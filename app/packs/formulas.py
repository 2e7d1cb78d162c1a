"""Formulas that people type: read by Python's own grammar, held to a short list, worked out in floating point.

Numbers (a decimal point or comma), names of numbers in capitals, + − × ÷ (also - * /), ^ for a power, round brackets
and the FUNCTIONS, whose values stand apart by a semicolon. Angles are degrees. Nothing else is read, nothing is run.
"""

import ast
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from math import isfinite, sqrt
from operator import add, mul, neg, pos, sub, truediv

from app.physics.angles import asin_deg, atan_deg, cos_deg, round_half_up, sin_deg, tan_deg, wrap360

LONGEST = 160
LARGEST = 1e12  # of every value on the way
LARGEST_POWER = 8
NAME = r"[A-Z][A-Z0-9]{1,11}"
NUMBER = re.compile(r"\d+(?:[.,]\d+)?")
TOKEN = re.compile(r"\s*(?:(\d+(?:[.,]\d+)*)|([A-Za-z]\w*)|(\*\*|.))", re.ASCII | re.DOTALL)
SIGNS = {
    "+": "+", "-": "-", "*": "*", "/": "/", "\u2212": "-", "\u2013": "-", "×": "*", "÷": "/", "^": "**", "²": "**2.0",
    "(": "(", ")": ")", ";": ",", ",": ",",
}  # fmt: skip
OPEN_ENDED = frozenset({"+", "-", "*", "/", "**", "(", ","})

Numbers = Mapping[str, float]
Work = Callable[[Numbers], float]


class BadFormula(ValueError):
    """A formula that cannot be read. `code` says why: long, empty, end, sign, number, name, function, count or form.

    `at` is the word where.
    """

    def __init__(self, code: str, at: str = "") -> None:
        super().__init__(f"{code} at {at!r}")
        self.code = code
        self.at = at


class NoValue(ValueError):
    """Numbers that a formula has no value for. `code` says why: zero (divided by), large or domain."""

    def __init__(self, code: str) -> None:
        super().__init__(code)
        self.code = code


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula that was read: the names in it, in order, and how it is worked out."""

    names: tuple[str, ...]
    work: Work

    def value(self, numbers: Numbers) -> float:
        """Return what it makes of the numbers; NoValue where it makes nothing, KeyError for a name without a number."""
        return self.work(numbers)


def to_nearest(value: float, step: float = 1.0) -> float:
    """Round to the nearest multiple of `step`, above 0; halves away from zero."""
    if step <= 0:
        raise ValueError("a step is more than nothing")
    return round_half_up(step * round_half_up(value / step), 9)


# Each with how many values it takes, at least and at most.
FUNCTIONS: Mapping[str, tuple[Callable[..., float], int, int]] = {
    "heading": (lambda value: wrap360(value) or 360.0, 1, 1),
    "sin": (sin_deg, 1, 1),
    "cos": (cos_deg, 1, 1),
    "tan": (tan_deg, 1, 1),
    "asin": (asin_deg, 1, 1),
    "acos": (lambda ratio: 90.0 - asin_deg(ratio), 1, 1),
    "atan": (atan_deg, 1, 1),
    "sqrt": (sqrt, 1, 1),
    "abs": (abs, 1, 1),
    "min": (min, 2, 6),
    "max": (max, 2, 6),
    "round": (to_nearest, 1, 2),
}


@lru_cache(maxsize=2_000)
def read_formula(text: str) -> Formula:
    """Return a formula, up to LONGEST letters; BadFormula says what cannot be read, and where."""
    if len(text) > LONGEST:
        raise BadFormula("long", text)
    tokens = list(_tokens(text))
    if not tokens:
        raise BadFormula("empty")
    if tokens[-1][1] in OPEN_ENDED:
        raise BadFormula("end", tokens[-1][0])
    _refuse_lost_signs(tokens)
    source = " ".join(written for _, written in tokens)
    try:
        tree = ast.parse(source, mode="eval")
    except (SyntaxError, MemoryError, RecursionError) as error:
        raise BadFormula("form", _token_at(tokens, getattr(error, "offset", None) or 0)) from error
    names = [node.id for node in ast.walk(tree) if isinstance(node, ast.Name) and node.id not in FUNCTIONS]
    return Formula(tuple(dict.fromkeys(names)), _work(tree.body))


def _tokens(text: str) -> Iterable[tuple[str, str]]:
    """Yield each word of a formula as it was typed, and as Python writes it."""
    for number, word, sign in TOKEN.findall(text.strip()):
        if number:
            if not NUMBER.fullmatch(number) or float(number.replace(",", ".")) > LARGEST:
                raise BadFormula("number", number)
            yield number, repr(float(number.replace(",", ".")))
        elif word:
            yield word, _word(word)
        elif sign == "**" or sign in SIGNS:
            yield sign, SIGNS.get(sign, sign)
        elif sign.strip():
            raise BadFormula("sign", sign)


def _word(word: str) -> str:
    if word.lower() in FUNCTIONS:
        return word.lower()
    if not re.fullmatch(NAME, word):
        raise BadFormula("name", word)
    return word


def _refuse_lost_signs(tokens: list[tuple[str, str]]) -> None:
    """Raise BadFormula where two values stand side by side, or a function has no bracket behind it."""
    for (_, left), (typed, right) in pairwise([*tokens, ("", "")]):
        if left in FUNCTIONS and right != "(":
            raise BadFormula("function", left)
        if (left[-1].isalnum() or left == ")") and (right[:1].isalnum() or right == "(") and left not in FUNCTIONS:
            raise BadFormula("form", typed)


def _token_at(tokens: list[tuple[str, str]], offset: int) -> str:
    """Return the word that stands at an offset, from 1, of what Python read."""
    end = 0
    for typed, written in tokens:
        end += len(written) + 1
        if offset <= end:
            return typed
    return ""


def _work(node: ast.AST) -> Work:
    """Return how a part of a formula is worked out; what is not on the list is refused."""
    match node:
        case ast.Constant(value=float(number)):
            return lambda _numbers: number
        case ast.Name(id=name):
            return lambda numbers: numbers[name]
        case ast.UnaryOp(op=ast.UAdd() | ast.USub() as sign, operand=operand):
            return _bounded(neg if isinstance(sign, ast.USub) else pos, [operand])
        case ast.BinOp(left=left, op=operation, right=right) if type(operation) in OPERATIONS:
            return _bounded(OPERATIONS[type(operation)], [left, right])
        case ast.Call(func=ast.Name(id=name), args=arguments, keywords=[]) if name in FUNCTIONS:
            function, least, most = FUNCTIONS[name]
            if not least <= len(arguments) <= most:
                raise BadFormula("count", name)
            return _bounded(function, arguments)
        case _:
            raise BadFormula("form")


def _bounded(function: Callable[..., float], parts: Iterable[ast.AST]) -> Work:
    worked = [_work(part) for part in parts]

    def work(numbers: Numbers) -> float:
        values = [each(numbers) for each in worked]
        try:
            value = float(function(*values))
        except ZeroDivisionError:
            raise NoValue("zero") from None
        except OverflowError:
            raise NoValue("large") from None
        except (ValueError, TypeError):
            raise NoValue("domain") from None
        if not isfinite(value) or abs(value) > LARGEST:
            raise NoValue("large")
        return value + 0.0

    return work


def _power(base: float, exponent: float) -> float:
    if abs(exponent) > LARGEST_POWER:
        raise OverflowError(exponent)
    value: float | complex = base**exponent
    if isinstance(value, complex):
        raise TypeError("an uneven root of what is less than nothing")
    return value


OPERATIONS: Mapping[type[ast.operator], Callable[[float, float], float]] = {
    ast.Add: add, ast.Sub: sub, ast.Mult: mul, ast.Div: truediv, ast.Pow: _power,
}  # fmt: skip
