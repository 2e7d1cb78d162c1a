"""People and answers for tests of use cases.

Visitors, and a cast of people with accounts: in school One Alice (student) and Ingrid (her instructor), Bob (student of
another class) and Selma (school administrator); in school Two Charlie (student) and Dora (instructor).
"""

from dataclasses import dataclass, replace
from datetime import UTC, datetime
from uuid import UUID

from app.packs.spec import Language
from app.questions.draw import draw
from app.questions.model import Item
from app.services.accounts import NewPerson, add_account
from app.services.actor import Actor, Role
from app.services.practice import Sent
from app.services.sign_ins import find_sign_in, open_sign_in
from app.services.visits import guest, open_visit
from app.storage.ids import new_id
from app.storage.models import School, SchoolClass
from app.storage.queries import classes, schools
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library

NOW = datetime(2026, 9, 1, 14, 30, tzinfo=UTC)
SCHOOL_ONE = UUID("00000000-0000-4000-8000-000000000011")
SCHOOL_TWO = UUID("00000000-0000-4000-8000-000000000002")
CONVERSIONS = ("true-to-compass", "compass-to-true")


def visitor(uow: UnitOfWork, language: Language = "en") -> Actor:
    return open_visit(uow, guest(language, NOW), NOW).actor


def charlie(uow: UnitOfWork) -> Actor:
    """Somebody who practises in school Two without an account."""
    add_school_row(uow, SCHOOL_TWO, "Two")
    return open_visit(uow, replace(guest("en", NOW), school_id=SCHOOL_TWO), NOW).actor


def add_school_row(uow: UnitOfWork, school_id: UUID, name: str) -> None:
    with uow.writer() as connection:
        schools.add_school(connection, School(school_id, name.lower(), f"School {name}", "en", "America/Toronto", NOW))


def sign_up(uow: UnitOfWork, school_id: UUID, role: Role, name: str, language: Language = "en") -> Actor:
    """Add somebody with an account and return them as the actor they are once signed in."""
    with uow.writer() as connection:
        person = add_account(connection, school_id, NewPerson(role, name, name.lower(), language), NOW)
    found = find_sign_in(uow, open_sign_in(uow, school_id, person.id, "a test", NOW), NOW)
    assert found is not None
    return found


def make_class(uow: UnitOfWork, name: str, teacher: Actor, *students: Actor) -> UUID:
    """Add a class of the teacher's school with its students."""
    class_id = new_id(NOW)
    with uow.writer() as connection:
        classes.add_class(connection, SchoolClass(teacher.school_id, class_id, name, NOW))
        classes.add_instructor(connection, teacher.school_id, class_id, teacher.own_person, NOW)
        for student in students:
            classes.add_student(connection, teacher.school_id, class_id, student.own_person, NOW)
    return class_id


@dataclass(frozen=True, slots=True)
class Cast:
    """Who is who; see the module."""

    alice: Actor
    ingrid: Actor
    bob: Actor
    selma: Actor
    charlie: Actor
    dora: Actor


def cast_of(uow: UnitOfWork) -> Cast:
    """Fill schools One and Two with the cast."""
    add_school_row(uow, SCHOOL_ONE, "One")
    add_school_row(uow, SCHOOL_TWO, "Two")
    return Cast(
        alice=sign_up(uow, SCHOOL_ONE, Role.STUDENT, "Alice"),
        ingrid=sign_up(uow, SCHOOL_ONE, Role.INSTRUCTOR, "Ingrid"),
        bob=sign_up(uow, SCHOOL_ONE, Role.STUDENT, "Bob"),
        selma=sign_up(uow, SCHOOL_ONE, Role.SCHOOL, "Selma"),
        charlie=sign_up(uow, SCHOOL_TWO, Role.STUDENT, "Charlie"),
        dora=sign_up(uow, SCHOOL_TWO, Role.INSTRUCTOR, "Dora"),
    )


def right(item: Item) -> Sent:
    """The right answer to a conversion."""
    if item.form == "choice":
        return Sent({"choice": [str(next(i for i, option in enumerate(item.options) if option.correct))]})
    return Sent({"value": [f"{item.key:03.0f}"]})


def wrong(item: Item) -> Sent:
    """An answer to a conversion that a misconception explains."""
    if item.form == "choice":
        return Sent({"choice": [str(next(i for i, option in enumerate(item.options) if option.misconceptions))]})
    return Sent({"value": [f"{item.wrong_values()[0][1].value:03.0f}"]})


def drawn(family: str, seed: int, form: str, actor: Actor) -> Item:
    """The item as the engine draws it, key included."""
    return draw(library(), family, seed, actor.conventions, form)  # type: ignore[arg-type] # one of the forms
