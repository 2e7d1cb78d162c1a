"""Published statements that no formula answers, held to what the packs say and how they mark.

AC 43.13-1B CHG 1, paragraph 12-37: occasions and site of a swing. CAA New Zealand AC 61-3, 6.34.4: marking tolerances.
"""

from app.questions.solvers.principle_errors import CALLS_FOR_SWING
from tests.questions.engine import library

SAID_BY_AC43 = {"doubt", "iron", "wiring", "hard-landing", "lightning", "magnetic-cargo", "new-region", "long-parked"}


def test_every_published_occasion_calls_for_a_swing() -> None:
    family = library().family("swing-required-when")
    assert set(CALLS_FOR_SWING) >= SAID_BY_AC43
    assert set(family.texts) >= SAID_BY_AC43


def test_swing_site_is_a_hundred_yards_from_metal() -> None:
    assert "100 yards" in library().family("swing-required-when").model["site"].en


def test_wind_is_marked_by_the_published_tolerances() -> None:
    triangle = {part.id: part.tolerance for part in library().family("wind-triangle").asks[0].parts}
    found = {part.id: part.tolerance for part in library().family("find-wind").asks[0].parts}
    assert triangle == {"heading": 2, "gs": 2}
    assert found == {"direction": 3, "speed": 3}
