"""From a question to the bench and back."""

from datetime import date, datetime

import pytest

from app.physics.angles import difference
from app.questions.conventions import conventions_at
from app.questions.draw import draw, offered_forms
from app.questions.model import Item
from app.services.bench import BenchWish, fly_bench
from app.services.bench_field import field_of
from app.services.bench_links import FLIGHTS, ask_bench, family_for, link_for
from app.services.drills import get_drill
from app.services.errors import Conflict
from app.services.homes import HomeWish
from app.services.items import get_item
from app.services.visits import guest, open_visit
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library

OTTERLEA = conventions_at("Otterlea", 45.32, -75.67, date(2026, 9, 1))
POLE = conventions_at("86.00, 140.00", 86.0, 140.0, date(2026, 9, 1))


def item(family: str, seed: int) -> Item:
    return draw(library(), family, seed, OTTERLEA, offered_forms(library().family(family))[0])


@pytest.mark.parametrize("family", FLIGHTS)
@pytest.mark.parametrize("seed", range(8))
def test_link_flies_the_item(family: str, seed: int) -> None:
    drawn = item(family, seed)
    query = link_for(drawn)
    if query is None:
        assert not {"start_deg", "target_deg", "turn", "bank_deg"} <= drawn.parameters.keys()
        return
    given = drawn.parameters
    assert ("dip_deg" in query) == (not given["at_home"])
    assert query.get("dip_deg", given["dip_deg"]) == given["dip_deg"]
    names = ("start_deg", "target_deg", "turn", "bank_deg", "doing", "rate", "change_kt_s")
    wish = BenchWish(**{name: query[name] for name in names if name in query})  # type: ignore[arg-type] # one of each
    dip_deg = None if given["at_home"] else given["dip_deg"]
    flight = fly_bench(wish, field_of(HomeWish(date(2026, 9, 1), "otterlea"), dip_deg, "en"), "en")
    assert flight.motion is not None
    if "turn" in given:
        assert wish.turn == given["turn"]
        assert wish.bank_deg == given["bank_deg"]
    if "at" in query:
        assert flight.moment(float(query["at"])).real_deg % 360 == pytest.approx(given["heading_deg"] % 360, abs=1)


def test_questions_without_a_flight_have_no_link() -> None:
    assert link_for(item("dip-compare-size", 1)) is None
    assert link_for(item("true-to-compass", 1)) is None


@pytest.mark.parametrize(
    ("wish", "same"),
    [
        (BenchWish(target_deg=360), {"target_deg": 360, "turn": "right"}),
        (BenchWish(start_deg=120, target_deg=210), {"turn": "right"}),
        (BenchWish(doing="speed", start_deg=90, change_kt_s=-2), {"heading_deg": 90, "speed_change": "slower"}),
        (BenchWish(doing="rough"), {}),
    ],
)
def test_asks_about_a_flight(uow: UnitOfWork, now: datetime, wish: BenchWish, same: dict[str, object]) -> None:
    alice = open_visit(uow, guest("en", now), now).actor
    drill_id = ask_bench(uow, alice, library(), (wish, OTTERLEA, 3), now)
    drill, places = get_drill(uow, alice, drill_id)
    assert len(places) == 3
    first = get_item(library(), places[0], drill.conventions, "en")
    assert first.family == family_for(wish)
    assert first.parameters["at_home"]
    assert same.items() <= dict(first.parameters).items()
    if wish.doing == "turn":
        for name in ("start_deg", "target_deg"):
            assert abs(difference(first.parameters[name], getattr(wish, name))) <= 30


def test_nothing_to_ask_near_the_pole(uow: UnitOfWork, now: datetime) -> None:
    alice = open_visit(uow, guest("en", now), now).actor
    with pytest.raises(Conflict, match="offered"):
        ask_bench(uow, alice, library(), (BenchWish(), POLE, 3), now)
