"""Reports of a problem with a question."""

from datetime import datetime
from uuid import UUID

from app.packs.library import Library
from app.services.actor import Actor
from app.storage.unit_of_work import UnitOfWork

LONGEST_TEXT = 2000


def report_problem(uow: UnitOfWork, actor: Actor, library: Library, item_id: UUID, text: str, now: datetime) -> None:
    """Keep what somebody found wrong with an item of theirs, with its exact numbers. Invalid for an empty or long text."""
    raise NotImplementedError
