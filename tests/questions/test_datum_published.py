"""Datum and turning families against published examples: conversions, runway numbers, timed turns, offered regions."""

import tomllib
from pathlib import Path
from typing import Any

import pytest

from app.questions.conventions import Conventions
from app.questions.model import NotOffered, Redraw, Solution
from app.questions.solvers import find_solver
from tests.questions.engine import home

AUTHORITIES = Path(__file__).parents[1] / "authorities"
OTTAWA = home()
CHRISTCHURCH = home(-43.5, 172.6, "nz")
IQALUIT = home(63.7, -68.5, "ca-north")


def rows(file: str) -> dict[str, dict[str, Any]]:
    """Return a file of published values by id; each row names its source there."""
    return {row["id"]: row for row in tomllib.loads((AUTHORITIES / file).read_text())["row"]}


CONVERSION = rows("conversion.toml")
TURN_RATE = rows("turn_rate.toml")


def solve(family: str, rules: Conventions = OTTAWA, **parameters: Any) -> Solution:
    solver = find_solver(family)
    assert solver is not None
    return solver({"at_home": False, **parameters}, rules)


@pytest.mark.parametrize("row_id", ["from-compass-1", "from-compass-2"])
def test_compass_to_true(row_id: str) -> None:
    row = CONVERSION[row_id]
    given, wanted = row["inputs"], row["expected"]
    errors = {"deviation_deg": given["deviation"], "variation_deg": given["variation"]}
    asked = {"compass_deg": given["compass"], **errors}
    assert solve("compass-to-true", ask="true", **asked).key == wanted["true"]
    assert solve("compass-to-true", ask="magnetic-from-compass", **asked).key == wanted["magnetic"]
    back = {"true_deg": wanted["true"], "across_north": False, **errors}
    assert solve("find-variation-deviation", ask="variation-of-total", **back).key == given["variation"]
    assert solve("find-variation-deviation", ask="deviation-of-total", **back).key == given["deviation"]


@pytest.mark.parametrize("row_id", ["to-magnetic-1", "to-magnetic-2", "to-magnetic-3"])
def test_true_to_magnetic(row_id: str) -> None:
    row = CONVERSION[row_id]
    asked = {"true_deg": row["inputs"]["true"], "variation_deg": row["inputs"]["variation"], "deviation_deg": 3}
    assert solve("true-to-compass", ask="magnetic", **asked).key == row["expected"]["magnetic"]


def test_sample_flight_to_compass() -> None:
    """From memory, as its row says."""
    row = CONVERSION["sample-flight"]
    errors = {"variation_deg": row["inputs"]["variation"], "deviation_deg": row["inputs"]["deviation"]}
    found = solve("true-to-compass", ask="compass", true_deg=row["expected"]["true_heading"], **errors)
    assert found.key == row["expected"]["compass"]
    assert found.quantities["magnetic_deg"] == row["expected"]["magnetic"]


@pytest.mark.parametrize(
    ("azimuth_deg", "number"),
    [(183, 18), (187, 19)],  # Canada's rule for the nearest ten, in two secondary texts
)
def test_runway_number(azimuth_deg: int, number: int) -> None:
    asked: dict[str, Any] = {"ask": "designator", "region": "ca-south", "variation_deg": -13}
    assert solve("runway-designator", runway_true_deg=azimuth_deg - 13, **asked).key == number
    asked = {"ask": "designator", "region": "ca-north", "variation_deg": -13}
    assert solve("runway-designator", runway_true_deg=azimuth_deg, **asked).key == number


def test_variation_crosses_zero() -> None:
    """Arithmetic in base 60: 0 30 W and ten years of 9' E make 1 00 E; 17 20 W and twelve of 6' E make 16 08 W."""
    asked: dict[str, Any] = {"ask": "minutes", "across_agonic": False, "year": 2026}
    crossing: dict[str, Any] = {"printed_variation_min": -30, "annual_change_min": 9, "printed_year": 2016}
    falling: dict[str, Any] = {"printed_variation_min": -1040, "annual_change_min": 6, "printed_year": 2014}
    assert solve("variation-update", **asked, **crossing).key == 60
    assert solve("variation-update", **asked, **falling).key == -(16 * 60 + 8)


@pytest.mark.parametrize(("row_id", "rate_deg_s"), [("timed-standard", 3), ("timed-half", 1.5)])
def test_timed_turns(row_id: str, rate_deg_s: float) -> None:
    row = TURN_RATE[row_id]
    for degrees, seconds in zip(row["inputs"]["degrees"], row["expected_seconds"], strict=True):
        asked = {"ask": "seconds", "start_deg": 100, "target_deg": 100 + degrees, "rate_deg_s": rate_deg_s}
        if degrees == 180:
            with pytest.raises(Redraw):  # either side would do
                solve("timed-turn", **asked)
        else:
            assert solve("timed-turn", **asked).key == seconds


@pytest.mark.parametrize("family", ["cruising-altitude-datum", "northern-airspace-reference"])
def test_rules_are_asked_where_they_hold(family: str) -> None:
    with pytest.raises(NotOffered) as refused:
        solve(family, CHRISTCHURCH, ask="norths", shuffle=1)
    assert refused.value.reason == "not-offered-other-rules"


def test_home_variation_is_used_where_a_compass_is() -> None:
    asked = {"ask": "magnetic", "at_home": True, "true_deg": 90, "variation_deg": 5, "deviation_deg": 2}
    assert solve("true-to-compass", OTTAWA, **asked).given["variation_deg"] == -13  # 12.5 W, half away from zero
    assert solve("true-to-compass", IQALUIT, **asked).given["variation_deg"] == 5


def test_nothing_is_asked_that_tells_nothing_apart() -> None:
    """Six things are never all of one north; and a variation of nothing has no letter."""
    for shuffle in range(84):
        asked = solve("northern-airspace-reference", ask="norths", shuffle=shuffle).key
        assert set(asked.values()) == {"true-north", "magnetic-north"}
    with pytest.raises(Redraw):
        solve("variation-update", ask="minutes", across_agonic=False, printed_variation_min=-90, annual_change_min=9,
              printed_year=2016, year=2026)  # fmt: skip
