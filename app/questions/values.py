"""Values of answers: how they are shown, ordered and compared, by the format their family states."""

from typing import Any

from app.packs.library import Library
from app.packs.spec import Ask, Family, Language, ValueFormat
from app.physics.angles import difference, shown
from app.questions.numbers import NBSP, arc_minutes, clock, decimals, heading, letter

NOT_A_NUMBER = "code"


def show_value(  # noqa: PLR0911 - one line a kind reads best as a list
    value: Any, form: ValueFormat, ask: Ask, family: Family, library: Library, language: Language
) -> str:
    """Write a value as an option or a verdict shows it, in one language."""
    if form.kind == "pair":
        parts = zip(value, ask.parts, strict=True)
        return ", ".join(show_value(each, part, ask, family, library, language) for each, part in parts)
    if form.kind == "code":
        return library.word(str(value), language, family)
    if form.kind == "heading":
        return heading(value)
    if form.kind == "arc-minutes":
        return arc_minutes(value, language)
    if form.kind == "clock":
        return clock(value, language)
    if form.kind == "runway":
        return f"{int(value):02d}"
    return _show_number(value, form, library, language)


def _show_number(value: float, form: ValueFormat, library: Library, language: Language) -> str:
    symbol = unit_symbol(form.unit, library, language)
    size = value if form.kind == "number" else abs(value)
    text = decimals(size, form.decimals, language) + (symbol if symbol == "°" else f"{NBSP}{symbol}" if symbol else "")
    if form.kind == "number" or value == 0:
        return text
    side = form.sides[0] if value > 0 else form.sides[1]
    word = letter(value, language) if form.sides == ("east", "west") else library.word(side, language)
    return f"{text}{NBSP}{word}"


def unit_symbol(unit: str, library: Library, language: Language) -> str:
    """Return what stands behind a number: ° for every kind of degrees, else the unit's own short word."""
    if not unit:
        return ""
    return "°" if unit.startswith("degrees") else library.word(f"unit-{unit}", language)


def distance(left: Any, right: Any, form: ValueFormat) -> float:
    """Return how far apart two values are in the format's own unit; codes and pairs are 0 (the same) or infinite."""
    if form.kind in {"code", "pair"} or isinstance(left, str | tuple | list | dict):
        return 0.0 if left == right else float("inf")
    if form.kind == "heading":
        return abs(difference(left, right))
    if form.kind == "clock":
        gap = abs(left - right) % 1440
        return float(min(gap, 1440 - gap))
    return float(abs(left - right))


def pair_distance(left: Any, right: Any, ask: Ask) -> float:
    """Return the largest distance of two pairs' parts, each in units of twice its tolerance (at least its rounding)."""
    gaps: list[float] = [
        distance(a, b, part) / max(2 * part.tolerance, 0.999 * 10**-part.decimals)
        for a, b, part in zip(left, right, ask.parts, strict=True)
    ]
    return max(gaps)


def agrees(value: Any, key: Any, form: ValueFormat) -> bool:
    """Whether a reply counts as the key: within the tolerance, which allows for the last bit of a float."""
    return distance(value, key, form) <= form.tolerance + 1e-9


def is_apart(left: Any, right: Any, ask: Ask, form: ValueFormat) -> bool:
    """Whether two values can stand beside each other as options: more than two tolerances, and unlike once rounded."""
    if form.kind == "pair":
        return pair_distance(left, right, ask) > 1
    return distance(left, right, form) > max(2 * form.tolerance, 0.999 * 10.0**-form.decimals)


def sort_key(value: Any, form: ValueFormat) -> Any:
    """Return what options are put in order by: the number as shown."""
    if form.kind == "pair":
        return tuple(each if isinstance(each, int | float) else 0 for each in value)
    return shown(value) if form.kind == "heading" else value


def is_numeric(form: ValueFormat, sample: Any) -> bool:
    """Whether options of this format stand in numeric order (codes and pairs that begin with a code do not)."""
    if form.kind == "pair":
        return isinstance(sample[0], int | float)
    return form.kind != NOT_A_NUMBER
