"""Words of navigation and their meanings: each ask matches a few of a handful that are easily taken for one another."""

from collections.abc import Mapping
from itertools import product
from typing import Any

from app.questions.conventions import Conventions
from app.questions.model import Solution
from app.questions.solvers.registry import solver
from app.questions.solvers.subsets import few_of

LEAST, MOST = 4, 6

TERMS = {
    "field": (
        "variation",
        "deviation",
        "dip",
        "isogonal",
        "agonic-line",
        "compass-error",
        "magnetic-equator",
        "magnetic-heading",
    ),
    "lines": (
        "isogonal",
        "agonic-line",
        "magnetic-equator",
        "meridian",
        "parallel",
        "rhumb-line",
        "great-circle",
        "isoclinic",
    ),
    "directions": (
        "heading",
        "track",
        "bearing",
        "drift",
        "correction-angle",
        "required-track",
        "track-error",
        "relative-bearing",
    ),
    "norths": (
        "true-heading",
        "magnetic-heading",
        "compass-heading",
        "variation",
        "deviation",
        "compass-error",
        "true-track",
        "magnetic-track",
    ),
}
# Pairs taken for one another, either way, and the misconception behind it.
CONFUSIONS = {
    ("variation", "deviation"): "variation-deviation",
    ("dip", "variation"): "dip-variation",
    ("dip", "deviation"): "dip-variation",
    ("dip", "compass-error"): "dip-variation",
    ("isogonal", "agonic-line"): "isogonal-agonic",
    ("agonic-line", "magnetic-equator"): "zero-lines",
    ("meridian", "parallel"): "meridian-parallel",
    ("isogonal", "meridian"): "isogonal-meridian",
    ("rhumb-line", "great-circle"): "rhumb-great-circle",
    ("variation", "compass-error"): "lumped-error",
    ("deviation", "compass-error"): "lumped-error",
    ("drift", "track-error"): "drift-track-error",
    ("heading", "track"): "heading-track",
    ("heading", "bearing"): "bearing-for-heading",
    ("track", "bearing"): "bearing-for-heading",
    ("drift", "correction-angle"): "drift-correction",
    ("track", "required-track"): "track-made-good",
    ("true-heading", "magnetic-heading"): "which-north",
    ("magnetic-heading", "compass-heading"): "which-north",
    ("true-heading", "compass-heading"): "which-north",
    ("true-track", "magnetic-track"): "which-north",
    ("true-heading", "true-track"): "heading-track",
    ("magnetic-heading", "magnetic-track"): "heading-track",
    ("isogonal", "isoclinic"): "isogonal-isoclinic",
    ("isoclinic", "magnetic-equator"): "isoclinic-zero",
    ("bearing", "relative-bearing"): "bearing-relative",
    ("heading", "relative-bearing"): "bearing-relative",
}
# Whatever lies between two directions, and what is one direction, counted from a north.
ANGLES = ("variation", "deviation", "dip", "compass-error", "drift", "correction-angle", "track-error")
DIRECTIONS = (
    "true-heading",
    "magnetic-heading",
    "compass-heading",
    "true-track",
    "magnetic-track",
    "heading",
    "track",
    "bearing",
    "required-track",
)
MIXED_UP = CONFUSIONS | dict.fromkeys(product(ANGLES, DIRECTIONS), "angle-direction")


@solver("term-match")
def term_match(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: each term's own definition; the definitions of the ask stay the same, so that some are left over."""
    ask = parameters["ask"]
    sizes = MOST - LEAST + 1
    terms = few_of(TERMS[ask], LEAST + parameters["shuffle"] % sizes, parameters["shuffle"] // sizes)
    slips = {}
    for pair, name in MIXED_UP.items():
        for term, other in (pair, pair[::-1]):
            if term in terms and other in TERMS[ask]:
                slips[term, f"def-{other}"] = name
    return Solution(
        key={term: f"def-{term}" for term in terms},
        given={"ask": ask},
        options=terms,
        slips=slips,
        steps=(f"apart-{ask}", f"check-{ask}"),
    )
