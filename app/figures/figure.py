"""One kind of figure: its name, its parameters, what must hold between them, and how it is drawn."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import Parameter

Values = Mapping[str, Any]


def no_conflicts(_values: Values) -> list[str]:
    """Say nothing: every single value that fits makes a figure."""
    return []


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure by name. `conflicts` is asked, and `draw` is called, with values that each fit their parameter."""

    name: str
    parameters: Mapping[str, Parameter]
    draw: Callable[[Values, Language, Medium], Drawing]
    conflicts: Callable[[Values], list[str]] = no_conflicts
