"""What a figure's parameters may be, and plain words for what does not fit."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import isfinite
from typing import Any

Values = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Parameter:
    """One parameter of a figure: what it accepts, in words and as a check, and whether it must be given."""

    accepts: str
    fits: Callable[[Any], bool]
    needed: bool = False


def need(kind: Parameter) -> Parameter:
    """Return the same parameter, which must be given."""
    return Parameter(kind.accepts, kind.fits, needed=True)


def is_number(value: Any) -> bool:
    """Whether a value is a finite number; true and false are not."""
    return isinstance(value, int | float) and not isinstance(value, bool) and isfinite(value)


def is_whole_heading(value: Any) -> bool:
    """Whether a value is a whole heading 0 to 360 (0 and 360 are both north)."""
    return is_number(value) and 0 <= value <= 360 and value == int(value)


def one_of(*names: str) -> Parameter:
    """Accept a word out of a few."""
    return Parameter(f"one of {', '.join(names)}", lambda value: isinstance(value, str) and value in names)


def between(low: float, high: float, what: str = "a number of degrees") -> Parameter:
    """Accept a number in a range, ends included."""
    return Parameter(f"{what} from {low:g} to {high:g}", lambda value: is_number(value) and low <= value <= high)


WHOLE_HEADING = Parameter("a whole heading from 1 to 360", is_whole_heading)
HEADING = Parameter("a heading from 0 to 360", lambda value: is_number(value) and 0 <= value <= 360)
ANY_HEADING = Parameter("a number of degrees", is_number)  # what a student typed, however odd
LABEL = Parameter("a label of the face, every 30 from 30 to 360", lambda v: is_whole_heading(v) and v % 30 == 0)
FLAG = Parameter("true or false", lambda value: isinstance(value, bool))
EAST_POSITIVE = between(-180, 180, "degrees, east positive,")


def given(parameters: Values) -> dict[str, Any]:
    """Return the parameters that hold a value; None is the same as not given."""
    return {name: value for name, value in parameters.items() if value is not None}


def problems_with(table: Mapping[str, Parameter], values: Values) -> list[str]:
    """List what does not fit, each with the name, the value and what is accepted."""
    found = [f"{name} is not a parameter here: give {', '.join(table)}" for name in values if name not in table]
    for name, parameter in table.items():
        if name not in values:
            if parameter.needed:
                found.append(f"{name} is missing: give {parameter.accepts}")
        elif not parameter.fits(values[name]):
            found.append(f"{name} is {values[name]!r}: give {parameter.accepts}")
    return found
