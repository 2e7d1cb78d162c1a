"""The answer path: one statement finds the item with its conventions and verdict, one keeps the answer."""

from datetime import datetime
from typing import Any, NamedTuple
from uuid import UUID

from sqlalchemy import Connection, bindparam, insert, select
from sqlalchemy.exc import IntegrityError

from app.storage.prepared import Prepared
from app.storage.queries.drills import ANSWER_TO_ITEM, ATTEMPT, DRILL, ITEM, ITEM_ID, StandRow
from app.storage.queries.learners import KNOWN_COLUMNS, LEARNER, SKILL, KnownRow, as_known
from app.storage.queries.measured import MEASURED

MOST_MISSED = 20


class AlreadyAnswered(Exception):
    """The item has its answer; the first one counts."""


class ItemRow(NamedTuple):
    """An item to be drawn: where it stands, what it is drawn from, and the verdict on it if there is one.

    difficulty: what was measured of its family; None where nothing was.
    """

    id: UUID
    drill_id: UUID
    position: int
    family: str
    seed: int
    form: str
    conventions: dict[str, Any]
    purpose: str
    aim: dict[str, Any] | None
    planned: int | None
    ends_at: datetime | None
    correct: bool | None
    difficulty: dict[str, Any] | None


class ToAnswer(NamedTuple):
    """An item to be answered, every place of its drill, and what is known of the visit in the item's family."""

    item: ItemRow
    places: tuple[StandRow, ...]
    known: KnownRow


class AttemptRow(NamedTuple):
    """One answer with everything needed to show it again as it was."""

    school_id: UUID
    id: UUID
    drill_item_id: UUID
    visit_id: UUID
    family: str
    family_version: int
    pack: str
    pack_version: int
    seed: int
    form: str
    ask: str
    parameters: dict[str, Any]
    conventions: dict[str, Any]
    shown: dict[str, Any]
    answer: dict[str, Any]
    correct: bool
    share: float
    misconceptions: list[str]
    first_misconception: str | None
    took_ms: int | None
    answered_at: datetime
    evidence: dict[str, Any] | None = None
    set_aside_at: datetime | None = None


class MissedRow(NamedTuple):
    """What a missed item asked: its numbers, and the seed that drew whatever it lists."""

    parameters: dict[str, Any]
    seed: int


class AnsweredRow(NamedTuple):
    """An answer with where its item stands."""

    drill_id: UUID
    position: int
    purpose: str
    aim: dict[str, Any] | None
    planned: int | None
    ends_at: datetime | None
    attempt: AttemptRow


class MarkRow(NamedTuple):
    """What became of one answer, in short."""

    drill_item_id: UUID
    family: str
    correct: bool
    answered_at: datetime
    set_aside_at: datetime | None
    drill_id: UUID


