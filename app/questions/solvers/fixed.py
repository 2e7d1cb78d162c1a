"""Hand-written questions: the key and the wrong options stand in the pack, and nothing is worked out."""

from collections.abc import Mapping
from typing import Any

from app.packs.fixed import KEY, SOLVER
from app.questions.conventions import Conventions
from app.questions.model import Solution
from app.questions.solvers.registry import solver


@solver(SOLVER)
def fixed(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: the one written as such."""
    wrong = tuple(parameters["wrong_options"])
    return Solution(
        key=KEY,
        given={},
        options=(KEY, *wrong),
        wrong={each: each for each in wrong},
        steps=tuple(parameters["explanation"]),
    )
