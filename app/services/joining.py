"""Joining a class by its code: a new student makes an account, one who has an account is put into the class."""

from datetime import datetime
from typing import NamedTuple

from sqlalchemy import Connection

from app.packs.spec import Language
from app.services.accounts import NewPerson, add_account
from app.services.actor import Actor, Role
from app.services.audit import note, note_of_person
from app.services.classes import may_be_joined
from app.services.entrance import Caller
from app.services.errors import Invalid
from app.services.invitations import Newcomers, Welcome
from app.services.logins import free_login
from app.services.messages import say
from app.services.passwords import Hasher, check_password
from app.services.schools import checked_name
from app.services.sign_ins import open_sign_in
from app.services.throttle import address_subject, count_try, forgive
from app.storage.models import VISITORS_SCHOOL_ID, School, SchoolClass
from app.storage.queries import class_lists, memberships, people, schools
from app.storage.unit_of_work import UnitOfWork


class JoinClaim(NamedTuple):
    """The class somebody wants to join, as typed."""

    school_code: str
    join_code: str


def join_new(
    uow: UnitOfWork, hasher: Hasher, claim: JoinClaim, who: Newcomers, caller: Caller, now: datetime
) -> Welcome:
    """Make a student's account in the class of a code; Invalid for the code, the name or the password."""
    name = checked_name(who.name, caller.language, "name")
    check_password(who.password, name, caller.language)
    address = address_subject(caller.address)
    count_try(uow, (address,), caller.language, now)
    with uow.reader() as connection:
        _joinable(connection, claim, caller.language, now)
    hashed = hasher.hash(who.password)
    with uow.writer() as connection:
        school, row = _joinable(connection, claim, caller.language, now)
        login = free_login(name, people.claim_logins(connection, school.id))
        person = add_account(connection, school.id, NewPerson(Role.STUDENT, name, login, caller.language, hashed), now)
        memberships.enrol(connection, school.id, row.id, person.id, now)
        note_of_person(connection, person, "joined-by-code", now, school_class=row.name)
    forgive(uow, address)
    return Welcome(open_sign_in(uow, school.id, person.id, caller.device, now), school.code, login)


def join_as(uow: UnitOfWork, actor: Actor, claim: JoinClaim, caller: Caller, now: datetime) -> str:
    """Put a student who is signed in into the class of a code of their own school; return its name."""
    count_try(uow, (address_subject(caller.address),), actor.language, now)
    with uow.writer() as connection:
        school, row = _joinable(connection, claim, actor.language, now)
        if school.id != actor.school_id:
            raise Invalid(say("join-refused", actor.language), "join_code")
        memberships.enrol(connection, school.id, row.id, actor.own_person, now)
        note(connection, actor, "joined-by-code", actor.name, now, school_class=row.name)
    forgive(uow, address_subject(caller.address))
    return row.name


def _joinable(
    connection: Connection, claim: JoinClaim, language: Language, now: datetime
) -> tuple[School, SchoolClass]:
    """Return the class a code opens now; the same words whether the school, the code or its time is wrong."""
    code = "".join(letter for letter in claim.join_code.upper() if letter.isalnum())
    school = schools.find_school_by_code(connection, claim.school_code.strip().lower())
    found = class_lists.find_class_by_join_code(connection, school.id, code) if school else None
    if school is None or school.id == VISITORS_SCHOOL_ID or found is None or not may_be_joined(found, now):
        raise Invalid(say("join-refused", language), "join_code")
    return school, found
