"""The numbers of a school's own question, drawn or reckoned, and its right answer: typed, kept and shown."""

import re
from collections.abc import Mapping
from typing import Annotated, Literal, Self

from pydantic import AfterValidator, BeforeValidator, Field, model_validator
from pydantic_core import PydanticCustomError

from app.packs.formulas import NAME, BadFormula, read_formula
from app.packs.own_body import Typed
from app.packs.spec import Parameter, Text

LARGEST = 1_000_000
TYPED = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)", re.ASCII)

Shown = Literal["0", "1", "2", "heading"]
Nearest = Literal["heading", "0.01", "0.1", "1", "5", "10", "100"]
FILTERS: Mapping[Shown, str] = {"0": "whole", "1": "one", "2": "two", "heading": "heading"}
ROUNDING: Mapping[Nearest, tuple[str, str]] = {
    "heading": ("Give it with three digits, to the nearest degree", "Donnez-le à trois chiffres, au degré près"),
    "0.01": ("Give two decimals", "Donnez deux décimales"),
    "0.1": ("Give one decimal", "Donnez une décimale"),
    "1": ("Round to a whole number", "Arrondissez à l'unité"),
    "5": ("Round to the nearest 5", "Arrondissez au multiple de 5 le plus proche"),
    "10": ("Round to the nearest 10", "Arrondissez à la dizaine"),
    "100": ("Round to the nearest 100", "Arrondissez à la centaine"),
}


def _readable(text: str) -> str:
    try:
        read_formula(text)
    except BadFormula as error:
        raise PydanticCustomError(f"own-formula-{error.code}", "formula", {"at": error.at}) from error
    return text


def _name(text: str) -> str:
    if not re.fullmatch(NAME, text):
        raise PydanticCustomError("own-name", "name")
    return text


def _number(value: object) -> object:
    """Return a number as people type it; what is none is left as it was typed, to be named."""
    if not isinstance(value, str):
        return value
    plain = "".join(value.split()).replace(",", ".").replace("\u2212", "-")
    return plain if TYPED.fullmatch(plain) else value


FormulaText = Annotated[str, AfterValidator(_readable)]
NumberName = Annotated[str, BeforeValidator(lambda text: text.upper() if isinstance(text, str) else text)]
Size = Annotated[float, BeforeValidator(_number), Field(ge=-LARGEST, le=LARGEST, allow_inf_nan=False)]


class OwnNumber(Typed):
    """A number of the question: drawn from `low` to `high` in steps, or reckoned by a formula of those above it."""

    name: Annotated[NumberName, AfterValidator(_name)]
    low: Size | None = None
    high: Size | None = None
    step: Size | None = None
    formula: FormulaText | None = None
    shown: Shown = "0"

    @model_validator(mode="after")
    def _drawn_or_reckoned(self) -> Self:
        if self.formula is not None:
            if (self.low, self.high, self.step) != (None, None, None):
                raise PydanticCustomError("own-number-both", "drawn and reckoned")
            return self
        if self.low is None or self.high is None or self.step is None:
            raise PydanticCustomError("own-number-how", "neither drawn nor reckoned")
        if not 0 < self.step <= self.high - self.low:
            raise PydanticCustomError("own-number-range", "holds fewer than two values")
        if self.shown == "heading" and not 1 <= self.low < self.high <= 360:
            raise PydanticCustomError("own-number-heading", "no heading")
        places = 0 if self.shown == "heading" else int(self.shown)
        if any(abs(each * 10**places - round(each * 10**places)) > 1e-9 for each in (self.low, self.step)):
            raise PydanticCustomError("own-number-decimals", "finer than shown")
        return self

    @property
    def drawn(self) -> Parameter | None:
        """How it is drawn; None for one that is reckoned."""
        return Parameter(low=self.low, high=self.high, step=self.step or 1) if self.formula is None else None


class OwnAnswer(Typed):
    """The right answer: its formula, how it is rounded, its unit (a code of the shared words), and how near counts."""

    formula: FormulaText
    nearest: Nearest = "1"
    unit: str = ""
    tolerance: Annotated[Size, Field(ge=0)] = 0

    @property
    def decimals(self) -> int:
        """How many decimals are shown."""
        return len(self.nearest.partition(".")[2])

    @property
    def filter(self) -> str:
        """The filter that writes such a value."""
        return FILTERS["heading" if self.nearest == "heading" else ("0", "1", "2")[self.decimals]]

    def rounding(self) -> Text:
        """Return what is said of rounding, and of how near counts."""
        en, fr = ROUNDING[self.nearest]
        if self.tolerance:
            near = f"{self.tolerance:g}"
            en, fr = f"{en}; within {near} counts", f"{fr}; un écart de {near.replace('.', ',')} est admis"
        return Text(en=f"{en}.", fr=f"{fr}.")
