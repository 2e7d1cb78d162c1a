"""Kinds of questions a school has withdrawn: `offered` is the one place where new draws leave them out."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import datetime
from functools import lru_cache

from sqlalchemy import Connection

from app.packs.library import Library
from app.services.actor import Actor, Role
from app.services.audit import note
from app.services.errors import Conflict, Invalid, NotAllowed, NotFound
from app.services.messages import say
from app.storage.models import Withdrawal
from app.storage.queries import withdrawals
from app.storage.unit_of_work import UnitOfWork

LONGEST_REASON = 500


def offered(uow: UnitOfWork, actor: Actor, library: Library) -> Library:
    """Return the library without what the school has withdrawn or retired; what was answered is shown by the whole."""
    with uow.reader() as connection:
        return load_offered(connection, actor, library)


def load_offered(connection: Connection, actor: Actor, library: Library) -> Library:
    """Return the same as `offered`, for whoever reads other things besides."""
    gone = library.unlisted.union(still_withdrawn(library, withdrawals.list_withdrawals(connection, actor.school_id)))
    return _without(library, gone) if gone else library


def still_asked(actor: Actor, library: Library, drawn: Library, families: Iterable[str]) -> tuple[str, ...]:
    """Return the families without those that `drawn` leaves out; Conflict names them where none is left."""
    wanted = tuple(families)
    gone = [each for each in wanted if each in library.families and each not in drawn.families]
    if gone and len(gone) == len(wanted):
        titles = ", ".join(library.family(each).title.of(actor.language) for each in gone)
        raise Conflict(say("kinds-withdrawn", actor.language, titles=titles))
    return tuple(each for each in wanted if each not in gone)


def list_withdrawn(uow: UnitOfWork, actor: Actor, library: Library) -> Mapping[str, Withdrawal]:
    """Return what the actor's school has withdrawn and the packs have not corrected since, by family."""
    with uow.reader() as connection:
        rows = withdrawals.list_withdrawals(connection, actor.school_id)
    return still_withdrawn(library, rows)


def still_withdrawn(library: Library, rows: Iterable[Withdrawal]) -> Mapping[str, Withdrawal]:
    """Return, by family, what the packs have not corrected since."""
    return {
        row.family: row
        for row in rows
        if row.family in library.families and library.family(row.family).version <= row.version
    }


def withdraw(uow: UnitOfWork, actor: Actor, library: Library, family_id: str, reason: str, now: datetime) -> None:
    """Ask a kind of question no more; NotFound for one there is not, Invalid without a reason."""
    _require_school(actor, library, family_id)
    plain = reason.strip()
    if not 1 <= len(plain) <= LONGEST_REASON:
        raise Invalid(say("withdrawal-reason", actor.language, value=len(plain), most=LONGEST_REASON), "reason")
    version = library.family(family_id).version
    with uow.writer() as connection:
        row = Withdrawal(actor.school_id, family_id, version, plain, actor.name, now)
        withdrawals.keep_withdrawal(connection, row)
        note(connection, actor, "question-withdrawn", family_id, now, version=version, reason=plain)


def bring_back(uow: UnitOfWork, actor: Actor, library: Library, family_id: str, now: datetime) -> None:
    """Ask a withdrawn kind of question again; one that was not withdrawn stays as it is."""
    _require_school(actor, library, family_id)
    with uow.writer() as connection:
        if withdrawals.remove_withdrawal(connection, actor.school_id, family_id):
            note(connection, actor, "question-brought-back", family_id, now)


def _require_school(actor: Actor, library: Library, family_id: str) -> None:
    if actor.role is not Role.SCHOOL:
        raise NotAllowed(family_id)
    if family_id not in library.families:
        raise NotFound(family_id)


@lru_cache(maxsize=64)
def _without(library: Library, gone: frozenset[str]) -> Library:
    packs = {
        pack.id: pack.model_copy(update={"families": tuple(each for each in pack.families if each not in gone)})
        for pack in library.packs.values()
    }
    return replace(library, packs=packs, families={k: v for k, v in library.families.items() if k not in gone})
