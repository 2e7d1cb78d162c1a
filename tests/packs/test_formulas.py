"""Formulas that people type: what they make, beside an independent evaluator, and what is refused, with the word."""

from contextlib import suppress
from fractions import Fraction
from math import isclose

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.packs.formulas import LARGEST, LONGEST, BadFormula, NoValue, read_formula

NUMBERS = {"DISTANCE": 100.0, "SPEED": 120.0, "V2": 3.0}
TYPED = {"+": "+", "-": "\u2212", "*": "×", "/": "÷"}

Tree = int | tuple[str, "Tree", "Tree"]
trees = st.recursive(st.integers(0, 99), lambda inner: st.tuples(st.sampled_from("+-*/"), inner, inner), max_leaves=12)


def typed(tree: Tree) -> str:
    return str(tree) if isinstance(tree, int) else f"({typed(tree[1])} {TYPED[tree[0]]} {typed(tree[2])})"


def exact(tree: Tree) -> Fraction:
    if isinstance(tree, int):
        return Fraction(tree)
    left, right = exact(tree[1]), exact(tree[2])
    match tree[0]:
        case "+":
            return left + right
        case "-":
            return left - right
        case "*":
            return left * right
    return left / right


@given(trees)
def test_arithmetic_is_that_of_fractions(tree: Tree) -> None:
    text = typed(tree)
    if len(text) > LONGEST:
        return
    try:
        wanted = exact(tree)
    except ZeroDivisionError:
        with pytest.raises(NoValue, match="zero"):
            read_formula(text).value({})
        return
    if abs(wanted) < LARGEST / 100:
        found = read_formula(text).value({})
        assert isclose(found, wanted, rel_tol=1e-6, abs_tol=1e-6)


@given(st.lists(st.sampled_from(["3", "+", "\u2212", "×", "÷", "SPEED"]), min_size=1, max_size=9))
def test_without_brackets_it_binds_as_arithmetic_does(words: list[str]) -> None:
    plain = " ".join({"\u2212": "-", "×": "*", "÷": "/", "SPEED": "120"}.get(word, word) for word in words)
    try:
        wanted = eval(plain, {"__builtins__": {}})  # noqa: S307 - of words chosen above
    except (SyntaxError, ZeroDivisionError):
        with pytest.raises((BadFormula, NoValue)):
            read_formula(" ".join(words)).value(NUMBERS)
        return
    assert isclose(read_formula(" ".join(words)).value(NUMBERS), wanted)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("DISTANCE / SPEED * 60", 50),
        ("2,5 × 4 − 1", 9),
        ("2.5*4-1", 9),
        ("min(1,5; 3)", 1.5),
        ("max(10; 20; V2)", 20),
        ("-2^2", -4),
        ("V2² + 1", 10),
        ("2**3", 8),
        ("4^0,5", 2),
        ("heading(350 + 20)", 10),
        ("heading(20 − 40)", 340),
        ("heading(720)", 360),
        ("SIN(30)", 0.5),
        ("cos(60) + tan(45)", 1.5),
        ("asin(0,5) + acos(0,5) + atan(1)", 30 + 60 + 45),
        ("sqrt(abs(−16))", 4),
        ("round(12,5)", 13),
        ("round(−2,5)", -3),
        ("round(1247; 5)", 1245),
        ("round(0,25; 0,1)", 0.3),
    ],
)
def test_what_a_formula_makes(text: str, value: float) -> None:
    assert read_formula(text).value(NUMBERS) == pytest.approx(value, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "code", "at"),
    [
        ("", "empty", ""),
        ("1" + "+1" * 80, "long", "1" + "+1" * 80),
        ("10,20,30", "number", "10,20,30"),
        ("1 + 9999999999999", "number", "9999999999999"),
        ("2(3)", "form", "("),
        ("DISTANCE SPEED", "form", "SPEED"),
        ("3 SPEED", "form", "SPEED"),
        ("(2)(3)", "form", "("),
        ("SPEED)", "form", ")"),
        ("(1; 2)", "form", ""),
        ("3 +", "end", "+"),
        ("sin 30", "function", "sin"),
        ("hyp(3)", "name", "hyp"),
        ("speed * 2", "name", "speed"),
        ("1e5", "name", "e5"),
        ("min(10,20)", "count", "min"),
        ("SPEED % 7", "sign", "%"),
        ("SPEED.real", "sign", "."),
        ("__import__('os')", "sign", "_"),
        ("[SPEED]", "sign", "["),
        ("A if B else C", "name", "A"),
    ],
)
def test_what_cannot_be_read_is_named_with_the_word(text: str, code: str, at: str) -> None:
    with pytest.raises(BadFormula) as refusal:
        read_formula(text)
    assert (refusal.value.code, refusal.value.at) == (code, at)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("1 / (V2 − 3)", "zero"),
        ("0^(−1)", "zero"),
        ("2^9", "large"),
        ("10^8 * 10^8", "large"),
        ("sqrt(−1)", "domain"),
        ("asin(1,1)", "domain"),
        ("tan(90)", "domain"),
        ("(−8)^0,5", "domain"),
        ("round(3; 0)", "domain"),
    ],
)
def test_numbers_that_it_makes_nothing_of_are_refused(text: str, code: str) -> None:
    with pytest.raises(NoValue) as refusal:
        read_formula(text).value(NUMBERS)
    assert refusal.value.code == code


@given(st.text(alphabet="0123456789.,;()+-*/^ABSPEDsincoqrtmax ×÷−²é_[]'\"%\n", max_size=LONGEST + 5))
def test_whatever_is_typed_is_read_or_refused(text: str) -> None:
    try:
        formula = read_formula(text)
    except BadFormula:
        return
    with suppress(NoValue):
        assert abs(formula.value(dict.fromkeys(formula.names, 2.0))) <= LARGEST
