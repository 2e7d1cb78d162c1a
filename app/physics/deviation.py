"""Deviation: the correction card, its exact inverse, and the classic coefficients.

D = magnetic - compass, east positive; on a correction card D = FOR - STEER. The deviation is interpolated, never the
printed numbers across north. The card is entered with magnetic heading; the theory D(h) = A + B sin h + C cos h +
D sin 2h + E cos 2h enters with compass heading, and the difference between the two is of second order. A swing is
taken here on magnetic headings.

Sources: NGA, Handbook of Magnetic Compass Adjustment (2004), ch. V (coefficients from eight headings); FAA AC 43.13-1B
par. 12-37 (adjusting north, east, south, west in turn). Least squares: ordinary normal equations.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

from app.physics.angles import cos_deg, difference, shown, sin_deg, wrap360
from app.physics.errors import Undefined

SWING_HEADINGS_DEG = (0, 45, 90, 135, 180, 225, 270, 315)
ALL_TERMS = 5
SINGULAR = 1e-9

Screw = Literal["north-south", "east-west"]


class BadCard(ValueError):
    """A correction card that cannot be read both ways: repeated entries, or entries that do not go once round."""


@dataclass(frozen=True)
class CorrectionCard:
    """A compass correction card: headings wanted (FOR) and what to steer for each, whole degrees 0..360.

    Both rows go once round clockwise from any start, 360 and 0 are the same. Raises BadCard otherwise.
    """

    for_deg: tuple[int, ...]
    steer_deg: tuple[int, ...]

    def __post_init__(self) -> None:
        if len(self.for_deg) != len(self.steer_deg) or len(self.for_deg) < 2:
            raise BadCard("a correction card needs two rows of the same length, two entries at least")
        _refuse_unless_once_round("FOR", self.for_deg)
        _refuse_unless_once_round("STEER", self.steer_deg)
        if max(abs(deviation) for deviation in self.deviations_deg) >= 90.0:
            raise BadCard("a deviation of 90 degrees or more is no correction")

    @property
    def deviations_deg(self) -> tuple[float, ...]:
        """Deviation at each entry, FOR - STEER, east positive."""
        pairs = zip(self.for_deg, self.steer_deg, strict=True)
        return tuple(difference(wanted, steered) for wanted, steered in pairs)


@dataclass(frozen=True)
class Coefficients:
    """Coefficients of deviation in degrees, east positive: constant, B sin h, C cos h, D sin 2h, E cos 2h."""

    a: float
    b: float
    c: float
    d: float
    e: float


@dataclass(frozen=True)
class CompensationStep:
    """One turn of a compensating screw: where, which one, the deviation found and left, and what remains all round."""

    heading_deg: int
    screw: Screw
    found_deg: float
    left_deg: float
    remaining: Coefficients


def deviation_for_magnetic(card: CorrectionCard, magnetic_deg: float) -> float:
    """Deviation on a magnetic heading, interpolated along the FOR row; east positive."""
    return _interpolate(card.for_deg, card.deviations_deg, magnetic_deg)


def deviation_for_compass(card: CorrectionCard, compass_deg: float) -> float:
    """Deviation when the compass shows `compass_deg`, along the STEER row: the exact inverse of the card."""
    return _interpolate(card.steer_deg, card.deviations_deg, compass_deg)


def compass_from_magnetic(card: CorrectionCard, magnetic_deg: float) -> float:
    """Compass heading to steer for a magnetic heading, 0 <= c < 360, unrounded."""
    return wrap360(magnetic_deg - deviation_for_magnetic(card, magnetic_deg))


def magnetic_from_compass(card: CorrectionCard, compass_deg: float) -> float:
    """Magnetic heading flown when the compass shows `compass_deg`, 0 <= m < 360, unrounded."""
    return wrap360(compass_deg + deviation_for_compass(card, compass_deg))


def card_from_deviations(for_deg: Sequence[int], deviations_deg: Sequence[float]) -> CorrectionCard:
    """Correction card from deviations on magnetic headings: STEER = FOR - D, rounded once, north 360."""
    steer = tuple(shown(wanted - deviation) for wanted, deviation in zip(for_deg, deviations_deg, strict=True))
    return CorrectionCard(tuple(shown(wanted) for wanted in for_deg), steer)


def deviation_deg(coefficients: Coefficients, heading_deg: float) -> float:
    """Deviation on a heading by the five coefficients, east positive."""
    terms = zip(_coefficient_row(coefficients), _harmonics(heading_deg), strict=True)
    return sum(size * shape for size, shape in terms)


def coefficients_from_swing(deviations_deg: Sequence[float]) -> Coefficients:
    """Classic coefficients from the deviations on N, NE, E ... NW in that order.

    A the mean, B = (E - W)/2, C = (N - S)/2, D = ((NE + SW) - (SE + NW))/4, E = ((N + S) - (E + W))/4. Raises
    ValueError unless there are eight.
    """
    north, north_east, east, south_east, south, south_west, west, north_west = deviations_deg
    return Coefficients(
        a=sum(deviations_deg) / 8.0,
        b=(east - west) / 2.0,
        c=(north - south) / 2.0,
        d=((north_east + south_west) - (south_east + north_west)) / 4.0,
        e=((north + south) - (east + west)) / 4.0,
    )


def least_squares_coefficients(
    headings_deg: Sequence[float], deviations_deg: Sequence[float], terms: int = ALL_TERMS
) -> Coefficients:
    """Coefficients that best fit a swing: the first `terms` of A to E, the others nothing.

    Raises Undefined if the headings are fewer than the terms, or bunched.
    """
    rows = [_harmonics(heading)[:terms] for heading in headings_deg]
    pairs = list(zip(rows, deviations_deg, strict=True))
    matrix = [
        [sum(row[i] * row[j] for row in rows) for j in range(terms)] + [sum(row[i] * found for row, found in pairs)]
        for i in range(terms)
    ]
    return Coefficients(*_solve(matrix), *[0.0] * (ALL_TERMS - terms))


def compensate(coefficients: Coefficients) -> tuple[CompensationStep, ...]:
    """Two-screw compensation: null north, null east, then halve what is left on south and on west.

    Leaves A + E, the mean (N + S)/2, on north and south and A - E on east and west: screws reach only B and C.
    """
    steps: list[CompensationStep] = []
    for heading_deg, share in ((0, 1.0), (90, 1.0), (180, 0.5), (270, 0.5)):
        step = _turn_screw(coefficients, heading_deg, share)
        coefficients = step.remaining
        steps.append(step)
    return tuple(steps)


def turn_instrument(coefficients: Coefficients) -> Coefficients:
    """Take coefficient A away by turning the whole instrument in its mount: clockwise from above where A is east."""
    return replace(coefficients, a=0.0)


def _turn_screw(coefficients: Coefficients, heading_deg: int, share: float) -> CompensationStep:
    found = deviation_deg(coefficients, heading_deg)
    screw: Screw = "north-south" if heading_deg % 180 == 0 else "east-west"
    if screw == "north-south":
        remaining = replace(coefficients, c=coefficients.c - share * found * cos_deg(heading_deg))
    else:
        remaining = replace(coefficients, b=coefficients.b - share * found * sin_deg(heading_deg))
    return CompensationStep(heading_deg, screw, found, deviation_deg(remaining, heading_deg), remaining)


def _refuse_unless_once_round(row: str, entries_deg: tuple[int, ...]) -> None:
    if any(not 0 <= entry <= 360 for entry in entries_deg):
        raise BadCard(f"{row}: headings are 0 to 360")
    following = entries_deg[1:] + entries_deg[:1]
    steps = [wrap360(after - before) for before, after in zip(entries_deg, following, strict=True)]
    if min(steps) == 0.0:
        raise BadCard(f"{row}: a heading stands there twice")
    if sum(steps) != 360.0:
        raise BadCard(f"{row}: the headings do not go once round clockwise")


def _interpolate(entries_deg: tuple[int, ...], values: tuple[float, ...], heading_deg: float) -> float:
    """Linear interpolation round the circle between the two entries that hold the heading."""
    before = min(range(len(entries_deg)), key=lambda i: wrap360(heading_deg - entries_deg[i]))
    after = (before + 1) % len(entries_deg)
    width = wrap360(entries_deg[after] - entries_deg[before])
    share = wrap360(heading_deg - entries_deg[before]) / width
    return values[before] + (values[after] - values[before]) * share


def _coefficient_row(coefficients: Coefficients) -> tuple[float, ...]:
    return (coefficients.a, coefficients.b, coefficients.c, coefficients.d, coefficients.e)


@lru_cache(maxsize=1024)  # a curve asks for the same whole headings again and again
def _harmonics(heading_deg: float) -> tuple[float, ...]:
    twice = 2.0 * heading_deg
    return (1.0, sin_deg(heading_deg), cos_deg(heading_deg), sin_deg(twice), cos_deg(twice))


def _solve(matrix: list[list[float]]) -> list[float]:
    """Gauss-Jordan elimination with row pivoting on an augmented square matrix."""
    size = len(matrix)
    for column in range(size):
        pivot = max(range(column, size), key=lambda i: abs(matrix[i][column]))
        if abs(matrix[pivot][column]) < SINGULAR:
            raise Undefined(f"these headings do not fix {size} coefficients")
        matrix[column], matrix[pivot] = matrix[pivot], matrix[column]
        lead = matrix[column][column]
        matrix[column] = [value / lead for value in matrix[column]]
        for i in range(size):
            if i != column:
                factor = matrix[i][column]
                matrix[i] = [value - factor * top for value, top in zip(matrix[i], matrix[column], strict=True)]
    return [row[-1] for row in matrix]
