"""Keys of the heading indicator and of bank against values that were published.

FAA-H-8083-15B ch. 7 (web copy): 15 degrees of bank at 100 kt, 18 at 120; gyroscope theory, several texts: 7.5 degrees
an hour high at latitude 30 south, 10.6 low at 45 north; FAA-H-8083-15A p. 5-21: more than 30 degrees in ten seconds
asks for less deflection.
"""

from typing import Any

import pytest

from app.questions.model import Solution
from app.questions.solvers import find_solver
from tests.questions.engine import home

AS_DRAWN = {"at_home": False, "flight": "parked", "fraction": 0.85}


def solved(name: str, **parameters: Any) -> Solution:
    solve = find_solver(name)
    assert solve is not None
    return solve(AS_DRAWN | parameters, home())


@pytest.mark.parametrize(("tas_kt", "bank_deg"), [(100, 15), (120, 18)])
def test_bank_by_fifteen_per_cent(tas_kt: int, bank_deg: int) -> None:
    assert solved("rate-one-bank", at_home=True, tas_kt=tas_kt).key == bank_deg


@pytest.mark.parametrize(("latitude_deg", "change_deg"), [(-30, 7.5), (45, -10.6)])
def test_earth_turns_the_gyro(latitude_deg: int, change_deg: float) -> None:
    assert solved("hi-earth-rate", latitude_deg=latitude_deg, minutes=60).key == change_deg


def test_fast_side_asks_for_less_deflection() -> None:
    turned = {"turned_left_deg": 34, "turned_right_deg": 26}
    assert solved("turn-coordinator-calibration", ask="deflection", **turned).key == "less-more"
