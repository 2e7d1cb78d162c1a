"""What a figure is: a name with parameters going in, an SVG drawing with its text alternative coming out."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

Language = Literal["en", "fr"]
Medium = Literal["page", "paper"]


@dataclass(frozen=True, slots=True)
class FigureCall:
    """A figure asked for by name; parameters use the project's one vocabulary of names."""

    name: str
    parameters: Mapping[str, Any] = field(default_factory=dict)

    def with_parameters(self, **more: Any) -> "FigureCall":
        """Return the same figure with further parameters, such as the key or the student's own answer."""
        return FigureCall(self.name, {**self.parameters, **more})


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawn figure: markup for the page or for paper, and words for a reader who cannot see it."""

    name: str
    markup: str
    title: str
    description: str
    caption: str = ""


class WrongFigure(ValueError):
    """The figure is unknown or its parameters do not fit; the message names the value and what is accepted."""
