from datetime import UTC, datetime, timedelta, timezone

import pytest
from sqlalchemy import Engine, select
from sqlalchemy.dialects import sqlite

from app.storage.base import table_of
from app.storage.models import VISITORS_SCHOOL_ID, School
from app.storage.types import UtcDateTime
from app.storage.unit_of_work import UnitOfWork

SCHOOL = table_of(School)


def test_naive_moment_is_refused() -> None:
    with pytest.raises(ValueError, match="has no time zone"):
        UtcDateTime().process_bind_param(datetime(2026, 9, 1, 12), sqlite.dialect())  # noqa: DTZ001 - that is the point


def test_moment_comes_back_in_utc(uow: UnitOfWork, engine: Engine) -> None:
    noon_in_ottawa = datetime(2026, 9, 1, 12, 0, 0, 250_000, tzinfo=timezone(timedelta(hours=-4)))
    with uow.writer() as connection:
        connection.execute(SCHOOL.update().values(created_at=noon_in_ottawa))
    with engine.connect() as connection:
        kept = connection.scalar(select(SCHOOL.c.created_at).where(SCHOOL.c.id == VISITORS_SCHOOL_ID))
    assert kept == noon_in_ottawa
    assert kept.tzinfo is UTC


def test_no_moment_stays_none() -> None:
    assert UtcDateTime().process_bind_param(None, sqlite.dialect()) is None
    assert UtcDateTime().process_result_value(None, sqlite.dialect()) is None


def test_moment_with_a_zone_from_the_driver_is_turned_into_utc() -> None:
    """As PostgreSQL gives it back: in the session's zone."""
    moment = datetime(2026, 9, 1, 12, tzinfo=timezone(timedelta(hours=-4)))
    kept = UtcDateTime().process_result_value(moment, sqlite.dialect())
    assert kept == moment
    assert kept.tzinfo is UTC


def test_json_comes_back_exactly(uow: UnitOfWork) -> None:
    """What is known of a learner is made anew from it, bit for bit."""
    numbers = [0.1 + 0.2, 1e-7, -0.0, 1e22, 5e-324, 2**53 + 1]
    held = {"numbers": numbers, "place": "Trois-Rivières « ° »", "nested": {"none": None, "yes": True, "pair": (1, 2)}}
    with uow.writer() as connection:
        connection.execute(SCHOOL.update().values(conventions=held))
    with uow.reader() as connection:
        kept = connection.scalar(select(SCHOOL.c.conventions).where(SCHOOL.c.id == VISITORS_SCHOOL_ID))
    assert kept is not None
    assert [repr(each) for each in kept["numbers"]] == [repr(each) for each in numbers]
    assert kept == held | {"nested": {"none": None, "yes": True, "pair": [1, 2]}}
