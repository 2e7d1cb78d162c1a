"""What became of the misconception that a drill was started to mend."""

from typing import Any, NamedTuple

from app.packs.library import Library
from app.services.actor import Actor
from app.services.today import MENDED_BELOW, misconception_words
from app.services.withdrawals import load_offered
from app.storage.queries import learners
from app.storage.unit_of_work import UnitOfWork


class Mending(NamedTuple):
    """A misconception, "family/name", in words, and whether all answers so far speak of it as mended.

    asked: whether its family is asked at present, so that one can go on mending it.
    """

    id: str
    name: str
    mended: bool
    asked: bool


def mending_of(uow: UnitOfWork, actor: Actor, library: Library, aim: dict[str, Any] | None) -> Mending | None:
    """Return how it stands with what a drill of this aim mends; None where it mends nothing known."""
    misconception = str((aim or {}).get("misconception", ""))
    family, _, name = misconception.partition("/")
    words = misconception_words(library, family, name, actor)
    if words is None:
        return None
    with uow.reader() as connection:
        skill = learners.find_known(connection, actor.school_id, actor.own_visit, family).skill
        asked = family in load_offered(connection, actor, library).families
    held = skill.misconceptions.get(name, 0.0) if skill else 1.0
    return Mending(misconception, words, held < MENDED_BELOW, asked)
