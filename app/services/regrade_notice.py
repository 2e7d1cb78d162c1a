"""What a learner is told of their answers that were marked again: which, the mark before and the mark now."""

from collections import Counter
from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import NamedTuple
from uuid import UUID

from app.packs.library import Library
from app.services.actor import Actor
from app.services.reveal import held_items
from app.storage.queries import regrading
from app.storage.queries.regrading import UntoldRow
from app.storage.unit_of_work import UnitOfWork

MOST_NAMED = 20


class Touched(NamedTuple):
    """One answer: its question, what was done to it, and both marks; `held`: its mark may not be seen yet."""

    item_id: UUID
    title: str
    deed: str
    before: str
    now: str
    held: bool


class RegradeNotice(NamedTuple):
    """How many answers, by what was done to them; the latest by name, and how many more there are."""

    counts: Mapping[str, int]
    touched: Sequence[Touched]
    more: int


def regrade_notice(uow: UnitOfWork, actor: Actor, library: Library, now: datetime) -> RegradeNotice | None:
    """Return what the actor has not read of yet; None where there is nothing."""
    untold = list_untold(uow, actor)
    if not untold:
        return None
    with uow.reader() as connection:
        held = held_items(connection, actor, now)
    named = tuple(_touched(row, library, actor, row.drill_item_id in held) for row in untold[-MOST_NAMED:])
    return RegradeNotice(Counter(row.deed for row in untold), named, len(untold) - len(named))


def list_untold(uow: UnitOfWork, actor: Actor) -> Sequence[UntoldRow]:
    """Return the actor's answers that were marked again and that they have not read of."""
    if actor.visit_id is None:
        return ()
    with uow.reader() as connection:
        return regrading.list_untold(connection, actor.school_id, actor.visit_id)


def tell(uow: UnitOfWork, actor: Actor, now: datetime) -> None:
    """Note that the actor has read what was marked again."""
    with uow.writer() as connection:
        regrading.tell(connection, actor.school_id, actor.own_visit, now)


def _touched(row: UntoldRow, library: Library, actor: Actor, held: bool) -> Touched:  # noqa: FBT001 - what may be seen
    family = library.families.get(row.family)
    return Touched(
        item_id=row.drill_item_id,
        title=family.title.of(actor.language) if family else row.family,
        deed=row.deed,
        before=_mark(row.old_correct, row.old_share),
        now=_mark(row.new_correct, row.new_share),
        held=held,
    )


def _mark(correct: bool, share: float) -> str:  # noqa: FBT001 - the mark itself
    return "right" if correct else "partly" if share > 0 else "missed"
