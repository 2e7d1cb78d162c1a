"""Thirty names become thirty accounts: all of them or none, each with a slip to come in with."""

from collections import Counter
from collections.abc import Sequence
from datetime import datetime
from typing import NamedTuple
from uuid import UUID

from app.exchange.roster import Newcomer, read_names, read_roster
from app.exchange.tables import UnreadableTable, csv_text
from app.packs.spec import Language
from app.services.accounts import NewPerson, add_account
from app.services.actor import Actor, Role
from app.services.audit import note
from app.services.class_access import taught_class
from app.services.errors import Invalid, NotFound
from app.services.homes import conventions_for, default_home
from app.services.logins import free_login
from app.services.messages import say
from app.services.schools import Slip, add_slip, checked_name
from app.storage.queries import classes, memberships, people, schools
from app.storage.unit_of_work import UnitOfWork

MOST_NAMES = 200
LONGEST_EMAIL = 254
MOST_NAMED = 5


class RosterWish(NamedTuple):
    """Who is to join: pasted names, and a table if one was sent. `again`: names that are there already are others."""

    names: str
    table: bytes = b""
    again: bool = False


def add_students(uow: UnitOfWork, actor: Actor, class_id: UUID, wish: RosterWish, now: datetime) -> tuple[Slip, ...]:
    """Make an account in a class for each name and return their slips.

    Invalid, and nothing is made: for no names, more than MOST_NAMES, a line that is no name, or one who may be there.
    """
    newcomers = _checked(read_wish(wish, actor.language), actor.language)
    home = conventions_for(default_home(now.date()), actor.language)
    with uow.writer() as connection:
        known = taught_class(connection, actor, class_id)
        school = schools.find_school(connection, actor.school_id)
        if school is None:
            raise NotFound(actor.school_id)
        if not wish.again:
            there = [student.name for student in classes.list_students(connection, actor.school_id, class_id)]
            _refuse_doubles(newcomers, there, actor.language)
        logins = set(people.claim_logins(connection, actor.school_id))
        slips = []
        for each in newcomers:
            login = free_login(each.name, logins)
            logins.add(login)
            new = NewPerson(Role.STUDENT, each.name, login, language_of(school.language), email=each.email)
            person = add_account(connection, actor.school_id, new, now, home)
            memberships.enrol(connection, actor.school_id, class_id, person.id, now)
            slips.append(add_slip(connection, school.code, person, actor.person_id, now))
        note(connection, actor, "accounts-made", known.name, now, count=len(slips))
    return tuple(slips)


def export_students(uow: UnitOfWork, actor: Actor, class_id: UUID, now: datetime) -> str:
    """Return a class's students as a table for a spreadsheet, times in UTC; the log tells who took it."""
    with uow.writer() as connection:
        known = taught_class(connection, actor, class_id)
        students = classes.list_students(connection, actor.school_id, class_id)
        note(connection, actor, "roster-exported", known.name, now, count=len(students))
    rows = [
        (each.name, each.login, each.joined_at.isoformat(), each.seen_at.isoformat() if each.seen_at else "")
        for each in students
    ]
    return csv_text(("name", "login", "joined_utc", "last_seen_utc"), rows)


def read_wish(wish: RosterWish, language: Language) -> tuple[Newcomer, ...]:
    """Return who a wish names; Invalid when its table cannot be read."""
    try:
        return read_names(wish.names) + read_roster(wish.table)
    except UnreadableTable as error:
        raise Invalid(say("unreadable-roster", language), "table") from error


def language_of(code: str) -> Language:
    """Return a school's language as the rest of the program names it."""
    return "fr" if code == "fr" else "en"


def checked_email(email: str | None, language: Language, field: str = "email") -> str | None:
    """Return an e-mail address, None for an empty one; Invalid for what cannot be one. Nobody needs one."""
    plain = (email or "").strip()
    before, at, after = plain.partition("@")
    fits = before and at and "." in after and plain.isprintable() and len(plain) <= LONGEST_EMAIL and " " not in plain
    if plain and not fits:
        raise Invalid(say("email", language, value=plain), field)
    return plain or None


def _checked(newcomers: Sequence[Newcomer], language: Language) -> tuple[Newcomer, ...]:
    if not newcomers:
        raise Invalid(say("no-names", language, most=MOST_NAMES), "names")
    if len(newcomers) > MOST_NAMES:
        raise Invalid(say("too-many-names", language, count=len(newcomers), most=MOST_NAMES), "names")
    return tuple(_checked_line(each, language) for each in newcomers)


def _checked_line(each: Newcomer, language: Language) -> Newcomer:
    try:
        name = checked_name(each.name, language, "names")
        return Newcomer(each.line, name, checked_email(each.email, language, "names"))
    except Invalid as refusal:
        raise Invalid(say("roster-line", language, line=each.line, reason=refusal.message), "names") from refusal


def _refuse_doubles(newcomers: Sequence[Newcomer], there: Sequence[str], language: Language) -> None:
    counts = Counter(each.name.casefold() for each in newcomers)
    known = {name.casefold() for name in there}
    doubles = {each.name for each in newcomers if counts[each.name.casefold()] > 1 or each.name.casefold() in known}
    if doubles:
        names = ", ".join(sorted(doubles)[:MOST_NAMED]) + (", …" if len(doubles) > MOST_NAMED else "")
        raise Invalid(say("double-names", language, names=names), "again")
