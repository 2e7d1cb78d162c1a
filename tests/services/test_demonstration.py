"""The demonstration: true figures of an invented school, made by the real use cases, the same every time."""

from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import func, select

from app.services import demonstration
from app.services.demonstration import CLASSES, CODE, PASSWORD, has_demonstration, make_demonstration
from app.services.entrance import Caller, Claim, Entrance
from app.storage.base import table_of
from app.storage.models import Attempt, Person, School, Sitting
from app.storage.queries import schools
from app.storage.unit_of_work import UnitOfWork
from tests.fakes import PlainHasher
from tests.questions.engine import library

NOW = datetime(2026, 11, 20, 12, tzinfo=UTC)


def count(uow: UnitOfWork, model: type) -> int:
    with uow.reader() as connection:
        return connection.scalar(select(func.count()).select_from(table_of(model))) or 0


def test_school_is_marked_filled_and_within_its_six_weeks(uow: UnitOfWork, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(demonstration, "ITEMS", 2)
    monkeypatch.setattr(demonstration, "SET_ITEMS", 2)
    told: list[str] = []
    assert not has_demonstration(uow)
    make_demonstration(uow, library(), PlainHasher(), NOW, told.append)
    assert has_demonstration(uow)
    assert len(told) == 6
    with uow.reader() as connection:
        school = schools.find_school_by_code(connection, CODE)
        moments = connection.execute(select(func.min(Attempt.answered_at), func.max(Attempt.answered_at))).one()
    assert school is not None
    assert school.demonstration
    assert NOW - timedelta(weeks=6) <= moments[0] <= moments[1] <= NOW
    assert count(uow, Person) == 3 + sum(map(len, CLASSES.values()))
    assert count(uow, School) == 2
    assert count(uow, Sitting) > 10
    assert count(uow, Attempt) > 150


def test_people_of_it_can_sign_in(uow: UnitOfWork, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(demonstration, "WEEKS", 0)
    make_demonstration(uow, library(), PlainHasher(), NOW, str)
    caller = Caller("2001:db8::1", "a test", "en")
    for login in ("rosalind.thwaite", "idris.vance", "benedicte.lavoie"):
        assert Entrance(PlainHasher()).enter(uow, Claim(CODE, login), PASSWORD, caller, NOW)
