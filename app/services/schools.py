"""Making schools: the school itself and the first person who looks after it."""

import re
from datetime import datetime, timedelta
from typing import NamedTuple
from uuid import UUID
from zoneinfo import available_timezones

from sqlalchemy import Connection

from app.packs.spec import Language
from app.services.accounts import NewPerson, add_account
from app.services.actor import Role
from app.services.audit import note_of_person
from app.services.errors import Invalid
from app.services.logins import plain_login
from app.services.messages import say
from app.services.passwords import hash_of_code, new_code
from app.storage.ids import new_id
from app.storage.models import OneTimeCode, Person, School
from app.storage.queries import codes, schools
from app.storage.queries.schools import CodeTaken
from app.storage.unit_of_work import UnitOfWork

CODE = re.compile(r"[a-z0-9](?:[a-z0-9-]{0,28}[a-z0-9])")
LONGEST_NAME = 80
CODE_HOLDS = timedelta(days=14)


class NewSchool(NamedTuple):
    """A school to be made, and the name of its first administrator."""

    code: str
    name: str
    language: Language
    time_zone: str
    administrator: str


class Slip(NamedTuple):
    """What somebody needs to come in for the first time; the code is kept nowhere else."""

    name: str
    school_code: str
    login: str
    code: str
    expires_at: datetime


def create_school(uow: UnitOfWork, wanted: NewSchool, language: Language, now: datetime) -> Slip:
    """Keep a new school and return the slip of its administrator; Invalid names a value that cannot be accepted."""
    code = wanted.code.strip().lower()
    if not CODE.fullmatch(code):
        raise Invalid(say("school-code", language, value=wanted.code), "code")
    name = checked_name(wanted.name, language, "name")
    administrator = checked_name(wanted.administrator, language, "administrator")
    check_time_zone(wanted.time_zone, language)
    school = School(new_id(now), code, name, wanted.language, wanted.time_zone, now)
    with uow.writer() as connection:
        try:
            schools.add_school(connection, school)
        except CodeTaken as error:
            raise Invalid(say("school-code-taken", language, value=code), "code") from error
        new = NewPerson(Role.SCHOOL, administrator, plain_login(administrator), wanted.language)
        person = add_account(connection, school.id, new, now)
        note_of_person(connection, person, "school-made", now, school=code)
        return add_slip(connection, code, person, None, now)


def list_schools(uow: UnitOfWork) -> tuple[School, ...]:
    """Return every school but the visitors', by code."""
    with uow.reader() as connection:
        return schools.list_schools(connection)


def add_slip(connection: Connection, school_code: str, person: Person, made_by: UUID | None, now: datetime) -> Slip:
    """Give a person a one-time code; earlier ones are worthless from now on."""
    code = new_code()
    codes.use_up_codes(connection, person.school_id, person.id, now)
    kept = OneTimeCode(person.school_id, new_id(now), person.id, hash_of_code(code), made_by, now, now + CODE_HOLDS)
    codes.add_code(connection, kept)
    return Slip(person.name, school_code, person.login, code, kept.expires_at)


def checked_name(name: str, language: Language, field: str) -> str:
    """Return a name with its spaces put together; Invalid when it is empty, too long or holds control characters."""
    plain = " ".join(name.split())
    if not plain or len(plain) > LONGEST_NAME or not plain.isprintable():
        raise Invalid(say("name", language, value=plain, most=LONGEST_NAME), field)
    return plain


def check_time_zone(name: str, language: Language) -> None:
    """Refuse what is no time zone of the IANA database."""
    if name not in available_timezones():
        raise Invalid(say("time-zone", language, value=name), "time_zone")
