"""From a swing or a card to the workshop and back."""

from datetime import date, datetime

import pytest

from app.physics.deviation import Coefficients, deviation_deg
from app.questions.conventions import conventions_at
from app.questions.draw import draw, offered_forms
from app.questions.model import Item
from app.services.deviation_links import ask_workshop, workshop_link_for
from app.services.deviation_workshop import WorkshopWish, open_workshop
from app.services.drills import get_drill
from app.services.items import get_item
from app.services.swing_sheet import read_sheet
from app.services.visits import guest, open_visit
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library

OTTERLEA = conventions_at("Otterlea", 45.32, -75.67, date(2026, 9, 1))


def item(family: str, seed: int) -> Item:
    return draw(library(), family, seed, OTTERLEA, offered_forms(library().family(family))[0])


@pytest.mark.parametrize("family", ["swing-residuals", "card-for-steer", "card-steer-back", "card-two-states"])
@pytest.mark.parametrize("seed", range(8))
def test_link_holds_the_item_s_own_table(family: str, seed: int) -> None:
    drawn = item(family, seed)
    link = workshop_link_for(drawn)
    given = drawn.parameters
    if link is None:
        assert "card" not in given
        assert not isinstance(given.get("swing"), list)
        return
    readings = {each.magnetic_deg: each.compass_deg for each in read_sheet(link["readings"], "en")}
    if "card" in given:
        row = "steer_off_deg" if given.get("card_state") == "radios-off" else "steer_deg"
        assert readings == {each["for_deg"]: each[row] for each in given["card"]}
    else:
        assert readings == {each["magnetic_deg"]: each["compass_deg"] for each in given["swing"]}
    assert open_workshop(WorkshopWish("readings", sheet=link["readings"]), "en").fit is not None


def test_questions_without_a_table_have_no_link() -> None:
    assert workshop_link_for(item("true-to-compass", 1)) is None
    assert workshop_link_for(item("what-caused-the-swing", 1)) is None


@pytest.mark.parametrize("coefficients", [Coefficients(2, -6, 4, 0, 0), Coefficients(-1, 8, -3, 0, 0)])
def test_asks_about_a_compass_like_it(uow: UnitOfWork, now: datetime, coefficients: Coefficients) -> None:
    alice = open_visit(uow, guest("en", now), now).actor
    drill, places = get_drill(uow, alice, ask_workshop(uow, alice, library(), (coefficients, 3), now))
    assert places[0].family == "swing-residuals"
    assert {place.family for place in places[1:]} == {"card-for-steer", "card-steer-back"}
    swing = get_item(library(), places[0], drill.conventions, "en").parameters["swing"]
    off = [
        abs(each["magnetic_deg"] - each["compass_deg"] - deviation_deg(coefficients, each["magnetic_deg"])) % 360
        for each in swing
    ]
    assert sum(min(each, 360 - each) for each in off) / len(off) < 4