_OWN_ITEM = (
    ITEM.c.school_id == bindparam("school_id"),
    ITEM.c.id == bindparam("item_id"),
    DRILL.c.visit_id == bindparam("visit_id"),
)
_ITEM_OF_DRILL = (DRILL.c.school_id == ITEM.c.school_id) & (DRILL.c.id == ITEM.c.drill_id)
_OF_FAMILY = (MEASURED.c.school_id == ITEM.c.school_id) & (MEASURED.c.family == ITEM.c.family)
_OF_DRILL = ("conventions", "purpose", "aim", "planned", "ends_at")
ITEM_COLUMNS = (
    *(ITEM.c[name] for name in ("id", "drill_id", "position", "family", "seed", "form")),
    *(DRILL.c[name] for name in _OF_DRILL),
    ATTEMPT.c.correct,
    MEASURED.c.difficulty,
)
FIND_ITEM = (
    select(*ITEM_COLUMNS)
    .select_from(ITEM.join(DRILL, _ITEM_OF_DRILL).outerjoin(ATTEMPT, ANSWER_TO_ITEM).outerjoin(MEASURED, _OF_FAMILY))
    .where(*_OWN_ITEM)
)
_OWN = DRILL.alias("own")
_ASKED = ITEM.alias("asked")
_HERE = ITEM.c.id == _ASKED.c.id  # what is said of the item alone is joined to its place alone
_LEVEL = (LEARNER.c.school_id == DRILL.c.school_id) & (LEARNER.c.visit_id == DRILL.c.visit_id)
_SKILL = (SKILL.c.school_id == DRILL.c.school_id) & (SKILL.c.visit_id == DRILL.c.visit_id)
_STAND_COLUMNS = (ITEM_ID, ITEM.c.position, ATTEMPT.c.correct, ATTEMPT.c.set_aside_at)
_HERE_COLUMNS = (
    DRILL.c.id,
    *(ITEM.c[name] for name in ("family", "seed", "form")),
    *(DRILL.c[name] for name in _OF_DRILL),
    MEASURED.c.difficulty,
)
FIND_ITEM_TO_ANSWER = Prepared(
    select(*_STAND_COLUMNS, *_HERE_COLUMNS, *KNOWN_COLUMNS)
    .select_from(
        _ASKED.join(_OWN, (_OWN.c.school_id == _ASKED.c.school_id) & (_OWN.c.id == _ASKED.c.drill_id))
        .join(ITEM, (ITEM.c.school_id == _ASKED.c.school_id) & (ITEM.c.drill_id == _ASKED.c.drill_id))
        .outerjoin(ATTEMPT, ANSWER_TO_ITEM)
        .outerjoin(DRILL, _HERE & _ITEM_OF_DRILL)
        .outerjoin(MEASURED, _HERE & _OF_FAMILY)
        .outerjoin(LEARNER, _LEVEL)
        .outerjoin(SKILL, _SKILL & (SKILL.c.family == ITEM.c.family))
    )
    .where(
        _ASKED.c.school_id == bindparam("school_id"),
        _ASKED.c.id == bindparam("item_id"),
        _OWN.c.visit_id == bindparam("visit_id"),
    )
    .order_by(ITEM.c.position)
)
_HERE_FROM = len(_STAND_COLUMNS)
_KNOWN_FROM = _HERE_FROM + len(_HERE_COLUMNS)
FIND_ATTEMPT = select(ATTEMPT).where(
    ATTEMPT.c.school_id == bindparam("school_id"),
    ATTEMPT.c.drill_item_id == bindparam("item_id"),
    ATTEMPT.c.visit_id == bindparam("visit_id"),
)
FIND_ANSWERED = Prepared(
    select(
        DRILL.c.id,
        ITEM.c.position,
        *(DRILL.c[n] for n in ("purpose", "aim", "planned", "ends_at")),
        *(ATTEMPT.c[n] for n in AttemptRow._fields),
    )
    .select_from(ITEM.join(DRILL, _ITEM_OF_DRILL).join(ATTEMPT, ANSWER_TO_ITEM))
    .where(*_OWN_ITEM)
)
LIST_MISSED = Prepared(
    select(*(ATTEMPT.c[n] for n in MissedRow._fields))
    .where(
        ATTEMPT.c.school_id == bindparam("school_id"),
        ATTEMPT.c.visit_id == bindparam("visit_id"),
        ATTEMPT.c.family == bindparam("family"),
        ATTEMPT.c.correct.is_(False),
    )
    .order_by(ATTEMPT.c.answered_at.desc())
    .limit(MOST_MISSED)
)
_OF_VISIT = (ATTEMPT.c.school_id == bindparam("school_id"), ATTEMPT.c.visit_id == bindparam("visit_id"))
_IN_ORDER = (ATTEMPT.c.answered_at, ATTEMPT.c.id)
LIST_MARKS = (
    select(*(ATTEMPT.c[name] for name in MarkRow._fields[:-1]), ITEM.c.drill_id)
    .select_from(ATTEMPT.join(ITEM, ANSWER_TO_ITEM))
    .where(*_OF_VISIT)
    .order_by(*_IN_ORDER)
)
LIST_ATTEMPTS = select(ATTEMPT).where(*_OF_VISIT).order_by(*_IN_ORDER)
ADD_ATTEMPT = Prepared(insert(ATTEMPT))


def find_item(connection: Connection, school_id: UUID, visit_id: UUID, item_id: UUID) -> ItemRow | None:
    """Return an item of the visit's own drills."""
    found = {"school_id": school_id, "visit_id": visit_id, "item_id": item_id}
    row = connection.execute(FIND_ITEM, found).first()
    return ItemRow(*tuple(row)) if row else None


