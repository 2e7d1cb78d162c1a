"""Reading and principle families against published facts; each row names its source in its file."""

from itertools import pairwise
from typing import Any

import pytest

from app.physics.angles import difference
from app.questions.conventions import Conventions
from app.questions.draw import draw
from app.questions.model import NotOffered, Solution
from app.questions.solvers import find_solver
from app.questions.solvers.principle_errors import CALLS_FOR_NONE, CALLS_FOR_SWING
from tests.authorities.published import Row, all_rows
from tests.questions.engine import home, library

OTTAWA = home()
# FOR 360 STEER 358 is 2 E, FOR 090 STEER 093 is 3 W: the definition worked on two entries (CASA AC 43-17(0)).
CARD = [{"for_deg": h, "steer_deg": {360: 358, 90: 93, 120: 123}.get(h, h)} for h in (360, *range(30, 331, 30))]


def published(subject: str, row_id: str) -> Row:
    return next(row for row in all_rows(subject) if row["id"] == row_id)


def solve(family: str, rules: Conventions = OTTAWA, **parameters: Any) -> Solution:
    solver = find_solver(family)
    assert solver is not None
    return solver({"at_home": False, "shuffle": 1, **parameters}, rules)


def test_a_drum_on_north_shows_33_to_the_right() -> None:
    assert "33 to the RIGHT of N" in published("reading", "drum-seen-from-behind")["says"]
    assert solve("card-neighbour", ask="label", face="drum", reading_deg=360, side="right").key == "label-330"
    assert solve("card-neighbour", ask="label", face="vertical-card", reading_deg=360, side="right").key == "label-30"


def test_labels_are_thirty_apart_without_their_zero() -> None:
    assert "each 30 degrees without the final zero" in published("reading", "card-marks")["says"]
    item = draw(library(), "read-compass-face", 1, OTTAWA)
    assert item.solution.quantities["label_deg"] % 30 == 0
    texts = library().family("card-neighbour").texts
    assert {code for code in texts if code.startswith("label-")} == {f"label-{h}" for h in range(30, 361, 30)}
    assert (texts["label-240"].en, texts["label-30"].en, texts["label-180"].en) == ("24", "3", "S")


def test_the_middle_of_the_swings_is_taken() -> None:
    assert "middle of the swings" in published("reading", "oscillation")["says"]
    swung: dict[str, Any] = {"face": "drum", "across_north": False, "spread_deg": 20, "low_deg": 80}
    assert solve("mean-of-swing", **swung).key == 90


def test_deviation_is_what_the_compass_lacks() -> None:
    assert "added algebraically to the compass reading" in published("deviation", "definition")["says"]
    back = solve("card-steer-back", card=CARD, card_state="one-row", compass_deg=93, variation_deg=9)
    assert back.key == 90
    assert [step.more["d_deg"] for step in back.steps if step.line == "on-entry"] == [-3]  # type: ignore[union-attr]
    forward = solve("card-for-steer", card=CARD, card_state="one-row", magnetic_deg=90, variation_deg=9)
    assert forward.key == 93
    swing: dict[str, Any] = {"points": 12, "coefficient_a_deg": 2, "coefficient_b_deg": 0, "coefficient_c_deg": 0}
    found = solve("swing-residuals", ask="deviation", heading_deg=360, scatter=(3**12 - 1) // 2, **swing)
    assert (found.key, found.given["swing"][-1]["compass_deg"]) == (2, 358)


def test_a_card_has_an_entry_every_thirty_degrees_and_a_row_for_each_state() -> None:
    says = published("deviation", "placard-step")["says"]
    assert "not more than 30 degrees apart" in says
    assert "radios on or off" in says
    card = draw(library(), "card-two-states", 1, OTTAWA).parameters["card"]
    headings = [entry["for_deg"] for entry in card]
    assert {difference(b, a) for a, b in pairwise(headings)} == {30.0}
    assert all(set(entry) == {"for_deg", "steer_deg", "steer_off_deg"} for entry in card)


def test_every_published_occasion_calls_for_a_swing() -> None:
    says = published("deviation", "swing-occasions")["says"]
    named = {
        "doubted": "doubt", "iron or steel": "iron", "electrical change": "wiring", "hard landing": "hard-landing",
        "lightning": "lightning", "cargo": "magnetic-cargo", "magnetic region": "new-region",
        "over a year on one heading": "long-parked",
    }  # fmt: skip
    assert all(words in says for words in named)
    assert set(named.values()) <= set(CALLS_FOR_SWING)
    assert not set(named.values()) & set(CALLS_FOR_NONE)


def test_a_card_grows_old_in_canada_only() -> None:
    """Standard 625, App. C, item 10(a): 12 months, as quoted by Transport Canada."""
    keys = {event for shuffle in range(2000) for event in solve("swing-required-when", shuffle=shuffle).key}
    elsewhere = home(51.8, -1.3, "uk")
    abroad = {e for shuffle in range(2000) for e in solve("swing-required-when", elsewhere, shuffle=shuffle).key}
    assert keys - abroad == {"old-card"}


@pytest.mark.parametrize(
    ("latitude_deg", "dip_deg"),
    [(45, 63), (30, 49), (-30, 49)],  # tan I = 2 tan L: 63.4 and 49.1, standard geomagnetism (from memory)
)
def test_dip_of_a_dipole(latitude_deg: int, dip_deg: int) -> None:
    assert solve("dip-from-latitude", ask="dip", magnetic_latitude_deg=latitude_deg).key == dip_deg


def test_rules_of_two_countries_are_asked_there_only() -> None:
    with pytest.raises(NotOffered) as refused:
        solve("compass-unserviceable", home(-43.5, 172.6, "nz"), ask="may-it-go", flight="day", direction_source="gps")
    assert refused.value.reason == "not-offered-other-rules"


def test_day_list_has_no_exception_for_the_north() -> None:
    """CAR 605.14(d), read in the Justice Laws text."""
    north = home(63.7, -68.5, "ca-north")
    asked = solve("compass-unserviceable", north, ask="may-it-go", flight="day", direction_source="gps")
    assert asked.key == "no-none-left"
    assert asked.wrong["north-exempt"] == "yes-north"
