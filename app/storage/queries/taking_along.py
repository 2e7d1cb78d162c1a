"""Copying what a visit practised to another visit, also of another school, under keys of their own."""

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import Connection, bindparam, insert, select

from app.storage.ids import new_id
from app.storage.queries.drills import ATTEMPT, DRILL, ITEM

Visit = tuple[UUID, UUID]

_OF_SCHOOL = {table: table.c.school_id == bindparam("school_id") for table in (DRILL, ITEM, ATTEMPT)}
_DRILL = (DRILL.c.visit_id == bindparam("visit_id")) & (DRILL.c.purpose == "practice")
DRILLS = select(DRILL).where(_OF_SCHOOL[DRILL], _DRILL).order_by(DRILL.c.started_at, DRILL.c.id)
_ITEM_OF_DRILL = (DRILL.c.school_id == ITEM.c.school_id) & (DRILL.c.id == ITEM.c.drill_id)
ITEMS = select(ITEM).join(DRILL, _ITEM_OF_DRILL).where(_OF_SCHOOL[ITEM], _DRILL)
_ATTEMPT_OF_ITEM = (ATTEMPT.c.school_id == ITEM.c.school_id) & (ATTEMPT.c.drill_item_id == ITEM.c.id)
ATTEMPTS = select(ATTEMPT).join(ITEM, _ATTEMPT_OF_ITEM).join(DRILL, _ITEM_OF_DRILL).where(_OF_SCHOOL[ATTEMPT], _DRILL)


def copy_drills(connection: Connection, source: Visit, goal: Visit, now: datetime) -> int:
    """Copy the drills of practice of a visit, (school, id), with places and answers; return how many answers."""
    of = dict(zip(("school_id", "visit_id"), source, strict=True))
    drills, items, attempts = (connection.execute(each, of).mappings().all() for each in (DRILLS, ITEMS, ATTEMPTS))
    drill_ids, item_ids = ({row["id"]: new_id(now) for row in rows} for rows in (drills, items))
    attempt_ids = sorted(new_id(row["answered_at"]) for row in attempts)  # answers keep their order
    school, own = {"school_id": goal[0]}, dict(zip(("school_id", "visit_id"), goal, strict=True))
    _add(connection, DRILL, [{**row, **own, "id": drill_ids[row["id"]]} for row in drills])
    places = [{**row, **school, "id": item_ids[row["id"]], "drill_id": drill_ids[row["drill_id"]]} for row in items]
    _add(connection, ITEM, places)
    answers = [
        {**row, **own, "id": fresh, "drill_item_id": item_ids[row["drill_item_id"]]}
        for row, fresh in zip(attempts, attempt_ids, strict=True)
    ]
    _add(connection, ATTEMPT, answers)
    return len(answers)


def _add(connection: Connection, table: Any, rows: list[dict[str, Any]]) -> None:
    if rows:
        connection.execute(insert(table), rows)
