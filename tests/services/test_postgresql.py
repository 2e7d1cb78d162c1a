"""The same use cases on PostgreSQL: one answer of eight counts, one sitting starts, a stranger finds nothing."""

from concurrent.futures import ThreadPoolExecutor
from datetime import datetime

import pytest

from app.services.assignments import extend_for
from app.services.drills import DrillWish, get_drill, start_drill
from app.services.errors import NotFound
from app.services.following import follow
from app.services.practice import answer
from app.services.review import summary, verdict
from app.services.sittings import list_due, start_sitting
from app.services.topic_sets import SetSettings
from app.storage.engine import StorageSettings, create_engine_for
from app.storage.migrate import upgrade
from app.storage.unit_of_work import UnitOfWork
from tests.postgresql import needs_postgresql, new_database
from tests.questions.engine import library
from tests.services.people import CONVERSIONS, NOW, cast_of, drawn, make_class, right, visitor, wrong
from tests.services.sitting import assigned, sit


@needs_postgresql
def test_a_drill_from_start_to_summary(now: datetime) -> None:
    with new_database() as url:
        upgrade(url)
        engine = create_engine_for(url, StorageSettings(threads=8))
        practise(UnitOfWork(engine), now)
        sit_a_set(UnitOfWork(engine))
        engine.dispose()


def practise(uow: UnitOfWork, now: datetime) -> None:
    alice, bob = visitor(uow), visitor(uow)
    drill_id = start_drill(uow, alice, library(), DrillWish(families=CONVERSIONS, length=4), 1, now)
    for place in get_drill(uow, alice, drill_id)[1]:
        item = drawn(place.family, place.seed, place.form, alice)
        sent = [right(item), wrong(item)] * 4
        with ThreadPoolExecutor(8) as threads:
            outcomes = list(threads.map(lambda each, p=place: answer(uow, alice, library(), p.id, each, now), sent))
        assert sum(outcome.counted for outcome in outcomes) == 1
        assert len({outcome.correct for outcome in outcomes}) == 1
        assert verdict(uow, alice, library(), place.id, now).correct == outcomes[0].correct
    assert summary(uow, alice, library(), drill_id, now).answered == 4
    with pytest.raises(NotFound):
        summary(uow, bob, library(), drill_id, now)


def sit_a_set(uow: UnitOfWork) -> None:
    cast = cast_of(uow)
    evening = make_class(uow, "Evening", cast.ingrid, cast.alice, cast.bob)
    given = assigned(uow, cast.ingrid, SetSettings("Turns"), evening)
    with ThreadPoolExecutor(8) as threads:
        started = set(threads.map(lambda _: start_sitting(uow, cast.alice, library(), given, NOW), range(8)))
    assert len(started) == 1, "started eight times at once, it is one sitting"
    sit(uow, cast.alice, started.pop(), "+--+", NOW)
    extend_for(uow, cast.ingrid, given, (cast.bob.own_person, "2026-09-09", "12:00"), NOW)
    alice, bob = follow(uow, cast.ingrid, library(), given, NOW).students
    assert (alice.standing.percent, bob.standing.percent) == (50.0, None)
    assert bob.member.extended_to is not None
    assert [due.standing.late for due in list_due(uow, cast.bob, NOW)] == [False]
