"""The same use cases on PostgreSQL: one answer of eight counts, and a stranger finds nothing."""

from concurrent.futures import ThreadPoolExecutor
from datetime import datetime

import pytest

from app.services.drills import DrillWish, get_drill, start_drill
from app.services.errors import NotFound
from app.services.practice import answer
from app.services.review import summary, verdict
from app.storage.engine import StorageSettings, create_engine_for
from app.storage.migrate import upgrade
from app.storage.unit_of_work import UnitOfWork
from tests.postgresql import needs_postgresql, new_database
from tests.questions.engine import library
from tests.services.people import CONVERSIONS, drawn, right, visitor, wrong


@needs_postgresql
def test_a_drill_from_start_to_summary(now: datetime) -> None:
    with new_database() as url:
        upgrade(url)
        engine = create_engine_for(url, StorageSettings(threads=8))
        practise(UnitOfWork(engine), now)
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
