"""Coming in: by login and password, or the first time and after a forgotten password by a one-time code.

Whoever fails learns nothing: the answer is the same, and so is the work, for an unknown school, an unknown login, a
wrong password and somebody who has left.
"""

from datetime import datetime
from typing import NamedTuple

from app.packs.spec import Language
from app.services.audit import note_for, note_of_person
from app.services.errors import Invalid
from app.services.messages import say
from app.services.passwords import Hasher, check_password, hash_of_code
from app.services.sign_ins import open_sign_in
from app.services.throttle import Subject, address_subject, count_try, forgive
from app.storage.models import VISITORS_SCHOOL_ID, Person
from app.storage.queries import codes, people, schools, sign_ins
from app.storage.unit_of_work import UnitOfWork


class Caller(NamedTuple):
    """Who asks to come in: from which address, on which device, reading which language."""

    address: str
    device: str
    language: Language


class Claim(NamedTuple):
    """Who somebody says they are."""

    school_code: str
    login: str


class Entrance:
    """Lets people in. Where there is nobody to compare with, nobody's hash is compared with, for the same work."""

    def __init__(self, hasher: Hasher) -> None:
        self.hasher = hasher
        self._nobodys = hasher.nobodys()

    def enter(self, uow: UnitOfWork, claim: Claim, password: str, caller: Caller, now: datetime) -> str:
        """Return the token of a new sign-in; Invalid for a wrong claim or password, TooOften after too many tries."""
        person, subjects = _try(uow, claim, caller, now)
        kept = person.password_hash if person and person.left_at is None else None
        fits = self.hasher.fits(kept or self._nobodys, password)
        if person is None or kept is None or not fits:
            with uow.writer() as connection:  # also of people there are not: the work must not tell them apart
                who, whom = (person.id if person else None, ""), person.name if person else ""
                note_for(connection, subjects[0].school_id, who, ("sign-in-refused", whom), now)
            raise Invalid(say("sign-in-refused", caller.language), "password")
        forgive(uow, *subjects)
        with uow.writer() as connection:
            note_of_person(connection, person, "signed-in", now)
        return open_sign_in(uow, person.school_id, person.id, caller.device, now)

    def enter_by_code(
        self, uow: UnitOfWork, claim: Claim, code: str, password: str, caller: Caller, now: datetime
    ) -> str:
        """Choose a password with a one-time code and return the token of a new sign-in.

        Every other sign-in of the person ends. Invalid for a wrong claim or code, or a password that will not do (then
        the code still holds); TooOften after too many tries.
        """
        check_password(password, claim.login, caller.language)
        person, subjects = _try(uow, claim, caller, now)
        hashed = self.hasher.hash(password)
        with uow.writer() as connection:
            found = person and codes.find_holding_code(connection, person.school_id, person.id, hash_of_code(code), now)
            if person is None or person.left_at is not None or not found:
                raise Invalid(say("code-refused", caller.language), "code")
            codes.use_up_codes(connection, person.school_id, person.id, now)
            people.set_password(connection, person.school_id, person.id, hashed)
            sign_ins.revoke_all(connection, person.school_id, person.id, now)
            note_of_person(connection, person, "password-chosen-by-code", now)
        forgive(uow, *subjects)
        return open_sign_in(uow, person.school_id, person.id, caller.device, now)


def _try(uow: UnitOfWork, claim: Claim, caller: Caller, now: datetime) -> tuple[Person | None, tuple[Subject, Subject]]:
    """Count the try, and return who is meant, if anybody."""
    login = claim.login.strip().lower()
    with uow.reader() as connection:
        school = schools.find_school_by_code(connection, claim.school_code.strip().lower())
        person = people.find_person_by_login(connection, school.id, login) if school else None
    account = Subject(school.id if school else VISITORS_SCHOOL_ID, "account", f"{claim.school_code} {login}")
    subjects = (account, address_subject(caller.address))
    count_try(uow, subjects, caller.language, now)
    return person, subjects
