"""When a student may see what became of the answers of a sitting: the one rule that every page asks."""

from dataclasses import replace
from datetime import datetime
from uuid import UUID

from sqlalchemy import Connection

from app.services.actor import Actor
from app.services.errors import Conflict
from app.services.messages import say
from app.storage.models import Rehearsal
from app.storage.queries import attempts, rehearsals, sittings
from app.storage.queries.sittings import SittingRow
from app.storage.unit_of_work import UnitOfWork

SET, REHEARSAL = "set", "rehearsal"
AT_ONCE, AFTER_DUE = "at-once", "after-due"


def load_sitting(connection: Connection, school_id: UUID, drill_id: UUID, purpose: str) -> SittingRow | None:
    """Return the sitting behind a drill; None for practice, which costs no look."""
    return sittings.find_sitting(connection, school_id, drill_id) if purpose == SET else None


def find_sitting(uow: UnitOfWork, actor: Actor, drill_id: UUID, purpose: str) -> SittingRow | None:
    """Return the sitting behind a drill of the actor, as `load_sitting` does."""
    if purpose != SET:
        return None
    with uow.reader() as connection:
        return load_sitting(connection, actor.school_id, drill_id, purpose)


def find_rehearsal(uow: UnitOfWork, actor: Actor, drill_id: UUID, purpose: str) -> Rehearsal | None:
    """Return the rehearsal behind a drill of the actor; None for any other drill, which costs no look."""
    if purpose != REHEARSAL:
        return None
    with uow.reader() as connection:
        return rehearsals.find_of_drill(connection, actor.school_id, actor.own_visit, drill_id)


def is_closed(sitting: SittingRow | None, rehearsal: Rehearsal | None, now: datetime) -> bool:
    """Whether a drill takes no more answers, so that what is open stays so: its set is over, its rehearsal marked."""
    if rehearsal is not None:
        return rehearsal.submitted_at is not None
    return sitting is not None and is_over(sitting, now)


def is_over(sitting: SittingRow, now: datetime) -> bool:
    """Whether nothing can be answered any more: handed in, or its time is up."""
    return sitting.finished_at is not None or (sitting.ends_at is not None and now >= sitting.ends_at)


def refuses_answers(sitting: SittingRow, now: datetime) -> bool:
    """Whether nothing can be answered any more, also because the set was withdrawn."""
    return is_over(sitting, now) or sitting.withdrawn_at is not None


def opens_at(sitting: SittingRow) -> datetime | None:
    """Return the moment before which nothing is shown: where answers wait, the last due time anybody has."""
    if sitting.reveal != AFTER_DUE:
        return None
    return max((due for due in (sitting.due_at, sitting.last_extension) if due), default=None)


def may_see(sitting: SittingRow | None, now: datetime) -> bool:
    """Whether verdicts and keys may be shown; for practice always."""
    if sitting is None or sitting.reveal == AT_ONCE:
        return True
    waits_until = opens_at(sitting)
    return is_over(sitting, now) and (waits_until is None or now >= waits_until)


def held_items(connection: Connection, actor: Actor, now: datetime) -> frozenset[UUID]:
    """Return the answered items of the actor whose verdicts are held back: they are shown nowhere, in no figure."""
    if actor.person_id is None:
        return frozenset()
    found = [each.drill_id for each in sittings.list_of_person(connection, actor.school_id, actor.person_id)]
    held = {
        drill_id for drill_id in found if not may_see(sittings.find_sitting(connection, actor.school_id, drill_id), now)
    }
    if not held:
        return frozenset()
    marks = attempts.list_marks(connection, actor.school_id, actor.own_visit)
    return frozenset(mark.drill_item_id for mark in marks if mark.drill_id in held)


def require_open(sitting: SittingRow | None, actor: Actor, now: datetime) -> None:
    """Refuse with Conflict, saying what is waited for, what may not be seen yet."""
    if not may_see(sitting, now):
        code = "held-until-due" if sitting and sitting.reveal == AFTER_DUE else "held-until-end"
        raise Conflict(say(code, actor.language))


def require_running(sitting: SittingRow | None, actor: Actor, now: datetime) -> None:
    """Refuse with Conflict an answer to a sitting that is over or was withdrawn."""
    if sitting is None:
        return
    if sitting.finished_at is not None:
        raise Conflict(say("handed-in", actor.language))
    if is_over(sitting, now):
        raise Conflict(say("time-is-up", actor.language))
    if sitting.withdrawn_at is not None:
        raise Conflict(say("set-withdrawn", actor.language))


def reader_of(sitting: SittingRow | None, actor: Actor) -> Actor:
    """Return the actor as they read the questions: in the language of the set, where it has one."""
    if sitting is None or sitting.language is None:
        return actor
    return replace(actor, language="fr" if sitting.language == "fr" else "en")