def find_item_to_answer(connection: Connection, school_id: UUID, visit_id: UUID, item_id: UUID) -> ToAnswer | None:
    """Return an item of the visit's own drills with all that its answer needs, in one statement."""
    found = {"school_id": school_id, "visit_id": visit_id, "item_id": item_id}
    rows = FIND_ITEM_TO_ANSWER.rows(connection, found)
    here = next((row for row in rows if row[_HERE_FROM] is not None), None)
    if here is None:
        return None
    places = tuple(StandRow(*row[:_HERE_FROM]) for row in rows)
    place = StandRow(*here[:_HERE_FROM])
    drill_id, family, seed, form, conventions, *of_drill, difficulty = here[_HERE_FROM:_KNOWN_FROM]
    purpose, aim, planned, ends_at = of_drill
    at = (item_id, drill_id, place.position, family, seed, form)
    return ToAnswer(
        item=ItemRow(*at, conventions, purpose, aim, planned, ends_at, place.correct, difficulty),
        places=places,
        known=as_known((school_id, visit_id), here[_KNOWN_FROM:]),
    )


def find_attempt(connection: Connection, school_id: UUID, visit_id: UUID, item_id: UUID) -> AttemptRow | None:
    """Return the answer the visit gave to an item."""
    found = {"school_id": school_id, "visit_id": visit_id, "item_id": item_id}
    row = connection.execute(FIND_ATTEMPT, found).mappings().first()
    return AttemptRow(**row) if row else None


def find_answered(connection: Connection, school_id: UUID, visit_id: UUID, item_id: UUID) -> AnsweredRow | None:
    """Return the answer to an item of the visit's own drills."""
    found = {"school_id": school_id, "visit_id": visit_id, "item_id": item_id}
    row = FIND_ANSWERED.first(connection, found)
    if row is None:
        return None
    drill_id, position, purpose, aim, planned, ends_at, *attempt = row
    return AnsweredRow(drill_id, position, purpose, aim, planned, ends_at, AttemptRow(*attempt))


def add_attempt(connection: Connection, attempt: AttemptRow) -> None:
    """Keep an answer; raises AlreadyAnswered when the item has one."""
    try:
        ADD_ATTEMPT.run(connection, attempt._asdict())
    except IntegrityError as error:
        raise AlreadyAnswered(attempt.drill_item_id) from error


def list_missed(connection: Connection, school_id: UUID, visit_id: UUID, family: str) -> list[MissedRow]:
    """Return the items of a family that a visit missed last."""
    of = {"school_id": school_id, "visit_id": visit_id, "family": family}
    return [MissedRow(*row) for row in LIST_MISSED.rows(connection, of)]


def list_marks(connection: Connection, school_id: UUID, visit_id: UUID) -> tuple[MarkRow, ...]:
    """Return what became of every answer of a visit, oldest first."""
    rows = connection.execute(LIST_MARKS, {"school_id": school_id, "visit_id": visit_id}).mappings()
    return tuple(MarkRow(**row) for row in rows)


def list_attempts(connection: Connection, school_id: UUID, visit_id: UUID) -> tuple[AttemptRow, ...]:
    """Return every answer of a visit with all that is kept of it, oldest first."""
    rows = connection.execute(LIST_ATTEMPTS, {"school_id": school_id, "visit_id": visit_id}).mappings()
    return tuple(AttemptRow(**row) for row in rows)


def as_plain(attempt: AttemptRow) -> dict[str, Any]:
    """Return an answer as its owner takes it along: everything but the keys of tables."""
    return {
        "answered_at": attempt.answered_at.isoformat(),
        "family": attempt.family,
        "family_version": attempt.family_version,
        "form": attempt.form,
        "conventions": attempt.conventions,
        "numbers": attempt.parameters,
        "shown": attempt.shown,
        "answer": attempt.answer,
        "right": attempt.correct,
        "share": attempt.share,
        "misconceptions": attempt.misconceptions,
        "took_ms": attempt.took_ms,
        "set_aside": attempt.set_aside_at is not None,
    }
