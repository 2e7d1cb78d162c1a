"""Invitations: a link that makes one instructor's or administrator's account, once, until it expires."""

from datetime import datetime, timedelta
from typing import NamedTuple
from uuid import UUID

from sqlalchemy import Connection

from app.packs.spec import Language
from app.services.accounts import NewPerson, add_account
from app.services.actor import Actor, Role
from app.services.audit import note, note_of_person
from app.services.entrance import Caller
from app.services.errors import Conflict, Invalid, NotFound
from app.services.logins import free_login
from app.services.messages import say
from app.services.passwords import Hasher, check_password
from app.services.schools import checked_name
from app.services.sign_ins import open_sign_in
from app.services.tokens import hash_of, new_token, school_of
from app.storage.ids import new_id
from app.storage.models import Invitation, School
from app.storage.queries import invitations, people, schools
from app.storage.unit_of_work import UnitOfWork

HOLDS = timedelta(days=7)
INVITED = (Role.INSTRUCTOR, Role.SCHOOL)


class Newcomers(NamedTuple):
    """Who somebody says they are when an account is made: a name and the password they chose."""

    name: str
    password: str


class Welcome(NamedTuple):
    """An account that was made: the token for its browser, and what to sign in with from now on."""

    token: str
    school_code: str
    login: str


def invite(uow: UnitOfWork, actor: Actor, role: str, remark: str, now: datetime) -> str:
    """Make an invitation and return its token, which is kept nowhere; `remark` says for whom it is meant."""
    if role not in INVITED:
        raise Invalid(say("invited-role", actor.language, value=role), "role")
    meant_for = checked_name(remark, actor.language, "remark")
    token = new_token(actor.school_id)
    row = Invitation(
        school_id=actor.school_id,
        id=new_id(now),
        role=role,
        note=meant_for,
        token_hash=hash_of(token),
        made_by=actor.person_id,
        created_at=now,
        expires_at=now + HOLDS,
    )
    with uow.writer() as connection:
        invitations.add_invitation(connection, row)
        note(connection, actor, "invited", meant_for, now, role=role)
    return token


def list_invitations(uow: UnitOfWork, actor: Actor) -> tuple[Invitation, ...]:
    """Return the school's invitations, newest first."""
    with uow.reader() as connection:
        return invitations.list_invitations(connection, actor.school_id)


def revoke(uow: UnitOfWork, actor: Actor, invitation_id: UUID, now: datetime) -> None:
    """Take an invitation back; NotFound when there is no open one."""
    with uow.writer() as connection:
        meant_for = invitations.revoke_invitation(connection, actor.school_id, invitation_id, now)
        if meant_for is None:
            raise NotFound(invitation_id)
        note(connection, actor, "invitation-taken-back", meant_for, now)


def open_invitation(connection: Connection, token: str, language: Language, now: datetime) -> tuple[Invitation, School]:
    """Return an invitation that holds, with its school; Conflict when it does not, or never did."""
    school_id = school_of(token)
    found = invitations.find_invitation(connection, school_id, hash_of(token)) if school_id else None
    school = schools.find_school(connection, found.school_id) if found else None
    if found is None or school is None or found.used_at or found.revoked_at or now >= found.expires_at:
        raise Conflict(say("invitation-closed", language))
    return found, school


def read_invitation(uow: UnitOfWork, token: str, language: Language, now: datetime) -> tuple[Invitation, School]:
    """Return an invitation that holds, for whoever has its link."""
    with uow.reader() as connection:
        return open_invitation(connection, token, language, now)


def accept(uow: UnitOfWork, hasher: Hasher, token: str, who: Newcomers, caller: Caller, now: datetime) -> Welcome:
    """Make the account an invitation is for; Invalid for name or password leaves the invitation as it is."""
    name = checked_name(who.name, caller.language, "name")
    check_password(who.password, name, caller.language)
    read_invitation(uow, token, caller.language, now)  # before the slow part: a dead link costs nothing
    hashed = hasher.hash(who.password)
    with uow.writer() as connection:
        found, school = open_invitation(connection, token, caller.language, now)
        login = free_login(name, people.claim_logins(connection, school.id))
        new = NewPerson(Role(found.role), name, login, caller.language, hashed)
        person = add_account(connection, school.id, new, now)
        if not invitations.use_invitation(connection, found, person.id, now):
            raise Conflict(say("invitation-closed", caller.language))
        note_of_person(connection, person, "invitation-used", now, role=found.role)
    return Welcome(open_sign_in(uow, school.id, person.id, caller.device, now), school.code, login)
