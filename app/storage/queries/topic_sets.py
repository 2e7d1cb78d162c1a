"""Topic sets with their items and pass marks. Whoever asks names the school: no set of another one is ever found."""

from collections.abc import Mapping, Sequence
from dataclasses import asdict
from datetime import datetime
from typing import Any, NamedTuple
from uuid import UUID

from sqlalchemy import BindParameter, Connection, bindparam, delete, func, insert, select, update

from app.storage.base import table_of
from app.storage.models import Assignment, PassMark, Person, TopicSet, TopicSetItem

SET, ITEM, PASS_MARK = table_of(TopicSet), table_of(TopicSetItem), table_of(PassMark)
ASSIGNMENT, PERSON = table_of(Assignment), table_of(Person)


class SetChanged(Exception):
    """Somebody has changed the set since the version at hand."""


class SetItemRow(NamedTuple):
    """One place of a set."""

    id: UUID
    position: int
    family: str
    family_version: int
    pack: str
    pack_version: int
    seed: int
    form: str
    chosen_at: datetime


class SetListRow(NamedTuple):
    """A set as the list of sets shows it."""

    id: UUID
    title: str
    made_by: str | None
    items: int
    assigned: int
    changed_at: datetime
    archived_at: datetime | None


class PassMarkRow(NamedTuple):
    """A pass mark from a moment on; None asks for nothing."""

    percent: int | None
    set_at: datetime
    set_by: str | None


_SCHOOL: BindParameter[UUID] = bindparam("school_id")
_SET_ID: BindParameter[UUID] = bindparam("set_id")
_OWN = (SET.c.school_id == _SCHOOL, SET.c.id == _SET_ID)
_ITEM_COLUMNS = tuple(ITEM.c[name] for name in SetItemRow._fields)
FIND = select(SET).where(*_OWN)
ITEMS = (
    select(*_ITEM_COLUMNS).where(ITEM.c.school_id == _SCHOOL, ITEM.c.topic_set_id == _SET_ID).order_by(ITEM.c.position)
)
LIST = (
    select(
        *(SET.c[name] for name in ("id", "title", "changed_at", "archived_at")),
        PERSON.c.name.label("made_by"),
        select(func.count())
        .where(ITEM.c.school_id == SET.c.school_id, ITEM.c.topic_set_id == SET.c.id)
        .scalar_subquery()
        .label("items"),
        select(func.count())
        .where(
            ASSIGNMENT.c.school_id == SET.c.school_id,
            ASSIGNMENT.c.topic_set_id == SET.c.id,
            ASSIGNMENT.c.withdrawn_at.is_(None),
        )
        .scalar_subquery()
        .label("assigned"),
    )
    .select_from(SET.outerjoin(PERSON, (PERSON.c.school_id == SET.c.school_id) & (PERSON.c.id == SET.c.made_by)))
    .where(SET.c.school_id == _SCHOOL)
    .order_by(SET.c.changed_at.desc(), SET.c.id)
)
PASS_MARKS = (
    select(PASS_MARK.c.percent, PASS_MARK.c.set_at, PERSON.c.name.label("set_by"))
    .select_from(
        PASS_MARK.outerjoin(PERSON, (PERSON.c.school_id == PASS_MARK.c.school_id) & (PERSON.c.id == PASS_MARK.c.set_by))
    )
    .where(PASS_MARK.c.school_id == _SCHOOL, PASS_MARK.c.topic_set_id == _SET_ID)
    .order_by(PASS_MARK.c.set_at, PASS_MARK.c.id)
)
ADD, ADD_ITEM, ADD_PASS_MARK = insert(SET), insert(ITEM), insert(PASS_MARK)
CHANGE = update(SET).where(
    SET.c.school_id == bindparam("in_school"), SET.c.id == _SET_ID, SET.c.version == bindparam("known_version")
)
REMOVE_ITEM = delete(ITEM).where(
    ITEM.c.school_id == _SCHOOL, ITEM.c.topic_set_id == _SET_ID, ITEM.c.position == bindparam("at_position")
)


def find_set(connection: Connection, school_id: UUID, set_id: UUID) -> TopicSet | None:
    """Return a set of a school, archived or not."""
    row = connection.execute(FIND, {"school_id": school_id, "set_id": set_id}).mappings().first()
    return TopicSet(**row) if row else None


def list_sets(connection: Connection, school_id: UUID) -> tuple[SetListRow, ...]:
    """Return a school's sets, the latest changed first."""
    return tuple(SetListRow(**row) for row in connection.execute(LIST, {"school_id": school_id}).mappings())


def list_items(connection: Connection, school_id: UUID, set_id: UUID) -> tuple[SetItemRow, ...]:
    """Return the places of a set in order."""
    rows = connection.execute(ITEMS, {"school_id": school_id, "set_id": set_id}).mappings()
    return tuple(SetItemRow(**row) for row in rows)


def list_pass_marks(connection: Connection, school_id: UUID, set_id: UUID) -> tuple[PassMarkRow, ...]:
    """Return the pass marks a set has had, the present one last."""
    rows = connection.execute(PASS_MARKS, {"school_id": school_id, "set_id": set_id}).mappings()
    return tuple(PassMarkRow(**row) for row in rows)


def add_set(connection: Connection, topic_set: TopicSet, items: Sequence[SetItemRow]) -> None:
    """Keep a new set with its items."""
    connection.execute(ADD, asdict(topic_set))
    connection.execute(ADD_ITEM, [_of_set(topic_set, item) for item in items])


def add_pass_mark(connection: Connection, topic_set: TopicSet, row_id: UUID, person_id: UUID, now: datetime) -> None:
    """Note the pass mark that the set has from now on."""
    row = {"id": row_id, "percent": topic_set.pass_percent, "set_by": person_id, "set_at": now}
    connection.execute(ADD_PASS_MARK, row | {"school_id": topic_set.school_id, "topic_set_id": topic_set.id})


def change_set(connection: Connection, known: TopicSet, changes: Mapping[str, Any]) -> None:
    """Change a set that still has the version at hand; raises SetChanged, then nothing is changed."""
    where = {"in_school": known.school_id, "set_id": known.id, "known_version": known.version}
    if connection.execute(CHANGE.values(**changes, version=known.version + 1), where).rowcount != 1:
        raise SetChanged(known.id)


def replace_item(connection: Connection, topic_set: TopicSet, item: SetItemRow) -> None:
    """Put another item in the place of the one with its position."""
    where = {"school_id": topic_set.school_id, "set_id": topic_set.id, "at_position": item.position}
    connection.execute(REMOVE_ITEM, where)
    connection.execute(ADD_ITEM, _of_set(topic_set, item))


def _of_set(topic_set: TopicSet, item: SetItemRow) -> dict[str, Any]:
    return item._asdict() | {"school_id": topic_set.school_id, "topic_set_id": topic_set.id}
