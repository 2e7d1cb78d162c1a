"""A set of conversions, given to a class, and students who sit it."""

from datetime import datetime
from uuid import UUID

from app.services.actor import Actor
from app.services.assignments import AssignWish, assign_set
from app.services.drills import get_drill
from app.services.practice import answer
from app.services.set_wishes import SetWish
from app.services.topic_sets import SetSettings, make_set
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.services.people import CONVERSIONS, NOW, drawn, right, wrong

DUE_DAY, DUE_TIME = "2026-09-04", "17:00"


def assigned(
    uow: UnitOfWork,
    teacher: Actor,
    settings: SetSettings,
    *classes: UUID,
    people: tuple[UUID, ...] = (),
    due: bool = True,
) -> UUID:
    """Make a set of four conversions, give it out, and return the (first) assignment."""
    wish = SetWish(fixed=(*CONVERSIONS, *CONVERSIONS))
    set_id = make_set(uow, teacher, library(), (wish, settings), 7, NOW)
    to = AssignWish(classes, people, DUE_DAY if due else "", DUE_TIME if due else "")
    return assign_set(uow, teacher, set_id, to, NOW)[0]


def sit(uow: UnitOfWork, student: Actor, drill_id: UUID, marks: str, now: datetime) -> None:
    """Answer the open questions of a sitting, one for each mark: + right, - wrong."""
    _, places = get_drill(uow, student, drill_id)
    still_open = [place for place in places if place.correct is None]
    for place, mark in zip(still_open, marks, strict=False):
        item = drawn(place.family, place.seed, place.form, student)
        answer(uow, student, library(), place.id, right(item) if mark == "+" else wrong(item), now)
