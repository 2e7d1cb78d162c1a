"""How well a set of items that everybody got alike measures: reliability, each item, and a latent model for many."""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from app.insight.latent import RASCH_FROM, TWO_PARAMETER_FROM, fit_rasch, fit_two_parameter
from app.insight.scale import ItemFigures, Marks, Reliability, item_figures, reliability

LEAST = 2
Model = Literal["", "rasch", "two-parameter"]


@dataclass(frozen=True, slots=True)
class SetFigures:
    """A set: how many sat it, KR-20 (None with fewer than two people or items, or one score for all), its items.

    latent: slope and difficulty by item, None for one that all had alike; empty where too few sat the set.
    """

    students: int
    reliability: Reliability | None
    items: tuple[ItemFigures, ...]
    model: Model = ""
    latent: tuple[tuple[float, float] | None, ...] = ()


def judge_set(marks: Marks) -> SetFigures:
    """Return the figures of a students x items table of 0 and 1."""
    students, items = marks.shape
    if students < LEAST or items < LEAST:
        return SetFigures(students, None, item_figures(marks) if students and items else ())
    model, latent = _latent(marks)
    return SetFigures(students, reliability(marks), item_figures(marks), model, latent)


def _latent(marks: Marks) -> tuple[Model, tuple[tuple[float, float] | None, ...]]:
    students = marks.shape[0]
    varied = [i for i in range(marks.shape[1]) if 0 < marks[:, i].sum() < students]
    if students < RASCH_FROM or len(varied) < LEAST:
        return "", ()
    patterns, counts = np.unique(marks[:, varied], axis=0, return_counts=True)
    model: Model = "two-parameter" if students >= TWO_PARAMETER_FROM else "rasch"
    fit = (fit_two_parameter if model == "two-parameter" else fit_rasch)(patterns, counts)
    found = dict(zip(varied, zip(fit.slopes, fit.difficulties, strict=True), strict=True))
    return model, tuple(found.get(i) for i in range(marks.shape[1]))
