"""Drills and their places. Whoever asks names the school and the visit: somebody else's drill is not found."""

from collections.abc import Sequence
from datetime import datetime
from itertools import starmap
from typing import Any, NamedTuple
from uuid import UUID

from sqlalchemy import Connection, bindparam, func, insert, select, type_coerce, update
from sqlalchemy.exc import IntegrityError

from app.storage.base import table_of
from app.storage.models import Attempt, Drill, DrillItem
from app.storage.prepared import Prepared
from app.storage.types import RepeatedUuid
from app.storage.upsert import AddIfFree

DRILL, ITEM, ATTEMPT = table_of(Drill), table_of(DrillItem), table_of(Attempt)
ANSWER_TO_ITEM = (ATTEMPT.c.school_id == ITEM.c.school_id) & (ATTEMPT.c.drill_item_id == ITEM.c.id)

MOST_PLACES = 50
OF_ANSWER = frozenset({"correct", "misconceptions", "set_aside_at"})


class DrillExists(Exception):
    """There is a drill with this id."""


class DrillRow(NamedTuple):
    """A drill as it is kept."""

    school_id: UUID
    id: UUID
    visit_id: UUID
    topic: str | None
    seed: int
    conventions: dict[str, Any]
    started_at: datetime
    purpose: str = "practice"
    aim: dict[str, Any] | None = None
    planned: int | None = None
    ends_at: datetime | None = None


class PlaceRow(NamedTuple):
    """One place of a drill, with the verdict on it: None is not answered yet. Set aside: it counts no more."""

    id: UUID
    position: int
    family: str
    family_version: int
    pack: str
    pack_version: int
    seed: int
    form: str
    correct: bool | None = None
    misconceptions: list[str] | None = None
    set_aside_at: datetime | None = None


class StandRow(NamedTuple):
    """What became of one place of a drill, and no more."""

    id: UUID
    position: int
    correct: bool | None
    set_aside_at: datetime | None


FIND = Prepared(
    select(*(DRILL.c[name] for name in DrillRow._fields)).where(
        DRILL.c.school_id == bindparam("school_id"),
        DRILL.c.visit_id == bindparam("visit_id"),
        DRILL.c.id == bindparam("drill_id"),
    )
)
ITEM_ID = type_coerce(ITEM.c.id, RepeatedUuid).label("id")
PLACE_COLUMNS = (
    ITEM_ID,
    *(ITEM.c[name] for name in ("position", "family", "family_version", "pack", "pack_version", "seed", "form")),
    *(ATTEMPT.c[name] for name in ("correct", "misconceptions", "set_aside_at")),
)
PLACES = Prepared(
    select(*PLACE_COLUMNS)
    .select_from(ITEM.outerjoin(ATTEMPT, ANSWER_TO_ITEM))
    .where(ITEM.c.school_id == bindparam("school_id"), ITEM.c.drill_id == bindparam("drill_id"))
    .order_by(ITEM.c.position)
)
_OF_DRILL = (ITEM.c.school_id == DRILL.c.school_id, ITEM.c.drill_id == DRILL.c.id)
_HAS_OPEN_PLACE = (
    select(ITEM.c.id)
    .select_from(ITEM.outerjoin(ATTEMPT, ANSWER_TO_ITEM))
    .where(*_OF_DRILL, ATTEMPT.c.id.is_(None))
    .exists()
)
_PLACES_SO_FAR = select(func.count()).select_from(ITEM).where(*_OF_DRILL).scalar_subquery()
_GOES_ON = (
    (DRILL.c.planned.is_not(None) | DRILL.c.ends_at.is_not(None))
    & (DRILL.c.ends_at.is_(None) | (DRILL.c.ends_at > bindparam("now")))
    & (func.coalesce(DRILL.c.planned, MOST_PLACES) > _PLACES_SO_FAR)
)
LATEST_OPEN = (
    select(DRILL.c.id)
    .where(
        DRILL.c.school_id == bindparam("school_id"),
        DRILL.c.visit_id == bindparam("visit_id"),
        DRILL.c.purpose == "practice",
        _HAS_OPEN_PLACE | _GOES_ON,
    )
    .order_by(DRILL.c.started_at.desc())
    .limit(1)
)
ADD_DRILL = insert(DRILL)
ADD_ITEMS = insert(ITEM)
ADD_IF_FREE = AddIfFree(ITEM)
PLAN = update(DRILL).where(DRILL.c.school_id == bindparam("school"), DRILL.c.id == bindparam("drill"))


def find_drill(connection: Connection, school_id: UUID, visit_id: UUID, drill_id: UUID) -> DrillRow | None:
    """Return a visit's own drill."""
    found = {"school_id": school_id, "visit_id": visit_id, "drill_id": drill_id}
    row = FIND.first(connection, found)
    return DrillRow(*row) if row else None


def list_places(connection: Connection, school_id: UUID, drill_id: UUID) -> tuple[PlaceRow, ...]:
    """Return the places of a drill in order."""
    rows = PLACES.rows(connection, {"school_id": school_id, "drill_id": drill_id})
    return tuple(starmap(PlaceRow, rows))


def find_latest_open(connection: Connection, school_id: UUID, visit_id: UUID, now: datetime) -> UUID | None:
    """Return the visit's latest drill for practice that has a place without an answer, or is to have one more."""
    of = {"school_id": school_id, "visit_id": visit_id, "now": now}
    found: UUID | None = connection.scalar(LATEST_OPEN, of)
    return found


def add_drill(connection: Connection, drill: DrillRow, places: Sequence[PlaceRow]) -> None:
    """Keep a new drill with its places; raises DrillExists when its id is taken."""
    try:
        connection.execute(ADD_DRILL, drill._asdict())
    except IntegrityError as error:
        raise DrillExists(drill.id) from error
    of = {"school_id": drill.school_id, "drill_id": drill.id}
    connection.execute(ADD_ITEMS, [_chosen(place) | of for place in places])


def add_place(connection: Connection, school_id: UUID, drill_id: UUID, place: PlaceRow) -> bool:
    """Keep one more place of a drill; False when somebody was quicker."""
    row = _chosen(place) | {"school_id": school_id, "drill_id": drill_id}
    return ADD_IF_FREE.run(connection, row) == 1


def plan_places(connection: Connection, school_id: UUID, drill_id: UUID, planned: int) -> None:
    """Settle how many places a drill will have."""
    connection.execute(PLAN, {"school": school_id, "drill": drill_id, "planned": planned})


def _chosen(place: PlaceRow) -> dict[str, Any]:
    return {name: value for name, value in place._asdict().items() if name not in OF_ANSWER}
