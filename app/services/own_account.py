"""One's own account: the name, the password, and the browsers in which one is signed in."""

from datetime import datetime
from typing import NamedTuple
from uuid import UUID

from sqlalchemy import Connection

from app.services.actor import Actor
from app.services.audit import note
from app.services.entrance import Caller
from app.services.errors import Invalid, NotFound
from app.services.messages import say
from app.services.passwords import Hasher, check_password
from app.services.roster import checked_email
from app.services.schools import checked_name
from app.services.sign_ins import open_sign_in
from app.services.throttle import Subject, count_try, forgive
from app.services.tokens import hash_of
from app.storage.models import Person, School, SignIn
from app.storage.queries import class_lists, people, schools, sign_ins
from app.storage.queries.class_lists import ListedClassRow
from app.storage.unit_of_work import UnitOfWork


class AccountView(NamedTuple):
    """A person's own account; `here` is the sign-in of the browser that asks."""

    person: Person
    school: School
    classes: tuple[ListedClassRow, ...]
    sign_ins: tuple[SignIn, ...]
    here: UUID | None


class PasswordWish(NamedTuple):
    """The password somebody has and the one they want."""

    present: str
    wanted: str


class OwnWish(NamedTuple):
    """The name and e-mail address somebody wants, and the password they have, asked for where the address changes."""

    name: str
    email: str
    password: str = ""


def get_account(uow: UnitOfWork, actor: Actor, token: str, now: datetime) -> AccountView:
    """Return the actor's own account; NotFound for a visitor."""
    with uow.reader() as connection:
        person = people.find_person(connection, actor.school_id, actor.own_person)
        school = schools.find_school(connection, actor.school_id)
        if person is None or school is None:
            raise NotFound(actor.person_id)
        attended = class_lists.list_classes_attended(connection, actor.school_id, person.id)
        held = sign_ins.list_sign_ins(connection, actor.school_id, person.id, now)
    here = next((each.id for each in held if each.token_hash == hash_of(token)), None)
    return AccountView(person, school, attended, held, here)


def change_own(uow: UnitOfWork, hasher: Hasher, actor: Actor, wish: OwnWish, now: datetime) -> None:
    """Correct one's own name and e-mail address; role and login name are not one's own to change.

    Another e-mail address asks for the present password: Invalid when it is not right, TooOften after too many tries.
    """
    changes = {
        "name": checked_name(wish.name, actor.language, "name"),
        "email": checked_email(wish.email, actor.language),
    }
    with uow.reader() as connection:
        person = _own(connection, actor)
    if changes["email"] != person.email:
        _require_password(uow, hasher, (actor, person), ("own_password", wish.password), now)
    with uow.writer() as connection:
        people.change_person(connection, actor.school_id, actor.own_person, changes)
        note(connection, actor, "person-corrected", str(changes["name"]), now, before=actor.name)


def change_password(
    uow: UnitOfWork, hasher: Hasher, actor: Actor, wish: PasswordWish, caller: Caller, now: datetime
) -> str:
    """Keep another password, sign everybody out who is signed in as the actor, and return a new token.

    Invalid when the present password is not right or the wanted one will not do; TooOften after too many tries.
    """
    with uow.reader() as connection:
        person = _own(connection, actor)
    check_password(wish.wanted, person.login, actor.language)
    _require_password(uow, hasher, (actor, person), ("present", wish.present), now)
    hashed = hasher.hash(wish.wanted)
    with uow.writer() as connection:
        people.set_password(connection, actor.school_id, person.id, hashed)
        sign_ins.revoke_all(connection, actor.school_id, person.id, now)
        note(connection, actor, "password-changed", person.name, now)
    return open_sign_in(uow, actor.school_id, person.id, caller.device, now)


def sign_out_one(uow: UnitOfWork, actor: Actor, sign_in_id: UUID, now: datetime) -> None:
    """Sign another browser of one's own out; NotFound for somebody else's."""
    with uow.writer() as connection:
        if not sign_ins.revoke_one(connection, actor.school_id, actor.own_person, sign_in_id, now):
            raise NotFound(sign_in_id)
        note(connection, actor, "signed-out-elsewhere", actor.name, now)


def sign_out_everywhere(uow: UnitOfWork, actor: Actor, now: datetime) -> None:
    """Sign all browsers of one's own out, also the one that asks."""
    with uow.writer() as connection:
        sign_ins.revoke_all(connection, actor.school_id, actor.own_person, now)
        note(connection, actor, "signed-out-everywhere", actor.name, now)


def _own(connection: Connection, actor: Actor) -> Person:
    person = people.find_person(connection, actor.school_id, actor.own_person)
    if person is None:
        raise NotFound(actor.person_id)
    return person


def _require_password(
    uow: UnitOfWork, hasher: Hasher, who: tuple[Actor, Person], typed: tuple[str, str], now: datetime
) -> None:
    """Refuse, at the field named, what is not the password of the person."""
    (actor, person), (field, present) = who, typed
    account = Subject(actor.school_id, "account", f"own {person.id}")
    count_try(uow, (account,), actor.language, now)
    if not hasher.fits(person.password_hash or "", present):
        raise Invalid(say("present-password", actor.language), field)
    forgive(uow, account)
