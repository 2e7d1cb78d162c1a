"""Taking along what a visitor practised before they signed in: copied into their own visit, once."""

from datetime import datetime

from app.services import learning
from app.services.actor import Actor, Role
from app.storage.queries import taking_along, tallies, visits
from app.storage.unit_of_work import UnitOfWork


def take_along(uow: UnitOfWork, visitor: Actor, person: Actor, now: datetime) -> int:
    """Copy a visitor's drills and answers to somebody's account and end the visit; return how many answers came."""
    if visitor.role is not Role.VISITOR or visitor.visit_id is None:
        return 0
    goal = (person.school_id, person.own_visit)
    with uow.writer() as connection:
        count = taking_along.copy_drills(connection, (visitor.school_id, visitor.visit_id), goal, now)
        tallies.count_again(connection, *goal, now)
        learning.rebuild(connection, *goal)
        visits.revoke_visit(connection, visitor.school_id, visitor.visit_id, now)
    return count
