"""From a question to the bench and back."""

from datetime import date, datetime

import pytest

from app.physics.angles import difference
from app.questions.conventions import conventions_at
from app.questions.draw import draw, offered_forms
from app.questions.model import Item
from app.services.bench import BenchWish, fly_bench
from app.services.bench_field import field_of
from app.services.bench_flights import FLIGHTS, own_dip_deg
from app.services.bench_links import ask_bench, families_for, link_for
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
        assert family not in {"phase-to-error", "when-to-trust-compass", "hemisphere-flip"}
        return
    given = drawn.parameters
    dip_deg = own_dip_deg(given)
    assert query.get("dip_deg") == dip_deg
    assert dip_deg in {None, given.get("dip_b_deg", given.get("dip_deg"))}
    names = ("start_deg", "target_deg", "turn", "bank_deg", "doing", "rate", "change_kt_s", "path")
    wish = BenchWish(**{name: query[name] for name in names if name in query})  # type: ignore[arg-type] # one of each
    flight = fly_bench(wish, field_of(HomeWish(date(2026, 9, 1), "otterlea"), dip_deg, "en"), "en")
    assert flight.motion is not None
    if "turn" in given:
        assert wish.turn == given["turn"]
    if "bank_deg" in given:
        assert wish.bank_deg == given["bank_deg"]
    if "passing" in query:
        assert flight.moment(flight.when_passing(float(query["passing"]))).real_deg % 360 == pytest.approx(
            given["heading_deg"] % 360, abs=1
        )


@pytest.mark.parametrize("family", FLIGHTS)
def test_what_is_sorted_is_no_one_flight(family: str) -> None:
    for form in offered_forms(library().family(family)):
        drawn = draw(library(), family, 3, OTTERLEA, form)
        assert form != "groups" or link_for(drawn) is None


def test_flight_swings_as_the_key_says() -> None:
    """The drawn phase, flown: the card swings toward the pole that the key names, or not at all."""
    for seed in range(40):
        drawn = item("phase-to-error", seed)
        query = link_for(drawn)
        assert query
        wish = BenchWish(**{name: query[name] for name in BenchWish._fields if name in query})  # type: ignore[arg-type]
        field = field_of(HomeWish(date(2026, 9, 1), "otterlea"), own_dip_deg(drawn.parameters), "en")
        flight = fly_bench(wish, field, "en")
        heading = drawn.parameters["heading_deg"]
        off = difference(flight.moment(12).reading_deg, heading) * (-1 if 0 < heading < 180 else 1)
        assert drawn.key == ("none" if abs(off) < 2 or heading % 180 == 0 else "north" if off > 0 else "south")


def test_cause_is_flown_as_it_is_drawn() -> None:
    """Rough air rocks, a turn goes the needle's way, a change of speed swings the card as the drawn trend."""
    seen = set()
    for seed in range(60):
        drawn = item("what-caused-the-swing", seed)
        query = link_for(drawn)
        seen.add(drawn.key)
        if drawn.key in {"hi-fault", "object"}:
            assert query is None
        elif drawn.key == "real-turn":
            assert query
            assert drawn.parameters["turn_trend"] == f"needle-{query['turn']}"
        elif drawn.key == "rough-air":
            assert query
            assert query["doing"] == "rough"
        else:
            assert query
            assert (float(query["change_kt_s"]) > 0) == (drawn.key == "speeding-up")
    assert len(seen) == 6


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
        (BenchWish(doing="path", path="climb", change_kt_s=0, start_deg=90), {"phase": "steady-climb"}),
        (BenchWish(doing="path", path="dive", change_kt_s=0, start_deg=90), {"phase": "steady-descent"}),
    ],
)
def test_asks_about_a_flight(uow: UnitOfWork, now: datetime, wish: BenchWish, same: dict[str, object]) -> None:
    alice = open_visit(uow, guest("en", now), now).actor
    drill_id = ask_bench(uow, alice, library(), (wish, OTTERLEA, 3), now)
    drill, places = get_drill(uow, alice, drill_id)
    assert len(places) == 3
    first = get_item(library(), places[0], drill.conventions, "en")
    assert first.family == families_for(wish)[0]
    assert first.parameters["at_home"]
    assert same.items() <= dict(first.parameters).items()
    if wish.doing == "turn":
        for name in ("start_deg", "target_deg"):
            assert abs(difference(first.parameters[name], getattr(wish, name))) <= 30


def test_near_the_pole_another_family_asks(uow: UnitOfWork, now: datetime) -> None:
    """No roll-out by the rules is asked there, but how a turn begins is."""
    alice = open_visit(uow, guest("en", now), now).actor
    drill_id = ask_bench(uow, alice, library(), (BenchWish(), POLE, 3), now)
    drill, places = get_drill(uow, alice, drill_id)
    asked = {get_item(library(), place, drill.conventions, "en").family for place in places}
    assert asked <= set(families_for(BenchWish())) - {"rollout-any-heading", "rollout-north-south"}


def test_nothing_to_ask(uow: UnitOfWork, now: datetime, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("app.services.bench_links.families_for", lambda _wish: ("rollout-any-heading",))
    alice = open_visit(uow, guest("en", now), now).actor
    with pytest.raises(Conflict, match="offered"):
        ask_bench(uow, alice, library(), (BenchWish(), POLE, 3), now)
