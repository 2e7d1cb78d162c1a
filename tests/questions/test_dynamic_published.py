"""Roll-out and taper keys against worked examples that were published.

FAA-H-8083-15 (older edition), latitude 30 north with a lead of 5 degrees: left from east onto north at 035, right from
east onto south at 205; FAA-H-8083-15B, latitude 30 north and 15 degrees of bank, the lead taken as 7: 037 and 323.
FAA-H-8083-25C ch. 8, latitude 40 north, from south toward west: 40 degrees ahead at once, about 20 half-way.
"""

from typing import Any

import pytest

from app.questions.model import Solution
from app.questions.solvers import find_solver
from tests.questions.engine import home

THREE_DEGREES = 3
AT_A_FIELD = {"at_home": False, "hemisphere": "north"}


def solved(name: str, **parameters: Any) -> Solution:
    solve = find_solver(name)
    assert solve is not None
    return solve(AT_A_FIELD | parameters, home())


def rollout(start_deg: int, target_deg: int, bank_deg: int) -> int:
    turn = {"start_deg": start_deg, "target_deg": target_deg, "bank_deg": bank_deg, "rate_deg_s": 3}
    return int(solved("rollout-north-south", ask="roll-out", latitude_deg=30, **turn).key)


@pytest.mark.parametrize(("start_deg", "target_deg", "key"), [(90, 360, 35), (90, 180, 205)])
def test_rollout_with_a_lead_of_five(start_deg: int, target_deg: int, key: int) -> None:
    assert rollout(start_deg, target_deg, bank_deg=10) == key


@pytest.mark.parametrize(("start_deg", "target_deg", "key"), [(90, 360, 37), (270, 360, 323)])
def test_rollout_at_fifteen_degrees_of_bank(start_deg: int, target_deg: int, key: int) -> None:
    assert abs(rollout(start_deg, target_deg, bank_deg=15) - key) <= THREE_DEGREES


@pytest.mark.parametrize(("heading_deg", "ahead_deg"), [(180, 40), (225, 20)])
def test_reading_from_south_toward_west(heading_deg: int, ahead_deg: int) -> None:
    found = solved("reading-while-turning", heading_deg=heading_deg, turn="right", bank_deg=15, latitude_deg=40)
    assert found.key == heading_deg + ahead_deg
