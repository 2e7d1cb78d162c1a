"""Answering in a rehearsal: answers and flags are kept as drafts, and graded once, when it is handed in."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime
from typing import NamedTuple
from uuid import UUID

from app.grader.grade import grade
from app.learner.difficulty import FamilyDifficulty
from app.packs.library import Library
from app.services.actor import Actor
from app.services.difficulty import list_difficulties
from app.services.errors import Conflict, Invalid, NotFound
from app.services.items import ItemView, find_item, get_item, view_item
from app.services.learning import learn, rebuild
from app.services.practice import Graded, Sent, new_attempt, read_reply
from app.services.rehearsals import Phase, load_rehearsal, phase_of, require_phase
from app.storage.models import Rehearsal, RehearsalDraft
from app.storage.queries import attempts, drills, rehearsals, tallies
from app.storage.queries.attempts import AttemptRow
from app.storage.queries.drills import DrillRow, PlaceRow
from app.storage.unit_of_work import UnitOfWork

# What goes with an answer and is no part of it.
AROUND = frozenset({"csrf_token", "sent", "item", "flag", "to"})


class AskedView(NamedTuple):
    """One question of a running rehearsal, with what was filled in so far."""

    item_id: UUID
    item: ItemView
    filled_in: Mapping[str, Sequence[str]]
    flagged: bool


def ask(uow: UnitOfWork, actor: Actor, library: Library, which: tuple[UUID, int], now: datetime) -> AskedView:
    """Return the question at (rehearsal, position); Conflict when the clock does not run, NotFound for a stranger's."""
    with uow.reader() as connection:
        row = load_rehearsal(connection, actor, which[0])
        require_phase(row, actor, now)
        drill = drills.find_drill(connection, actor.school_id, actor.own_visit, row.drill_id)
        place = _place_at(drills.list_places(connection, actor.school_id, row.drill_id), which[1])
        draft = rehearsals.list_drafts(connection, actor.school_id, row.drill_id).get(place.id)
    item = get_item(library, place, _conventions(drill), actor.language)
    kept = draft or RehearsalDraft(actor.school_id, place.id, {}, False, now)  # noqa: FBT003 - a row
    return AskedView(place.id, view_item(library, item, actor.language), kept.fields, kept.flagged)


def keep_answer(
    uow: UnitOfWork, actor: Actor, library: Library, which: tuple[UUID, int], sent: Sent, now: datetime
) -> None:
    """Keep an answer in place of an earlier one; with the field `flag`, put the flag on or take it off as well.

    An answer that cannot be read is Invalid and changes nothing, except that an empty one may go with a flag or with
    `to`, a way to another question. Conflict when the clock does not run or other numbers were shown.
    """
    flag = "flag" in sent.fields
    may_be_empty = flag or "to" in sent.fields
    filled_in = {name: list(values) for name, values in sent.fields.items() if name not in AROUND}
    with uow.writer() as connection:
        row = load_rehearsal(connection, actor, which[0])
        require_phase(row, actor, now)
        drill = drills.find_drill(connection, actor.school_id, actor.own_visit, row.drill_id)
        place = _place_at(drills.list_places(connection, actor.school_id, row.drill_id), which[1])
        before = rehearsals.list_drafts(connection, actor.school_id, row.drill_id).get(place.id)
        draft = before or RehearsalDraft(actor.school_id, place.id, {}, False, now)  # noqa: FBT003 - a row
        item = get_item(library, place, _conventions(drill), actor.language)
        try:
            read_reply(library, item, sent, actor.language)
            draft = replace(draft, fields=filled_in)
        except Invalid:
            if not may_be_empty or any(
                value.strip() for name, each in filled_in.items() if name != "stamp" for value in each
            ):
                raise
        draft = replace(draft, flagged=draft.flagged != flag, changed_at=now)
        rehearsals.keep_draft(connection, draft)


def hand_in(uow: UnitOfWork, actor: Actor, library: Library, rehearsal_id: UUID, now: datetime) -> None:
    """Grade what was filled in, once, as of now or of the end if that has passed; a second time changes nothing."""
    with uow.writer() as connection:
        row = load_rehearsal(connection, actor, rehearsal_id)
        phase = phase_of(row, now)
        if phase is Phase.MARKED:
            return
        submitted_at = row.ends_at if phase is Phase.OVER else row.paused_at or now
        drill = drills.find_drill(connection, actor.school_id, actor.own_visit, row.drill_id)
        places = drills.list_places(connection, actor.school_id, row.drill_id)
        drafts = rehearsals.list_drafts(connection, actor.school_id, row.drill_id)
        late = rehearsals.has_answers_from(connection, actor.school_id, actor.own_visit, submitted_at)
        difficulties = list_difficulties(connection, actor.school_id, library)
        graded = _graded(library, actor, (_conventions(drill), places, difficulties), drafts, submitted_at)
        for attempt in graded:
            attempts.add_attempt(connection, attempt)
            tallies.count_attempt(connection, attempt)
            if not late:
                learn(connection, attempt)
        if late:  # answers came after the end: what is known follows the order of the answers
            rebuild(connection, actor.school_id, actor.own_visit)
        rehearsals.set_times(connection, _submitted(row, submitted_at))


def _graded(
    library: Library,
    actor: Actor,
    of: tuple[dict[str, object], Sequence[PlaceRow], Mapping[str, FamilyDifficulty]],
    drafts: Mapping[UUID, RehearsalDraft],
    moment: datetime,
) -> Sequence[AttemptRow]:
    """Return the attempts in the order of their ids, in which they are read again; a revised question has none."""
    conventions, places, difficulties = of
    made = []
    for place in places:
        draft = drafts.get(place.id)
        item = find_item(library, place, conventions)
        if draft is None or not draft.fields or item is None:
            continue
        try:
            reply = read_reply(library, item, Sent(draft.fields), actor.language)
        except (Invalid, Conflict):
            continue
        marked = Graded(item, reply, grade(library, item, reply), difficulties[item.family])
        made.append(new_attempt(library, actor, place.id, marked, None, moment))
    return sorted(made, key=lambda attempt: attempt.id)


def _submitted(row: Rehearsal, moment: datetime) -> Rehearsal:
    return replace(row, paused_at=None, submitted_at=moment)


def _place_at(places: Sequence[PlaceRow], position: int) -> PlaceRow:
    for place in places:
        if place.position == position:
            return place
    raise NotFound(position)


def _conventions(drill: DrillRow | None) -> dict[str, object]:
    if drill is None:
        raise NotFound("no drill")
    return drill.conventions
