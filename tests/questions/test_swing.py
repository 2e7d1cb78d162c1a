"""A compass swing at its edges: across north, a mean too small to have a side."""

from typing import Any

import pytest

from app.questions.model import Redraw, Solution
from app.questions.solvers import find_solver
from tests.questions.engine import home

NO_SCATTER = (3**12 - 1) // 2  # every digit to base three is 1, which stands for 0 degrees


def solve(ask: str, a: int, scatter: int = NO_SCATTER, **more: Any) -> Solution:
    solver = find_solver("swing-residuals")
    assert solver is not None
    level = {"coefficient_a_deg": a, "coefficient_b_deg": 0, "coefficient_c_deg": 0}
    return solver({"ask": ask, "points": 12, "scatter": scatter, "heading_deg": 360, **level, **more}, home())


def test_across_north_the_plain_difference_is_diagnosed() -> None:
    found = solve("deviation", -3)
    assert found.given["swing"][-1] == {"magnetic_deg": 360, "compass_deg": 3}
    assert found.key == -3
    assert (found.wrong["wrap"].value, found.wrong["wrap"].option) == (357, False)


def test_the_same_slip_spoils_what_is_worked_from_the_whole_table() -> None:
    """Eleven headings at 3 W and north as 360 - 3 = 357: the largest is 357, on 360; the mean (357 - 33) / 12 = 27."""
    assert solve("mean", -3).wrong["wrap"].value == 27
    more_on_030 = NO_SCATTER - 1  # the first digit 0: a degree further west on 030
    assert solve("largest", -3, more_on_030).wrong["wrap"].value == 357
    where = solve("where", -3, more_on_030 + 3)  # and 060 alone a degree less west
    assert (where.key, where.wrong["wrap"].value) == (30, 360)
    assert "wrap" not in solve("largest", 3, more_on_030 + 2).wrong, "with east deviation nothing crosses north"


def test_each_wrong_heading_is_the_only_one_of_its_kind() -> None:
    """2 W on 060 and 090 alike would be the smallest on two headings, of which only one could be recognised."""
    more_on_030 = NO_SCATTER - 1
    with pytest.raises(Redraw, match="most easterly or the smallest"):
        solve("where", -3, more_on_030 + 3 + 9)
    assert solve("largest", -3, more_on_030 + 3 + 9).wrong["east-only"] == -2, "a size may stand on several headings"


def test_a_mean_near_nothing_is_drawn_anew() -> None:
    zero_digits = sum(3**i for i in range(8, 12))  # eight headings a degree west of the rest: 1 - 8/12 is 0.3
    with pytest.raises(Redraw, match="mean"):
        solve("mean", 1, zero_digits)


def test_a_mean_of_one_side_only_has_no_unsigned_twin() -> None:
    found = solve("mean", 2)
    assert found.key == 2
    assert set(found.wrong) == {"sign-flip"}
