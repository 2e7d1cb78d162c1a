"""The packs together with what a school's instructors wrote: one library, so that own questions are like any other."""

import logging
from collections import OrderedDict
from collections.abc import Iterable
from dataclasses import replace
from uuid import UUID

from app.packs.library import Library
from app.packs.own import own_body
from app.packs.spec import Family, Pack
from app.services.actor import Actor
from app.storage.queries import own_questions
from app.storage.queries.own_questions import AskedRow
from app.storage.unit_of_work import UnitOfWork

PREFIX = "own-"
MOST_SCHOOLS = 32  # libraries that a worker keeps; another school's is put together anew


class OwnLibraries:
    """Keeps the libraries of the schools that ask questions of their own, each until packs or questions change."""

    def __init__(self) -> None:
        self._kept: OrderedDict[UUID, tuple[Library, int, Library]] = OrderedDict()

    def library_of(self, uow: UnitOfWork, actor: Actor, packs: Library) -> Library:
        """Return the library of the actor's school; the packs themselves where it has written nothing."""
        if not actor.own_revision:
            return packs
        kept = self._kept.get(actor.school_id)
        if kept is None or kept[0] is not packs or kept[1] != actor.own_revision:
            kept = packs, actor.own_revision, school_library(uow, actor.school_id, packs)
            self._kept[actor.school_id] = kept
            while len(self._kept) > MOST_SCHOOLS:
                self._kept.popitem(last=False)
        return kept[2]


def school_library(uow: UnitOfWork, school_id: UUID, packs: Library) -> Library:
    """Return the packs with what a school asks of its own; the packs themselves where that is nothing.

    A retired question is known still, for what was made with it, and listed in no pack: new draws leave it out.
    """
    with uow.reader() as connection:
        asked = own_questions.list_asked(connection, school_id)
    families = [(row, family) for row in asked if (family := _family_of(row, packs)) is not None]
    if not families:
        return packs
    listed = with_families(packs, (family for row, family in families if not row.retired))
    kept = {family.id: family for row, family in families if row.retired}
    return replace(
        listed, families={**listed.families, **kept}, files={**listed.files, **{each: each for each in kept}}
    )


def with_families(packs: Library, families: Iterable[Family]) -> Library:
    """Return the packs with more families, each last in the pack of its topic; one that was there gives way."""
    more = {family.id: family for family in families}

    def listed(pack: Pack) -> tuple[str, ...]:
        kept = (each for each in pack.families if each not in more)
        return (*kept, *(each.id for each in more.values() if each.topic == pack.id))

    return replace(
        packs,
        packs={pack.id: pack.model_copy(update={"families": listed(pack)}) for pack in packs.packs.values()},
        families={**packs.families, **more},
        files={**packs.files, **{family_id: family_id for family_id in more}},
    )


def family_id(question_id: UUID) -> str:
    """Return what an own question is called among the families."""
    return f"{PREFIX}{question_id.hex}"


def question_of(family: str) -> UUID | None:
    """Return which own question a family is; None for one of the packs."""
    try:
        return UUID(hex=family.removeprefix(PREFIX)) if family.startswith(PREFIX) else None
    except ValueError:
        return None


def _family_of(row: AskedRow, packs: Library) -> Family | None:
    """Return a question as a family; None for one of a topic that is no more, or that cannot be read."""
    try:
        body = own_body(row.body)
        family = body.as_family(family_id(row.question_id), row.version)
    except ValueError:
        logging.getLogger(__name__).exception("Own question %s, version %s, is left out.", row.question_id, row.version)
        return None
    return family if body.topic in packs.packs else None
