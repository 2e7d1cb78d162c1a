"""Looking after people's accounts: the school after everybody's, instructors after their students'."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any, NamedTuple
from uuid import UUID

from sqlalchemy import Connection

from app.services.actor import Actor, Role
from app.services.audit import note
from app.services.class_people import is_taught_by
from app.services.errors import Conflict, Invalid, NotAllowed, NotFound
from app.services.messages import say
from app.services.roster import checked_email
from app.services.schools import Slip, add_slip, checked_name
from app.storage.models import Person
from app.storage.queries import class_lists, codes, memberships, people, schools, sign_ins
from app.storage.queries.class_lists import ListedClassRow
from app.storage.queries.memberships import TeacherRow
from app.storage.unit_of_work import UnitOfWork

# Between which an account may change; a student stays one.
STAFF = (Role.INSTRUCTOR, Role.SCHOOL)


class MemberView(NamedTuple):
    """A person with their classes: attended, or taught. `alone` are those that nobody else teaches.

    For the school: `others` are the classes a student could move to, `successors` who could take classes over.
    """

    person: Person
    classes: tuple[ListedClassRow, ...]
    alone: tuple[ListedClassRow, ...]
    others: tuple[ListedClassRow, ...]
    successors: tuple[TeacherRow, ...]


def list_members(uow: UnitOfWork, actor: Actor) -> tuple[Person, ...]:
    """Return everybody of the school, also who has left, or for an instructor the students of their classes."""
    with uow.reader() as connection:
        if actor.role is Role.SCHOOL:
            return people.list_people(connection, actor.school_id)
        return memberships.list_students_of(connection, actor.school_id, actor.own_person)


def get_member(uow: UnitOfWork, actor: Actor, person_id: UUID) -> MemberView:
    """Return a person the actor looks after."""
    with uow.reader() as connection:
        person = member(connection, actor, person_id)
        find = class_lists.list_classes_attended if person.role == Role.STUDENT else class_lists.list_classes_taught
        own = find(connection, actor.school_id, person_id)
        alone = _taught_alone(connection, person, own)
        if actor.role is not Role.SCHOOL:
            return MemberView(person, own, alone, (), ())
        everything = class_lists.list_classes(connection, actor.school_id)
        teachers = memberships.list_all_teachers(connection, actor.school_id)
    ids = {each.id for each in own}
    others = tuple(each for each in everything if each.id not in ids and each.archived_at is None)
    return MemberView(person, own, alone, others, tuple(each for each in teachers if each.person_id != person_id))


def member(connection: Connection, actor: Actor, person_id: UUID) -> Person:
    """Load a person and ask whether the actor looks after them, in one call.

    NotFound for somebody of another school, and for whoever looks after nobody; NotAllowed for an instructor whose
    student it is not.
    """
    person = people.find_person(connection, actor.school_id, person_id)
    if person is None or actor.role not in STAFF:
        raise NotFound(person_id)
    if actor.role is Role.INSTRUCTOR and not (
        person.role == Role.STUDENT and is_taught_by(connection, actor, person_id)
    ):
        raise NotAllowed(person_id)
    return person


def correct_member(uow: UnitOfWork, actor: Actor, person_id: UUID, name: str, email: str, now: datetime) -> None:
    """Correct somebody's name and e-mail address; the login name stays."""
    changes = {"name": checked_name(name, actor.language, "name"), "email": checked_email(email, actor.language)}
    with uow.writer() as connection:
        person = member(connection, actor, person_id)
        _change(connection, person, changes)
        note(connection, actor, "person-corrected", str(changes["name"]), now, before=person.name)


def give_code(uow: UnitOfWork, actor: Actor, person_id: UUID, now: datetime) -> Slip:
    """Give somebody a one-time code with which they choose a new password; the present one holds until then."""
    with uow.writer() as connection:
        person = member(connection, actor, person_id)
        if person.left_at is not None:
            raise Conflict(say("has-left", actor.language, name=person.name))
        school = schools.find_school(connection, actor.school_id)
        note(connection, actor, "code-given", person.name, now)
        return add_slip(connection, school.code if school else "", person, actor.person_id, now)


