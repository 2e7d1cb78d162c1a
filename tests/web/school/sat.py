"""Many first sittings of one set, written straight to the tables: students of whom one knows how able they are."""

from itertools import count
from math import exp
from random import Random
from typing import Any
from uuid import UUID

from app.services.accounts import NewPerson, add_account
from app.services.actor import Role
from app.storage.base import table_of
from app.storage.ids import new_id
from app.storage.models import Assignment, Sitting, TopicSetItem
from app.storage.queries import attempts, drills, sittings
from app.storage.queries.attempts import AttemptRow
from app.storage.queries.drills import DrillRow, PlaceRow
from app.storage.unit_of_work import UnitOfWork
from tests.fakes import START

ITEM, ASSIGNMENT = table_of(TopicSetItem), table_of(Assignment)
_logins = count(1)


def let_sit(
    uow: UnitOfWork, school_id: UUID, assignment_id: UUID, difficulties: tuple[float, ...], students: int
) -> None:
    """Let new students sit a set, each question as hard as told, by a one-parameter model with abilities N(0, 1)."""
    rng = Random(students)
    with uow.writer() as connection:
        set_id = (
            connection.execute(
                ASSIGNMENT.select().where(ASSIGNMENT.c.school_id == school_id, ASSIGNMENT.c.id == assignment_id)
            )
            .one()
            .topic_set_id
        )
        of_set = ITEM.select().where(ITEM.c.school_id == school_id, ITEM.c.topic_set_id == set_id)
        items = connection.execute(of_set.order_by(ITEM.c.position)).all()
        for _ in range(students):
            login = f"student-{next(_logins)}"
            person = add_account(connection, school_id, NewPerson(Role.STUDENT, login, login, "en"), START)
            drill = DrillRow(school_id, new_id(START), person.visit_id, None, 1, {}, START, purpose="set")
            places = [_place(item) for item in items]
            drills.add_drill(connection, drill, places)
            sitting = (new_id(START), assignment_id, person.id, 1, drill.id)
            sittings.add_sitting(connection, Sitting(school_id, *sitting, START, None, START))
            ability = rng.gauss(0, 1)
            for place, hard in zip(places, difficulties, strict=True):
                right = rng.random() < 1 / (1 + exp(hard - ability))
                attempts.add_attempt(connection, _answer(school_id, person.visit_id, place, right=right))


def _place(item: object) -> PlaceRow:
    names = ("position", "family", "family_version", "pack", "pack_version", "seed", "form")
    return PlaceRow(new_id(START), *(getattr(item, name) for name in names))


def _answer(school_id: UUID, visit_id: UUID, place: PlaceRow, *, right: bool) -> AttemptRow:
    drawn = (place.family, place.family_version, place.pack, place.pack_version, place.seed, place.form)
    nothing: Any = [{}, {}, {"stamp": ""}, {"value": 0, "text": ""}]
    marks: Any = (right, float(right), [], None, None, START)
    return AttemptRow(school_id, new_id(START), place.id, visit_id, *drawn, "", *nothing, *marks)
