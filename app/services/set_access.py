"""Loading a topic set and asking whether the actor may see or change it are one call.

Every instructor of a school sees and changes all its sets; the version each change names keeps two from undoing
each other.
"""

from collections.abc import Mapping
from typing import Any
from uuid import UUID

from sqlalchemy import Connection

from app.services.actor import Actor, Role
from app.services.errors import Conflict, NotFound
from app.services.messages import say
from app.storage.models import TopicSet
from app.storage.queries import topic_sets
from app.storage.queries.topic_sets import SetChanged

TEACHING = (Role.INSTRUCTOR, Role.SCHOOL)


def school_set(connection: Connection, actor: Actor, set_id: UUID) -> TopicSet:
    """Return a set of the actor's school; NotFound for another school's and for whoever does not teach."""
    found = topic_sets.find_set(connection, actor.school_id, set_id) if actor.role in TEACHING else None
    if found is None:
        raise NotFound(set_id)
    return found


def set_at_version(connection: Connection, actor: Actor, set_id: UUID, version: int) -> TopicSet:
    """Return a set to be changed; Conflict when somebody has changed it since this version."""
    found = school_set(connection, actor, set_id)
    if found.version != version:
        raise _changed(actor, found)
    return found


def unlocked_set(connection: Connection, actor: Actor, set_id: UUID, version: int) -> TopicSet:
    """Return a set whose items may be changed; Conflict when they are locked."""
    found = set_at_version(connection, actor, set_id, version)
    if found.locked_at is not None:
        raise Conflict(say("set-locked", actor.language))
    return found


def keep_changes(connection: Connection, actor: Actor, row: TopicSet, changes: Mapping[str, Any]) -> None:
    """Change a set as it was loaded; Conflict when somebody was quicker."""
    try:
        topic_sets.change_set(connection, row, changes)
    except SetChanged as error:
        raise _changed(actor, row) from error


def _changed(actor: Actor, row: TopicSet) -> Conflict:
    return Conflict(say("set-changed", actor.language, title=row.title))
