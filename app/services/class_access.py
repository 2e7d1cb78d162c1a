"""Loading a class and asking whether the actor may see it are one call."""

from uuid import UUID

from sqlalchemy import Connection

from app.services.actor import Actor, Role
from app.services.errors import NotAllowed, NotFound
from app.storage.models import SchoolClass
from app.storage.queries import classes


def taught_class(connection: Connection, actor: Actor, class_id: UUID) -> SchoolClass:
    """Return a class the actor teaches, or any of the own school for its administrator.

    NotFound for a class of another school or none, and for whoever has nothing to do with it; NotAllowed for another
    instructor of the school and for its own students.
    """
    found = classes.find_class(connection, actor.school_id, class_id)
    if found is None or actor.person_id is None:
        raise NotFound(class_id)
    if actor.role is Role.SCHOOL:
        return found
    if actor.role is Role.INSTRUCTOR:
        if class_id not in classes.list_taught(connection, actor.school_id, actor.person_id):
            raise NotAllowed(class_id)
        return found
    if class_id in classes.list_attended(connection, actor.school_id, actor.person_id):
        raise NotAllowed(class_id)
    raise NotFound(class_id)