def let_leave(uow: UnitOfWork, actor: Actor, person_id: UUID, successor: UUID | None, now: datetime) -> None:
    """Close somebody's account and keep their history: for the school alone.

    The classes an instructor taught alone go to the successor; Conflict without one, and for the last administrator.
    """
    with uow.writer() as connection:
        person = _for_the_school(connection, actor, person_id)
        _keep_an_administrator(connection, actor, person)
        taught = class_lists.list_classes_taught(connection, actor.school_id, person_id)
        alone = _taught_alone(connection, person, taught)
        if alone and successor is None:
            names = ", ".join(each.name for each in alone)
            raise Conflict(say("needs-successor", actor.language, name=person.name, classes=names))
        if alone and successor not in {
            each.person_id for each in memberships.list_all_teachers(connection, actor.school_id)
        } - {person_id}:
            raise NotFound(successor)
        for each in alone:
            memberships.teach(connection, actor.school_id, each.id, successor or person_id, now)
        for each in taught:
            memberships.stop_teaching(connection, actor.school_id, each.id, person_id)
        _change(connection, person, {"left_at": now})
        codes.use_up_codes(connection, actor.school_id, person_id, now)
        sign_ins.revoke_all(connection, actor.school_id, person_id, now)
        note(connection, actor, "person-left", person.name, now, classes=[each.name for each in taught])


def let_return(uow: UnitOfWork, actor: Actor, person_id: UUID, now: datetime) -> None:
    """Open the account of somebody who had left: for the school alone."""
    with uow.writer() as connection:
        person = _for_the_school(connection, actor, person_id)
        _change(connection, person, {"left_at": None})
        note(connection, actor, "person-returned", person.name, now)


def sign_member_out(uow: UnitOfWork, actor: Actor, person_id: UUID, now: datetime) -> None:
    """Sign somebody out in every browser, such as a lost one: for the school alone."""
    with uow.writer() as connection:
        person = _for_the_school(connection, actor, person_id)
        sign_ins.revoke_all(connection, actor.school_id, person_id, now)
        note(connection, actor, "person-signed-out", person.name, now)


def change_role(uow: UnitOfWork, actor: Actor, person_id: UUID, role: str, now: datetime) -> None:
    """Make an instructor an administrator or the other way round: for the school alone, and never the last one."""
    with uow.writer() as connection:
        person = _for_the_school(connection, actor, person_id)
        if person.role not in STAFF or role not in STAFF:
            raise Invalid(say("member-role", actor.language, value=role), "role")
        if role != Role.SCHOOL:
            _keep_an_administrator(connection, actor, person)
        _change(connection, person, {"role": role})
        note(connection, actor, "role-changed", person.name, now, before=person.role, after=role)


def _for_the_school(connection: Connection, actor: Actor, person_id: UUID) -> Person:
    person = member(connection, actor, person_id)
    if actor.role is not Role.SCHOOL:
        raise NotAllowed(person_id)
    return person


def _keep_an_administrator(connection: Connection, actor: Actor, person: Person) -> None:
    everybody = people.list_people(connection, actor.school_id)
    others = [each for each in everybody if each.role == Role.SCHOOL and not each.left_at and each.id != person.id]
    if person.role == Role.SCHOOL and not others:
        raise Conflict(say("last-administrator", actor.language, name=person.name))


def _taught_alone(
    connection: Connection, person: Person, taught: tuple[ListedClassRow, ...]
) -> tuple[ListedClassRow, ...]:
    if person.role == Role.STUDENT:
        return ()
    return tuple(each for each in taught if len(memberships.list_teachers(connection, person.school_id, each.id)) == 1)


def _change(connection: Connection, person: Person, changes: Mapping[str, Any]) -> None:
    people.change_person(connection, person.school_id, person.id, changes)
