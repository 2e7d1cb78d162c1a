"""Past answers to a family: which they are, whose, and where they were given."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any, NamedTuple
from uuid import UUID

from sqlalchemy import ColumnElement, Connection, bindparam, func, select

from app.storage.base import table_of
from app.storage.models import Assignment, Person, RegradedAttempt, Sitting, TopicSet
from app.storage.queries.drills import ANSWER_TO_ITEM, ATTEMPT, DRILL, ITEM

PERSON, REGRADED = table_of(Person), table_of(RegradedAttempt)
SITTING, ASSIGNMENT, SET = table_of(Sitting), table_of(Assignment), table_of(TopicSet)
AT_A_TIME = 500


class Past(NamedTuple):
    """Answers to a family: to one version or to all, given from a moment on, before another; None sets no bound.

    newest: no later version than this one. aside: only those set aside (True), or only those that count (False).
    """

    family: str
    version: int | None = None
    since: datetime | None = None
    until: datetime | None = None
    newest: int | None = None
    aside: bool | None = None

    def where(self, school_id: UUID) -> Sequence[ColumnElement[bool]]:
        """Return the conditions that an attempt meets."""
        found = [ATTEMPT.c.school_id == school_id, ATTEMPT.c.family == self.family]
        if self.version is not None:
            found.append(ATTEMPT.c.family_version == self.version)
        if self.since is not None:
            found.append(ATTEMPT.c.answered_at >= self.since)
        if self.until is not None:
            found.append(ATTEMPT.c.answered_at < self.until)
        if self.newest is not None:
            found.append(ATTEMPT.c.family_version <= self.newest)
        if self.aside is not None:
            found.append(ATTEMPT.c.set_aside_at.is_not(None) if self.aside else ATTEMPT.c.set_aside_at.is_(None))
        return found


class VersionRow(NamedTuple):
    """A version of a family: answers to it, and how many of them are set aside."""

    version: int
    answers: int
    set_aside: int


class PlaceOfAnswer(NamedTuple):
    """Where an answer was given: the purpose of its drill, and the title of the set that was."""

    attempt_id: UUID
    purpose: str
    set_title: str | None


class GivenRow(NamedTuple):
    """An answer as it was shown and given."""

    id: UUID
    visit_id: UUID
    shown: dict[str, Any]
    answer: dict[str, Any]
    answered_at: datetime


class DoneRow(NamedTuple):
    """What was done once to past answers of a family: when, by whom, to how many, and how their marks came out."""

    regraded_at: datetime
    regraded_by: str
    deed: str
    answers: int
    to_right: int
    to_wrong: int


VERSIONS = (
    select(ATTEMPT.c.family_version, func.count(), func.count(ATTEMPT.c.set_aside_at))
    .where(ATTEMPT.c.school_id == bindparam("school_id"), ATTEMPT.c.family == bindparam("family"))
    .group_by(ATTEMPT.c.family_version)
    .order_by(ATTEMPT.c.family_version)
)
_OF_ITEM = (DRILL.c.school_id == ITEM.c.school_id) & (DRILL.c.id == ITEM.c.drill_id)
_OF_DRILL = (SITTING.c.school_id == DRILL.c.school_id) & (SITTING.c.drill_id == DRILL.c.id)
_OF_SITTING = (ASSIGNMENT.c.school_id == SITTING.c.school_id) & (ASSIGNMENT.c.id == SITTING.c.assignment_id)
_OF_ASSIGNMENT = (SET.c.school_id == ASSIGNMENT.c.school_id) & (SET.c.id == ASSIGNMENT.c.topic_set_id)
PLACES = select(ATTEMPT.c.id, DRILL.c.purpose, SET.c.title).select_from(
    ATTEMPT.join(ITEM, ANSWER_TO_ITEM)
    .join(DRILL, _OF_ITEM)
    .outerjoin(SITTING, _OF_DRILL)
    .outerjoin(ASSIGNMENT, _OF_SITTING)
    .outerjoin(SET, _OF_ASSIGNMENT)
)
_RIGHT, _WAS_RIGHT = REGRADED.c.new_correct, REGRADED.c.old_correct
DONE = (
    select(
        REGRADED.c.regraded_at,
        REGRADED.c.regraded_by,
        REGRADED.c.deed,
        func.count(),
        func.count().filter(_RIGHT & ~_WAS_RIGHT),
        func.count().filter(~_RIGHT & _WAS_RIGHT),
    )
    .where(REGRADED.c.school_id == bindparam("school_id"), REGRADED.c.family == bindparam("family"))
    .group_by(REGRADED.c.regraded_at, REGRADED.c.regraded_by, REGRADED.c.deed)
    .order_by(REGRADED.c.regraded_at.desc())
)


def list_versions(connection: Connection, school_id: UUID, family: str) -> tuple[VersionRow, ...]:
    """Return every version of a family that was answered."""
    return tuple(VersionRow(*row) for row in connection.execute(VERSIONS, {"school_id": school_id, "family": family}))


def count_by_visit(connection: Connection, school_id: UUID, past: Past) -> dict[UUID, int]:
    """Return how many of these answers each visit gave, visits in order."""
    counts = select(ATTEMPT.c.visit_id, func.count()).where(*past.where(school_id))
    rows = connection.execute(counts.group_by(ATTEMPT.c.visit_id).order_by(ATTEMPT.c.visit_id))
    return {row[0]: row[1] for row in rows}


def list_places(connection: Connection, school_id: UUID, attempts: Sequence[UUID]) -> tuple[PlaceOfAnswer, ...]:
    """Return where answers were given."""
    found: list[PlaceOfAnswer] = []
    for start in range(0, len(attempts), AT_A_TIME):
        ids = attempts[start : start + AT_A_TIME]
        rows = connection.execute(PLACES.where(ATTEMPT.c.school_id == school_id, ATTEMPT.c.id.in_(ids)))
        found += (PlaceOfAnswer(*row) for row in rows)
    return tuple(found)


def list_given(connection: Connection, school_id: UUID, attempts: Sequence[UUID]) -> dict[UUID, GivenRow]:
    """Return a few answers as they were shown and given."""
    columns = select(*(ATTEMPT.c[name] for name in GivenRow._fields))
    rows = connection.execute(columns.where(ATTEMPT.c.school_id == school_id, ATTEMPT.c.id.in_(attempts)))
    return {row.id: GivenRow(*row) for row in rows}


def list_names(connection: Connection, school_id: UUID, visits: Sequence[UUID]) -> dict[UUID, str]:
    """Return the names of the people whose visits these are; one without an account has none."""
    found: dict[UUID, str] = {}
    for start in range(0, len(visits), AT_A_TIME):
        ids = visits[start : start + AT_A_TIME]
        names = select(PERSON.c.visit_id, PERSON.c.name)
        rows = connection.execute(names.where(PERSON.c.school_id == school_id, PERSON.c.visit_id.in_(ids)))
        found |= {row.visit_id: row.name for row in rows}
    return found


def list_done(connection: Connection, school_id: UUID, family: str) -> tuple[DoneRow, ...]:
    """Return what was done to past answers of a family, the latest first."""
    return tuple(DoneRow(*row) for row in connection.execute(DONE, {"school_id": school_id, "family": family}))
