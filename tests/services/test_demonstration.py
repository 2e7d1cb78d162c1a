"""The demonstration: true figures of an invented school, made by the real use cases, the same every time."""

from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import func, select

from app.services import demonstration
from app.services.actor import Actor
from app.services.classes import list_classes
from app.services.demonstration import CLASSES, CODE, INSTRUCTORS, PASSWORD, make_demonstration
from app.services.demonstration_records import RECOMMENDED
from app.services.entrance import Caller, Claim, Entrance
from app.services.logins import plain_login
from app.services.rechecks import list_class_rechecks
from app.services.report_desk import list_desk
from app.services.sign_ins import find_sign_in, open_sign_in
from app.services.training import student_page
from app.storage.base import table_of
from app.storage.models import Attempt, Person, School, Sitting
from app.storage.queries import people, schools
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
    make_demonstration(uow, library(), PlainHasher(), NOW, told.append)
    assert len(told) == 7
    with uow.reader() as connection:
        school = schools.find_school_by_code(connection, CODE)
        answered_at = table_of(Attempt).c.answered_at
        moments = connection.execute(select(func.min(answered_at), func.max(answered_at))).one()
    assert school is not None
    assert school.demonstration
    assert NOW - timedelta(weeks=6) <= moments[0] <= moments[1] <= NOW
    assert count(uow, Person) == 3 + sum(map(len, CLASSES.values()))
    assert count(uow, School) == 2
    assert count(uow, Sitting) > 10
    assert count(uow, Attempt) > 150


def actor_of(uow: UnitOfWork, name: str) -> Actor:
    with uow.reader() as connection:
        school = schools.find_school_by_code(connection, CODE)
        assert school is not None
        person = people.find_person_by_login(connection, school.id, plain_login(name))
    assert person is not None
    actor = find_sign_in(uow, open_sign_in(uow, school.id, person.id, "a test", NOW), NOW)
    assert actor is not None
    return actor


def test_records_show_what_instructors_keep(uow: UnitOfWork) -> None:
    make_demonstration(uow, library(), PlainHasher(), NOW, print)
    teacher = actor_of(uow, INSTRUCTORS[0])
    pages = {
        name: student_page(uow, teacher, library(), actor_of(uow, name).own_person, NOW)
        for name in ("Greta Lindqvist", "Esther Quill", RECOMMENDED)
    }
    strong, weak, ready = pages.values()
    assert len(strong.rehearsals) == 2
    assert len(weak.rehearsals) == 1
    percents = [each.mark.overall.percent for page in (strong, weak) for each in page.rehearsals if each.mark]
    assert min(percents[:2]) > percents[2]
    assert [each.row.initials for each in strong.entries] == ["IV"] * len(strong.entries)
    assert [each.corrected for each in strong.entries if each.row.kind == "taught"] == [True, False]
    assert weak.notes
    assert ready.entries[-1].row.details["overridden"]
    settled = [line.row.settled_at is not None for line in list_desk(uow, teacher, library())]
    assert sorted(settled) == [False, True]
    (class_id,) = (row.id for row in list_classes(uow, teacher))
    mistake, kind = sorted(list_class_rechecks(uow, teacher, library(), class_id), key=lambda view: view.verdict)
    assert {mistake.row.misconception, kind.row.misconception} == {None, "forward-sign"}
    for view in (mistake, kind):
        assert view.before is not None
        assert view.after is not None


def test_people_of_it_can_sign_in(uow: UnitOfWork, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(demonstration, "WEEKS", 0)
    make_demonstration(uow, library(), PlainHasher(), NOW, print)
    caller = Caller("2001:db8::1", "a test", "en")
    for login in ("rosalind.thwaite", "idris.vance", "benedicte.lavoie"):
        assert Entrance(PlainHasher()).enter(uow, Claim(CODE, login), PASSWORD, caller, NOW)
