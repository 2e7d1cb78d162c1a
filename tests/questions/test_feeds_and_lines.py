"""What lives on which feed or line, as the handbooks say it and as the drawn questions must keep it.

FAA-H-8083-25C ch. 8 (from memory): a shut static port holds the altimeter where it was, a shut pitot tube does not.
CAR 602.36 (from memory): after a hold the aerodrome's setting comes as the lowest flight level of the hold is left.
"""

import pytest

from app.questions.conventions import Conventions
from app.questions.solvers.gyro_instruments import suction_failure
from app.questions.solvers.pressure_blockage import pitot_static_blockage
from app.questions.solvers.pressure_settings import altimeter_setting_region
from tests.questions.engine import home


@pytest.mark.parametrize(("fault", "shown_ft"), [("static", 5200), ("all", 5200), ("ram", 6500), ("ram-drain", 6500)])
def test_altimeter_keeps_its_height_only_behind_a_shut_static_port(fault: str, shown_ft: int) -> None:
    climb = {"ask": "altimeter", "fault": fault, "phase": "above", "level_ft": 5200, "gap_ft": 1300}
    solution = pitot_static_blockage(climb, home())
    assert solution.key == shown_ft
    assert solution.given["next_level_ft"] == 6500


def test_a_heater_is_not_asked_about_where_ice_has_closed_its_tube() -> None:
    def offered(failure: str) -> set[str]:
        draws = ({"ask": "lost", "panel": "classic", "failure": failure, "shuffle": n} for n in range(200))
        return {str(item) for draw in draws for item in suction_failure(draw, home()).options}

    assert "pitot-heater" not in offered("pitot")
    assert "pitot-heater" in offered("electrical")


def test_the_standard_stays_through_a_hold() -> None:
    north: Conventions = home(64.2, -96.0, "ca-north")
    hold = altimeter_setting_region({"ask": "moment", "flight": "spr-hold", "shuffle": 0}, north)
    assert hold.key == "aerodrome-below-hold"
    assert hold.wrong["aerodrome-too-early"] == "aerodrome-entering-hold"
